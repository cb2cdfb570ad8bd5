import { fireEvent, screen } from "@solidjs/testing-library";
import { describe, expect, it } from "vitest";
import type { OrderId, PersonId } from "#shared/ids.ts";
import type { Command } from "#shared/kitchen/model/command.ts";
import type { Kitchen, PlaceState } from "#shared/kitchen/model/state.ts";
import type { Place } from "#shared/kitchen/model/vocabulary.ts";
import { aPhone, texts } from "#tests/support/a-phone.tsx";
import { type BusyBoard, busyBoard } from "#tests/support/board-fixture.ts";
import { HOUR, id } from "#tests/support/scene.ts";

type APhone = Awaited<ReturnType<typeof aPhone>>;

const fill = (label: string | RegExp, value: string): void =>
  void fireEvent.input(screen.getByLabelText(label), { target: { value } });

/** Another lead saves something, and this phone hears of it. */
async function meanwhile({ server, socket }: APhone, input: object): Promise<void> {
  const answer = server.submit({ commandId: "other", ...input } as unknown as Command, id("ida"));
  expect(answer).toMatchObject({ ok: true });
  await socket.flush();
}
async function save({ server, socket }: APhone): Promise<Kitchen> {
  screen.getByRole("button", { name: "Save" }).click();
  await socket.flush();
  return server.kitchen;
}

/** A busy board with one more order, on no tray yet. */
function withOrder(orderId: string): BusyBoard {
  const on = busyBoard();
  const order = { id: id<OrderId>(orderId), name: "Gulls", pickUpAtMs: on.nowMs + 9 * HOUR, cookies: 12 };
  return { ...on, kitchen: { ...on.kitchen, orders: { ...on.kitchen.orders, [orderId]: order } } };
}

const withoutPast = ({ was: _was, ...place }: PlaceState): Place => place;

describe("two leads change one thing at once", () => {
  it("C15 an order keeps the allergens that someone else saved meanwhile", async () => {
    const phone = await aPhone("#/orders/club", { person: "ida" });
    screen.getByText("Change the order").click();
    const { archived: _, ...order } = phone.server.kitchen.orders["club"]!;
    const theirs = { ...order, allergens: "egg, wheat, milk, almond", cookies: 60 };
    await meanwhile(phone, { type: "put-order", order: theirs });
    fill("Note", "gold ribbon");
    const kitchen = await save(phone);
    expect(kitchen.orders["club"]).toEqual({ ...theirs, note: "gold ribbon" });
  });

  it("K23 an order changed on a phone without a connection stays gone where it was cancelled meanwhile", async () => {
    const phone = await aPhone("#/orders/new-one", { person: "ida", on: withOrder("new-one") });
    screen.getByText("Change the order").click();
    phone.socket.cut();
    fill("Note", "gold ribbon");
    await save(phone);
    phone.server.submit(
      { commandId: "other", type: "cancel-order", orderId: "new-one" } as unknown as Command,
      id("ida"),
    );
    await phone.timer.pass(1000);
    phone.socket.connect();
    await phone.socket.flush();
    expect(phone.server.kitchen.orders["new-one"]).toBeUndefined();
    expect(phone.container.querySelector(".refusal")?.textContent).toMatch(/That order is not here any more/);
  });

  it("C15 settings: only what was changed is sent, a day's hours and a wall's figures each by themselves", async () => {
    const phone = await aPhone("#/kitchen/settings", { person: "ida" });
    const { opening, wall } = phone.server.kitchen.settings;
    await meanwhile(phone, {
      type: "set-kitchen",
      settings: {
        houseRules: ["Two at the oven."],
        hands: 2,
        wall: { ...wall, diagonalCm: 80 },
        opening: opening.with(1, null),
      },
    });
    fill("Farthest reader of the wall", "5");
    screen.getByLabelText("The same hours every day").click();
    fireEvent.change(screen.getByLabelText("Monday, closes"), { target: { value: "18:00" } });
    const { settings } = await save(phone);
    expect(phone.server.arrived.at(-1)).toMatchObject({ type: "set-kitchen" });
    expect(Object.keys((phone.server.arrived.at(-1) as { settings: object }).settings).toSorted()).toEqual([
      "opening",
      "wall",
    ]);
    expect(settings).toMatchObject({
      houseRules: ["Two at the oven."],
      hands: 2,
      wall: { diagonalCm: 80, farthestM: 5 },
    });
    expect(settings.opening.slice(0, 2)).toEqual([{ fromMin: 360, toMin: 1080 }, null]);
  });

  it("C15 settings saved with nothing changed send nothing", async () => {
    const phone = await aPhone("#/kitchen/settings", { person: "ida" });
    await save(phone);
    expect(phone.server.arrived).toEqual([]);
    expect(phone.went).toEqual(["room"]);
  });

  it.each([
    [
      "place",
      "#/kitchen/places",
      "Fan rack",
      "Trays it holds",
      "7",
      // What it was set to before is kept beside it, and no form's.
      ({ places }: Kitchen) => withoutPast(places["fan"]!),
      { airSpeedMs: 3 },
      { capacity: 7 },
    ],
    [
      "tool",
      "#/kitchen/tools",
      "Hot-air tool 1",
      "Cools down in",
      "12",
      (kitchen: Kitchen) => kitchen.tools["hot-1"]!,
      { maxAirC: 300 },
      { coolDownMin: 12 },
    ],
    [
      "icing",
      "#/icings",
      "storm",
      "Water for detail",
      "15",
      (kitchen: Kitchen) => kitchen.icings["storm"]!,
      { waterPct: { flood: 20 } },
      { waterPct: { flood: 20, detail: 15 } },
    ],
    [
      "design",
      "#/designs/moon",
      // On a screen of its own.
      undefined,
      "Design's name",
      "Full moon",
      (kitchen: Kitchen) => kitchen.designs["moon"]!,
      { sizeMm: 70 },
      { name: "Full moon" },
    ],
  ])(
    "C16 a %s that is open keeps what is typed, and what someone else saved",
    async (what, hash, name, label, value, of, theirs, mine) => {
      const phone = await aPhone(hash, { person: "ida" });
      if (name !== undefined) screen.getByRole("button", { name: new RegExp(`^${name}`) }).click();
      await screen.findByLabelText(label);
      fill(label, value);
      const before = of(phone.server.kitchen);
      await meanwhile(phone, { type: `put-${what}`, [what]: { ...before, ...theirs } });
      const after = of(await save(phone));
      expect(after).toEqual({ ...before, ...theirs, ...mine });
    },
  );
});

describe("K33 a bench screen", () => {
  const withBench = (): BusyBoard => {
    const on = busyBoard();
    const bench = { id: id<PersonId>("bench"), name: "Bench 1", role: "decorator" as const, isBench: true };
    return { ...on, kitchen: { ...on.kitchen, people: { ...on.kitchen.people, bench } } };
  };

  it("is not counted among those who ice", async () => {
    await aPhone("#/kitchen/settings", { person: "ida", on: withBench() });
    expect(screen.getByText(/Empty: everyone who joined, 3 now\./)).toBeTruthy();
  });

  it("is not among those to hand a tool to", async () => {
    await aPhone("#/heat", { on: withBench() });
    screen.getByRole("button", { name: /^Hot-air tool 1/ }).click();
    screen.getByRole("button", { name: "Hand over" }).click();
    expect(texts(screen.getByRole("dialog"), ".choices button")).toEqual(["Ida", "Sol"]);
  });
});

describe("K39 a lead clears people in a few taps", () => {
  const withJokes = (count: number): BusyBoard => {
    const on = busyBoard();
    const jokes = Array.from({ length: count }, (_, k) => {
      const joke = { id: id<PersonId>(`joke-${k}`), name: `Joke ${k}`, role: "decorator" as const };
      return [joke.id, joke] as const;
    });
    return {
      ...on,
      kitchen: { ...on.kitchen, people: { ...on.kitchen.people, ...Object.fromEntries(jokes) } },
    };
  };

  it("ticks those with nothing on the board, and removes them at once", async () => {
    const { server, socket } = await aPhone("#/room", { person: "ida", on: withJokes(150) });
    screen.getByRole("button", { name: "Remove people…" }).click();
    screen.getByRole("button", { name: /^Tick the 15\d with nothing on the board$/ }).click();
    fireEvent.click(screen.getByLabelText("Remove Joke 7"));
    screen.getByRole("button", { name: /^Remove 1\d\d people$/ }).click();
    await socket.flush();
    const here = Object.values(server.kitchen.people).filter(({ leftAtMs }) => leftAtMs === undefined);
    expect(here.map(({ name }) => name).filter((name) => name.startsWith("Joke"))).toEqual(["Joke 7"]);
    expect(here.map(({ name }) => name)).toContain("Ida");
    expect(screen.queryByText("Joke 8")).toBeNull();
  });

  it("a decorator removes nobody", async () => {
    await aPhone("#/room", { person: "wren" });
    expect(screen.queryByRole("button", { name: "Remove people…" })).toBeNull();
  });

  it("an address that is no text is no page", async () => {
    await aPhone("#/t/%E0%A4%A");
    expect(screen.getByRole("heading", { name: "No such page" })).toBeTruthy();
  });
});
