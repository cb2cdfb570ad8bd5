import { fireEvent, screen } from "@solidjs/testing-library";
import { describe, expect, it } from "vitest";
import { evolve } from "#shared/kitchen/events/evolve.ts";
import type { KitchenEvent } from "#shared/kitchen/model/event.ts";
import { recipeFacts } from "#shared/kitchen/mixing/recipes.ts";
import type { MixedBatch, Recipe } from "#shared/kitchen/model/vocabulary.ts";
import { aPhone, texts } from "#tests/support/a-phone.tsx";
import { type BusyBoard, busyBoard } from "#tests/support/board-fixture.ts";
import { HOUR, id } from "#tests/support/scene.ts";

const HOUSE: Recipe = {
  id: id("house"),
  name: "House icing",
  ingredients: [
    { name: "Icing sugar", amount: 900, unit: "g" },
    { name: "Water", amount: 100, unit: "mL" },
  ],
  allergens: "egg",
  method: "Sieve, then whip.",
};

/** The busy board, on which storm is made by a recipe and what the Moons were laid with came from a batch that was recorded. */
function traced(): BusyBoard {
  const on = busyBoard();
  const base = { by: id<MixedBatch["id"]>("wren"), actId: id("x"), atMs: on.nowMs } as object;
  const batch = {
    id: "b1",
    icingId: "storm",
    consistency: "top-coat",
    mixedAtMs: on.nowMs - 2 * HOUR,
    useByAtMs: on.nowMs + 4 * HOUR,
    massG: 400,
    recipeId: "house",
    allergens: "egg",
  };
  const events = [
    { type: "recipe-put", recipe: HOUSE },
    { type: "icing-put", icing: { ...on.kitchen.icings["storm"], recipeId: "house" } },
    { type: "batch-mixed", batch },
  ].map((event) => ({ ...base, ...event }) as KitchenEvent);
  const kitchen = events.reduce(evolve, on.kitchen);
  const trays = Object.fromEntries(
    Object.entries(kitchen.trays).map(([trayId, tray]) => [
      trayId,
      tray.designId === "moon"
        ? { ...tray, films: tray.films.map((film) => ({ ...film, bowl: { id: "b1" } })) }
        : tray,
    ]),
  );
  return { ...on, kitchen: { ...kitchen, trays } };
}

const type = (label: string, value: string): void =>
  void fireEvent.input(screen.getByLabelText(label), { target: { value } });

describe("a batch of icing", () => {
  it("says what it is, what was laid from it and for which order", async () => {
    const { container } = await aPhone("#/batch/b1", { on: traced() });
    expect(screen.getByRole("heading", { level: 1 }).textContent).toBe("Storm top-coat");
    expect(screen.getByText("400 g mixed 08:00, use by 14:00 · by Wren")).toBeTruthy();
    expect(screen.getByText("Allergens, as its recipe said then: egg")).toBeTruthy();
    expect(container.querySelector('a[href="#/recipes/house"]')?.textContent).toBe("Recipe: House icing");
    expect(container.querySelector('.laid-from a[href="#/orders/walk"]')?.textContent).toBe("Lantern Walk");
    expect(texts(container, ".laid-from > span")).toEqual(["Moon, layer 1, laid 09:00–09:02"]);
    expect(texts(container, '.laid-from a[href^="#/t/"]')).toEqual(["10", "7", "33"]);
  });

  it("found wrong it says so there, on its trays and on their order, and an undo takes that back", async () => {
    const { container, board } = await aPhone("#/batch/b1", { on: traced() });
    fireEvent.click(screen.getByText("This batch was wrong"));
    fireEvent.click(screen.getByText("Say so"));
    expect(board.kitchen().batches["b1"]?.wrong).toBeUndefined();
    type("What was wrong", "Sugar not sieved");
    fireEvent.click(screen.getByText("Say so"));
    expect(board.kitchen().batches["b1"]?.wrong).toMatchObject({ why: "Sugar not sieved", by: "wren" });
    expect(texts(container, ".batch-wrong strong")).toEqual(["This batch was wrong: Sugar not sieved"]);
    const { unmount } = await aPhone("#/t/7", { on: { ...traced(), kitchen: board.kitchen() } });
    expect(
      screen.getByText(/Layer 1: the batch was wrong \(storm top-coat mixed 08:00\): Sugar/),
    ).toBeTruthy();
    unmount();
    fireEvent.click(screen.getByText("Undo"));
    expect(board.kitchen().batches["b1"]?.wrong).toBeUndefined();
    expect(container.querySelector(".batch-wrong")).toBeNull();
  });

  it("a batch that is not kept is said to be gone", async () => {
    await aPhone("#/batch/none", { on: traced() });
    expect(screen.getByText("This batch is not kept any more.")).toBeTruthy();
  });

  it("is reached from icing to mix, and from a tray, whose other layers say that none is recorded", async () => {
    const mix = await aPhone("#/icing", { on: traced() });
    expect(mix.container.querySelector('.batches a[href="#/batch/b1"]')).not.toBeNull();
    mix.unmount();
    const tray = await aPhone("#/t/7", { on: traced() });
    expect(texts(tray.container, ".tray-batches li")).toEqual(["Layer 1, storm top-coat: batch mixed 08:00"]);
    tray.unmount();
    const other = await aPhone("#/t/18", { on: traced() });
    expect(texts(other.container, ".tray-batches li")).toEqual([
      "Layer 1, sea glass outline: no batch recorded",
      "Layer 2, sea glass flood: no batch recorded",
    ]);
  });
});

describe("an order's allergens", () => {
  it("are its own words and its batches', with what is not known, and never an all-clear", async () => {
    const walk = await aPhone("#/orders/walk", { on: traced() });
    const told = texts(walk.container, ".order-batches p").join(" ");
    expect(told).toContain("No allergens are written on the order.");
    expect(told).toContain("From its icing: egg (storm top-coat mixed 08:00)");
    expect(told).toMatch(/No batch is recorded for \d+ of \d+ layers laid\./);
    expect(told).toContain("Nothing here says that something is not in the cookies.");
    walk.unmount();
    const club = await aPhone("#/orders/club", { on: traced() });
    const own = texts(club.container, ".order-batches p").join(" ");
    expect(own).toContain("On the order: egg, wheat, milk");
    expect(own).toContain("Nothing here says that something is not in the cookies.");
  });
});

describe("recipes", () => {
  it("one is scaled to what is to be mixed, as written, or to what is typed", async () => {
    const { container } = await aPhone("#/recipes/house", { on: traced() });
    const amounts = (): string[] => texts(container, ".mix td");
    fireEvent.click(screen.getByText("As written: 1 kg"));
    expect(amounts()).toEqual(["900 g", "100 mL"]);
    type("How much to make", "200");
    expect(amounts()).toEqual(["180 g", "20 mL"]);
    fireEvent.click(screen.getByText(/What is to be mixed: /));
    expect(amounts()).not.toEqual(["180 g", "20 mL"]);
    type("How much to make", "0");
    expect(screen.getByText(/How much to make must be 1 to 50000 g/)).toBeTruthy();
    // Decorators read; leads change.
    expect(screen.queryByText("Change the recipe")).toBeNull();
  });

  it("a lead writes one; what is missing is said, and nothing is kept until it is there", async () => {
    const { board } = await aPhone("#/recipes", { on: traced(), person: "ida" });
    fireEvent.click(screen.getByText("Add a recipe"));
    type("Recipe's name", "Egg white icing");
    type("What", "Egg white");
    fireEvent.click(screen.getByText("Save"));
    expect(Object.keys(board.kitchen().recipes ?? {})).toEqual(["house"]);
    expect(screen.getByText("How much is missing.")).toBeTruthy();
    type("How much", "165");
    fireEvent.click(screen.getByText("Add an ingredient"));
    expect(screen.getAllByLabelText("What")).toHaveLength(2);
    fireEvent.click(screen.getByText("Remove ingredient 2"));
    type("Allergens", "egg");
    type("Method", "Whip slowly.");
    fireEvent.click(screen.getByText("Save"));
    expect(Object.values(board.kitchen().recipes ?? {}).at(-1)).toMatchObject({
      name: "Egg white icing",
      ingredients: [{ name: "Egg white", amount: 165, unit: "g" }],
      allergens: "egg",
      method: "Whip slowly.",
    });
    expect(screen.getByText("Egg white icing")).toBeTruthy();
  });

  it("one that an icing is made by is not removed; without icings it is", async () => {
    const { board, went } = await aPhone("#/recipes/house", { on: traced(), person: "ida" });
    fireEvent.click(screen.getByText("Change the recipe"));
    fireEvent.click(screen.getByText("Remove"));
    expect(board.kitchen().recipes?.["house"]).toBeDefined();
    expect(screen.getByText(/storm is made by House icing/i)).toBeTruthy();
    expect(went).toEqual([]);
  });

  it("mixing records a batch with the icing's recipe and its allergens", async () => {
    const on = traced();
    const { board } = await aPhone("#/icing", { on });
    const [first] = screen.getAllByLabelText("top-coat: mixed");
    fireEvent.click(first!);
    expect(screen.getByText("By House icing. Allergens: egg.")).toBeTruthy();
    type("Use by", "2026-05-04T15:00");
    fireEvent.submit(screen.getByLabelText("Use by").closest("form")!);
    const mixed = Object.values(board.kitchen().batches).find(({ id }) => id !== "b1");
    expect(mixed).toMatchObject({ icingId: "storm", ...recipeFacts(board.kitchen(), "storm") });
    expect(mixed?.allergens).toBe("egg");
  });
});
