import { fireEvent, screen } from "@solidjs/testing-library";
import { describe, expect, it } from "vitest";
import { icingToMix } from "#shared/kitchen/mixing/icing-needed.ts";
import type { BatchId, IcingId, PersonId } from "#shared/ids.ts";
import type { Consistency } from "#shared/kitchen/model/vocabulary.ts";
import { ENGLISH } from "#tests/support/words.tsx";
import { aPhone, texts } from "#tests/support/a-phone.tsx";
import { busyBoard } from "#tests/support/board-fixture.ts";
import { id } from "#tests/support/scene.ts";
import { settled } from "#tests/support/sockets.ts";

const type = (label: string, value: string): void =>
  void fireEvent.input(screen.getByLabelText(label), { target: { value } });

describe("icing to mix", () => {
  it("I7 I11 is a table by icing and consistency, its figures those of the sums, and says what is guessed", async () => {
    const on = busyBoard();
    const { container } = await aPhone("#/icing", { on });
    const toMix = icingToMix(on.kitchen, on.nowMs);
    expect(texts(container, ".mix .icing")).toEqual(["Butter", "Sea glass", "Storm"]);
    const rows = toMix.mixes.flatMap((mix) => mix.rows);
    expect(texts(container, ".mix tbody th[scope=row]:not([colspan])")).toEqual(
      rows.map(({ consistency }) => consistency),
    );
    expect(texts(container, '[data-what="mix"]')).toEqual(rows.map(({ mixG }) => ENGLISH.format.mass(mixG)));
    expect(texts(container, ".need-line > span")[0]).toMatch(/^a guess: .+ on the cookies \(.+–.+g\)$/);
    expect(screen.getByText(/No area is given in Lantern and Moon/)).toBeTruthy();
    expect(screen.getByText(/already mixed, or in a bag, is not subtracted/)).toBeTruthy();
    expect(screen.getByText(`Base icing in all: ${ENGLISH.format.mass(toMix.baseG)}`)).toBeTruthy();
    const cautions = texts(container, ".cautions");
    expect(cautions[0]).toMatch(/pasteurised egg.*local codes/);
    expect(cautions[1]).toMatch(/^Allergens.*on the order.*European Union: .*sesame.*local codes/);
  });

  it("I9 of one order by its own page; the list leads to another", async () => {
    const on = busyBoard();
    const { container, went } = await aPhone("#/icing/club", { on });
    const own = icingToMix(on.kitchen, on.nowMs, "club");
    expect(texts(container, '[data-what="mix"]')).toEqual(
      own.mixes.flatMap(({ rows }) => rows).map(({ mixG }) => ENGLISH.format.mass(mixG)),
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

describe("batches of mixed icing", () => {
  const useBy = (value: string): void => type("Use by", value);
  const tap = (name: string | RegExp): void => screen.getAllByRole("button", { name })[0]!.click();
  const withHours = (icingUseH: number) => {
    const on = busyBoard();
    const settings = { ...on.kitchen.settings, icingUseH };
    return { ...on, kitchen: { ...on.kitchen, settings } };
  };

  // The busy board's now is Monday 10:00 in the kitchen's zone.
  it("I13 K28 one tap records what was to be mixed; it stands under its row, beside what is needed, and can be undone", async () => {
    const { container, board, socket } = await aPhone("#/icing", { on: withHours(5) });
    const mixes = texts(container, '[data-what="mix"]');
    tap("detail: mixed");
    expect(screen.getByLabelText<HTMLInputElement>("Use by").value).toBe("2026-05-04T15:00");
    expect(screen.getByText(/kitchen's plan and local codes to say/)).toBeTruthy();
    type("How much", "400");
    tap("Mixed");
    await socket.flush();
    expect(texts(container, ".batches li > span")).toEqual(["400 g mixed 10:00, use by 15:00"]);
    expect(texts(container, ".need-line > span")[0]).toContain("; 400 g already mixed");
    expect(texts(container, '[data-what="mix"]')).toEqual(mixes);
    expect(Object.values(board.kitchen().batches)).toMatchObject([
      { icingId: "butter", consistency: "detail", massG: 400, by: "wren" },
    ]);
    tap("Butter detail: used up / thrown away");
    expect(texts(container, ".batches li")).toEqual([]);
    tap("Undo");
    expect(texts(container, ".batches li > span")).toEqual(["400 g mixed 10:00, use by 15:00"]);
  });

  it("I15 how many seconds a line takes to close goes with the batch, and can be left out", async () => {
    const { container, board, socket } = await aPhone("#/icing", { on: withHours(5) });
    tap("detail: mixed");
    type("Seconds until a line closes", "900");
    tap("Mixed");
    expect(screen.getByText("Seconds until a line closes must be 1 to 300 s.")).toBeTruthy();
    type("Seconds until a line closes", "14");
    type("How much", "400");
    tap("Mixed");
    await socket.flush();
    expect(Object.values(board.kitchen().batches)).toMatchObject([{ closesS: 14 }]);
    expect(texts(container, ".batches li > span")).toEqual([
      "400 g mixed 10:00, closes in 14 s, use by 15:00",
    ]);
    tap("Butter detail: used up / thrown away");
    tap("Undo");
    await socket.flush();
    expect(Object.values(board.kitchen().batches)).toMatchObject([{ closesS: 14 }]);
  });

  it("K29 without the kitchen's hours the use-by starts empty and must be given, within its range", async () => {
    const { board } = await aPhone("#/icing");
    tap("detail: mixed");
    expect(screen.getByLabelText<HTMLInputElement>("Use by").value).toBe("");
    tap("Mixed");
    expect(screen.getByText("Use by must be a day and a time.")).toBeTruthy();
    for (const wrong of ["2026-05-04T09:59", "2026-05-18T10:01"]) {
      useBy(wrong);
      tap("Mixed");
      expect(screen.getByText("Use by must be after now, and at most 14 days ahead.")).toBeTruthy();
    }
    useBy("2026-05-04T13:00");
    type("How much", "60000");
    tap("Mixed");
    expect(screen.getByText("How much must be 1 to 50000 g.")).toBeTruthy();
    type("How much", "");
    tap("Mixed");
    const [batch] = Object.values(board.kitchen().batches);
    expect(batch).toMatchObject({ useByAtMs: Date.UTC(2026, 4, 4, 12) });
    expect(batch).not.toHaveProperty("massG");
  });

  it("C2 K28 a tap without a connection stands at once, and is sent once", async () => {
    const { board, socket, server } = await aPhone("#/icing", { on: withHours(5) });
    socket.cut();
    await settled();
    tap("detail: mixed");
    tap("Mixed");
    expect(Object.keys(board.kitchen().batches)).toHaveLength(1);
    expect(Object.keys(server.kitchen.batches)).toHaveLength(0);
    socket.connect();
    await socket.flush();
    expect(Object.keys(server.kitchen.batches)).toHaveLength(1);
    expect(Object.keys(board.kitchen().batches)).toHaveLength(1);
  });

  /** A batch mixed an hour ago and past its use-by for a minute. */
  const withOld = (icingId: string, consistency: Consistency) => {
    const on = busyBoard();
    const [mixedAtMs, useByAtMs] = [on.nowMs - 60 * 60_000, on.nowMs - 60_000];
    const old = { id: id<BatchId>("b1"), icingId: id<IcingId>(icingId), consistency, massG: 250 };
    const b1 = { ...old, mixedAtMs, useByAtMs, by: id<PersonId>("sol") };
    return { ...on, kitchen: { ...on.kitchen, batches: { b1 } } };
  };

  it("I13 what is past its use-by is marked in words and not counted; what no row names stands apart", async () => {
    const { container, unmount } = await aPhone("#/icing", { on: withOld("butter", "detail") });
    expect(texts(container, '.batches li[data-past="true"] > span')).toEqual([
      "Past its use-by250 g mixed 09:00, was to be used by 09:59",
    ]);
    expect(texts(container, ".need-line > span").join()).not.toContain("already mixed");
    unmount();
    const apart = await aPhone("#/icing", { on: withOld("coral", "flood") });
    expect(texts(apart.container, ".mix table .batches")).toEqual([]);
    expect(screen.getByText("Also mixed")).toBeTruthy();
    expect(texts(apart.container, ".batches li > span")[0]).toContain("Coral flood 250 g mixed 09:00");
  });

  it("A23 the tray's screen says so before the layer is begun, and refuses nothing", async () => {
    const { container } = await aPhone("#/t/8", { on: withOld("storm", "top-coat") });
    expect(texts(container, ".layer-line strong")).toContain(
      "Storm top-coat was to be used by 09:59: take fresh icing.",
    );
    tap(/^Top-coated: start the drying clock/);
    expect(texts(container, ".layer-line strong").join()).not.toContain("fresh icing");
  });

  it("K4 K29 a lead sets the hours, or none; what cannot be is not saved as none", async () => {
    const { board } = await aPhone("#/kitchen/settings", { person: "ida", on: withHours(5) });
    type("Icing is used within", "400");
    tap("Save");
    expect(screen.getByText("Icing is used within must be 1 to 336 h of mixing.")).toBeTruthy();
    expect(board.kitchen().settings.icingUseH).toBe(5);
    type("Icing is used within", "");
    tap("Save");
    expect(board.kitchen().settings.icingUseH).toBeNull();
  });
});

describe("stirring in water", () => {
  // 200 g at 15.5 % to 20.5 %: 200 × 5 / 79.5 = 12.579 g.
  it("I8 tells the water for a weight of base, and what it comes to", async () => {
    const { container } = await aPhone("#/icing");
    expect(texts(container, ".stir-answer strong")).toEqual(["Stir in 13 g of water"]);
    type("Base icing", "1000");
    expect(texts(container, ".stir-answer")[0]).toBe(
      "Stir in 63 g of waterIt comes to 1.06 kg of flood at 20.5 % water.",
    );
    screen.getByLabelText(/^Outline/).click();
    expect(texts(container, ".stir-answer strong")).toEqual(["No water: use it as it is"]);
  });

  it("I8 never takes water out, and refuses figures by name and range", async () => {
    const { container } = await aPhone("#/icing");
    type("Water in it", "22");
    expect(texts(container, ".stir-answer")[0]).toMatch(
      /^No waterFlood has 20\.5 % water here.*stiffer base\.$/,
    );
    type("Water in it", "50");
    expect(screen.getByText("Water in it must be 8 to 35 % of its mass.")).toBeTruthy();
    expect(container.querySelector(".stir-answer")).toBeNull();
  });

  it("I8 takes an icing's own water where it has one", async () => {
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

describe("an icing's own settings", () => {
  const opened = async (units: "metric" | "us") => {
    const on = busyBoard();
    const settings = { ...on.kitchen.settings, units };
    const phone = await aPhone("#/icings", {
      on: { ...on, kitchen: { ...on.kitchen, settings } },
      person: "ida",
    });
    screen.getAllByRole("button", { name: /Butter/i })[0]!.click();
    return phone;
  };
  const save = (): void => screen.getByRole("button", { name: "Save" }).click();

  it("I14 I16 its temperature when laid, and that it dries slowly, are kept, and cleared again", async () => {
    const { board, socket } = await opened("metric");
    type("Temperature when laid", "60");
    save();
    expect(screen.getByText("Temperature when laid must be 5 to 45 °C.")).toBeTruthy();
    type("Temperature when laid", "28");
    screen.getByRole<HTMLInputElement>("checkbox", { name: /^Dries slowly/ }).click();
    save();
    await socket.flush();
    expect(board.kitchen().icings["butter"]).toMatchObject({ laidAtC: 28, isSlow: true });
    screen.getAllByRole("button", { name: /Butter/i })[0]!.click();
    type("Temperature when laid", "");
    screen.getByRole<HTMLInputElement>("checkbox", { name: /^Dries slowly/ }).click();
    save();
    await socket.flush();
    expect(board.kitchen().icings["butter"]).not.toHaveProperty("laidAtC");
    expect(board.kitchen().icings["butter"]).not.toHaveProperty("isSlow");
  });

  it("I16 in °F where the kitchen reads that", async () => {
    const { board, socket } = await opened("us");
    type("Temperature when laid", "77");
    save();
    await socket.flush();
    expect(board.kitchen().icings["butter"]?.laidAtC).toBeCloseTo(25, 6);
  });
});
