import { fireEvent, screen } from "@solidjs/testing-library";
import { describe, expect, it } from "vitest";
import { icingToMix } from "#shared/kitchen/icing-needed.ts";
import { formatMass } from "#shared/units.ts";
import { aPhone, texts } from "#tests/support/a-phone.tsx";
import { busyBoard } from "#tests/support/board-fixture.ts";
import { settled } from "#tests/support/sockets.ts";

const type = (label: string, value: string): void =>
  void fireEvent.input(screen.getByLabelText(label), { target: { value } });

describe("icing to mix", () => {
  it("I6 I8 is a table by icing and consistency, its figures those of the sums, and says what is guessed", async () => {
    const on = busyBoard();
    const { container } = await aPhone("#/icing", { on });
    const toMix = icingToMix(on.kitchen, on.nowMs);
    expect(texts(container, ".mix .icing")).toEqual(["Butter", "Sea glass", "Storm"]);
    const rows = toMix.mixes.flatMap((mix) => mix.rows);
    expect(texts(container, ".mix tbody th[scope=row]:not([colspan])")).toEqual(
      rows.map(({ consistency }) => consistency),
    );
    expect(texts(container, '[data-what="mix"]')).toEqual(rows.map(({ mixG }) => formatMass(mixG)));
    expect(texts(container, ".need")[0]).toMatch(/^a guess: .+ on the cookies \(.+–.+g\)$/);
    expect(screen.getByText(/No area is given in Lantern and Moon/)).toBeTruthy();
    expect(screen.getByText(/in a bowl or a bag already is not known here/)).toBeTruthy();
    expect(screen.getByText(`Base icing in all: ${formatMass(toMix.baseG)}`)).toBeTruthy();
    expect(texts(container, ".cautions")[0]).toMatch(/pasteurised egg.*local codes/);
  });

  it("I8 of one order by its own page; the list leads to another", async () => {
    const on = busyBoard();
    const { container, went } = await aPhone("#/icing/club", { on });
    const own = icingToMix(on.kitchen, on.nowMs, "club");
    expect(texts(container, '[data-what="mix"]')).toEqual(
      own.mixes.flatMap(({ rows }) => rows).map(({ mixG }) => formatMass(mixG)),
    );
    const choice = screen.getByRole<HTMLSelectElement>("combobox");
    expect([...choice.options].map(({ text }) => text)).toEqual([
      "all open orders",
      "Puffin Club",
      "Lantern Walk",
    ]);
    expect(choice.value).toBe("club");
    fireEvent.change(choice, { target: { value: "walk" } });
    fireEvent.change(choice, { target: { value: "" } });
    expect(went).toEqual(["icing/walk", "icing"]);
  });

  it("is reached from the orders and from one order", async () => {
    const { container, unmount } = await aPhone("#/orders");
    expect(container.querySelector('a[href="#/icing"]')?.textContent).toBe("Icing to mix");
    unmount();
    const one = await aPhone("#/orders/walk");
    expect(one.container.querySelector('a[href="#/icing/walk"]')).not.toBeNull();
  });

  it("says in words that there is nothing to mix", async () => {
    const on = busyBoard();
    const bare = { ...on, kitchen: { ...on.kitchen, orders: {}, trays: {} } };
    const { unmount } = await aPhone("#/icing", { on: bare });
    expect(screen.getByText("Nothing to mix: no orders yet.")).toBeTruthy();
    unmount();
    const laid = await aPhone("#/icing/gone", { on });
    expect(screen.getByText(/This order is not here any more/)).toBeTruthy();
    expect(laid.container.querySelector(".mix")).toBeNull();
  });

  it("C4 without a connection it says of when its figures are", async () => {
    const { container, socket } = await aPhone("#/icing");
    expect(container.querySelector(".note.for-print")).not.toBeNull();
    socket.cut();
    await settled();
    expect(container.querySelector(".note.for-print")).toBeNull();
    expect(screen.getByText(/All open orders · as last heard Mon 10:00/)).toBeTruthy();
  });
});

describe("stirring in water", () => {
  // 200 g at 15.5 % to 20.5 %: 200 × 5 / 79.5 = 12.579 g.
  it("I7 tells the water for a weight of base, and what it comes to", async () => {
    const { container } = await aPhone("#/icing");
    expect(texts(container, ".stir-answer strong")).toEqual(["Stir in 13 g of water"]);
    type("Base icing", "1000");
    expect(texts(container, ".stir-answer")[0]).toBe(
      "Stir in 63 g of waterIt comes to 1.06 kg of flood at 20.5 % water.",
    );
    screen.getByLabelText(/^Outline/).click();
    expect(texts(container, ".stir-answer strong")).toEqual(["No water: use it as it is"]);
  });

  it("I7 never takes water out, and refuses figures by name and range", async () => {
    const { container } = await aPhone("#/icing");
    type("Water in it", "22");
    expect(texts(container, ".stir-answer")[0]).toMatch(/^No waterFlood holds 20\.5 % here.*stiffer base\.$/);
    type("Water in it", "50");
    expect(screen.getByText("Water in it must be 8 to 35 % of its mass.")).toBeTruthy();
    expect(container.querySelector(".stir-answer")).toBeNull();
  });

  it("I7 takes an icing's own water where it has one", async () => {
    const on = busyBoard();
    const butter = { ...on.kitchen.icings["butter"]!, waterPct: { flood: 19 } };
    const { container } = await aPhone("#/icing", {
      on: { ...on, kitchen: { ...on.kitchen, icings: { ...on.kitchen.icings, butter } } },
    });
    // 200 × 3.5 / 81 = 8.64 g.
    fireEvent.change(screen.getByLabelText("Icing"), { target: { value: "butter" } });
    expect(texts(container, ".stir-answer strong")).toEqual(["Stir in 8.6 g of water"]);
  });
});
