import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { axisMarks, type FlagRoom, placeFlags, type PickUp } from "#display/model/axis-marks.ts";
import { AXIS_END_MIN, axisPlace } from "#display/model/time-axis.ts";
import { waysToSay } from "#display/model/wall-flags.ts";
import { english } from "#shared/words/en/index.ts";
import { MIN, normalKitchen, NOW } from "#tests/screens/display-kitchens.ts";

const ENGLISH = english("metric", "UTC");
const ROOM: FlagRoom = {
  axisPx: 950,
  rows: 1,
  gapPx: 6,
  widthPx: (words) => 13 * words.length,
  ways: (pickUps) => waysToSay(ENGLISH, pickUps),
};
const pickUp = (name: string, inMin: number): PickUp => ({ key: name, name, atMs: NOW + inMin * MIN });
const wordsOf = (pickUps: readonly PickUp[], room = ROOM) =>
  placeFlags(pickUps, NOW, room).map(({ label }) => label?.words);

describe("C21 what stands on the axis", () => {
  it("pick-ups within a day, the soonest first, but for orders that are packed", () => {
    const { kitchen } = normalKitchen();
    const names = (): string[] => axisMarks(kitchen, NOW).pickUps.map(({ name }) => name);
    expect(names()).toEqual(["Lantern Walk", "Tidepool party"]);
    const order = kitchen.orders["tide"]!;
    const trays = Object.entries(kitchen.trays).map(([id, tray]) => [
      id,
      tray.orderId === order.id ? { ...tray, status: { stage: "packed", atMs: NOW, by: "ida" } } : tray,
    ]);
    const packed = { ...kitchen, trays: Object.fromEntries(trays) };
    expect(axisMarks(packed, NOW).pickUps.map(({ name }) => name)).toEqual(["Lantern Walk"]);
  });

  it("hours in which the kitchen is closed, as far as the axis goes", () => {
    const { kitchen } = normalKitchen();
    const opening = Array.from({ length: 7 }, () => ({ fromMin: 6 * 60, toMin: 20 * 60 }));
    const { closed } = axisMarks({ ...kitchen, settings: { ...kitchen.settings, opening } }, NOW);
    // 14:12 by the kitchen's clock: closed from 20:00 to 06:00.
    expect(closed).toEqual([{ fromMs: NOW + 348 * MIN, toMs: NOW + 948 * MIN }]);
  });
});

describe("C21 flags", () => {
  it("stand at their moment, with name and time to the right, or to the left near the end", () => {
    const [soon, late] = placeFlags([pickUp("Ferry crew", 30), pickUp("Kite morning", 1300)], NOW, ROOM);
    expect(soon).toMatchObject({
      polePx: Math.round(950 * axisPlace(30)),
      label: { words: "Ferry crew 14:42", row: 0 },
    });
    expect(soon!.label!.fromPx).toBeGreaterThan(soon!.polePx);
    expect(late!.label!.fromPx + 13 * late!.label!.words.length).toBeLessThan(late!.polePx);
  });

  it("where two have no room each, the nearest says both; names shorten before one is only counted", () => {
    const near = [pickUp("Kite morning", 1100), pickUp("Ferry crew", 1200), pickUp("Mill school", 1260)];
    expect(wordsOf(near)).toEqual([
      "Kite morning 08:32 · Ferry crew 10:12 · Mill school 11:12",
      undefined,
      undefined,
    ]);
    expect(wordsOf(near, { ...ROOM, axisPx: 640 })[0]).toBe("Kite … 08:32 · Ferry … 10:12 · Mill … 11:12");
    expect(wordsOf(near, { ...ROOM, axisPx: 420 })[0]).toBe("Kite morning 08:32 +2");
    expect(wordsOf(near, { ...ROOM, rows: 3 })).toEqual([
      "Kite morning 08:32",
      "Ferry crew 10:12",
      "Mill school 11:12",
    ]);
  });

  it("a long name leaves room for others", () => {
    expect(waysToSay(ENGLISH, [pickUp("The harbourmaster's daughter's wedding", 30)])[0]).toBe(
      "The harbourmaster's … 14:42",
    );
    expect(waysToSay(ENGLISH, [pickUp("Weddingbreakfastforeveryone", 30)])).toEqual([
      "Weddingbreakfastforev… 14:42",
    ]);
  });

  it("their words never lie over one another, nor off the axis, and every pick-up is named or counted", () => {
    const pickUps = fc.array(
      fc.tuple(
        fc.integer({ min: 1, max: AXIS_END_MIN }),
        fc.stringMatching(/^[a-z]{1,9}( [a-z]{1,9}){0,3}$/),
      ),
      { maxLength: 12 },
    );
    fc.assert(
      fc.property(pickUps, fc.integer({ min: 1, max: 3 }), (spots, rows) => {
        const all = spots
          .toSorted(([a], [b]) => a - b)
          .map(([inMin, name], index) => ({ ...pickUp(name, inMin), key: String(index) }));
        const flags = placeFlags(all, NOW, { ...ROOM, rows });
        expect(flags.map(({ key }) => key)).toEqual(all.map(({ key }) => key));
        const labels = flags.flatMap(({ label }) => label ?? []);
        const told = labels.map(
          ({ words }) => words.match(/\d\d:\d\d/g)!.length + Number(/ \+(\d+)$/.exec(words)?.[1] ?? 0),
        );
        expect(told.reduce((sum, one) => sum + one, 0)).toBe(all.length);
        for (const [k, a] of labels.entries()) {
          const toPx = a.fromPx + 13 * a.words.length;
          expect(a.fromPx).toBeGreaterThanOrEqual(0);
          expect(toPx).toBeLessThanOrEqual(951);
          for (const b of labels.slice(k + 1))
            expect(a.row !== b.row || toPx <= b.fromPx || b.fromPx + 13 * b.words.length <= a.fromPx).toBe(
              true,
            );
        }
      }),
    );
  });
});
