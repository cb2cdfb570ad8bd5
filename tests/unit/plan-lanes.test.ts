import fc from "fast-check";
import { expect, it } from "vitest";
import { type Axis, hoursIn, hoursOf, labelPx, laidOut, pxAt } from "#phone/plan/lanes.ts";
import { type Block, placeRows, severalOf, workRows } from "#phone/plan/rows.ts";
import { bigBoard } from "#tests/support/big-board.ts";
import { busyBoard } from "#tests/support/board-fixture.ts";
import { HOUR, MIN, T0 } from "#tests/support/scene.ts";
import type { PlanTask } from "#phone/plan/rows.ts";

const MOST = 3;

const anAxis = (widthPx: number): Axis => ({ fromMs: T0, toMs: T0 + hoursIn(widthPx) * HOUR, widthPx });
const blocks = fc.array(
  fc
    .tuple(
      fc.integer({ min: -600, max: 1800 }),
      fc.integer({ min: 1, max: 240 }),
      fc.integer({ min: 1, max: 999 }),
    )
    .map(([fromMin, min, tray]): Block => ({
      fromMs: T0 + fromMin * MIN,
      toMs: T0 + (fromMin + min) * MIN,
      trays: [tray],
      kind: `flood ${tray % 3}`,
      doing: "flood",
    })),
  { maxLength: 120 },
);

it("C25 in a row nothing overlaps or leaves the axis, no label is longer than its block, and no tray in sight is left out", () => {
  fc.assert(
    fc.property(blocks, fc.integer({ min: 360, max: 1700 }), (given, widthPx) => {
      const axis = anAxis(widthPx);
      const laid = laidOut(given, axis, MOST, severalOf);
      for (const { leftPx, widthPx: width, label } of laid) {
        expect(leftPx).toBeGreaterThanOrEqual(0);
        expect(leftPx + width).toBeLessThanOrEqual(axis.widthPx + 1e-6);
        expect(width).toBeGreaterThanOrEqual(Math.min(labelPx(label), axis.widthPx) - 1e-6);
      }
      for (const lane of [0, 1, 2]) {
        const own = laid.filter((one) => one.lane === lane).toSorted((a, b) => a.leftPx - b.leftPx);
        for (const [k, { leftPx, widthPx: width }] of own.slice(0, -1).entries())
          expect(leftPx + width).toBeLessThanOrEqual(own[k + 1]!.leftPx);
      }
      const inSight = given.filter(({ fromMs, toMs }) => toMs > axis.fromMs && fromMs < axis.toMs);
      expect(new Set(laid.flatMap(({ item }) => [...item.trays]))).toEqual(
        new Set(inSight.flatMap(({ trays }) => [...trays])),
      );
      expect(laid.every(({ lane }) => lane < MOST)).toBe(true);
    }),
  );
});

it("C25 the axis has whole hours, more of them where it is wider, and its ends are its ends", () => {
  const [narrow, wide] = [anAxis(640), anAxis(1400)];
  expect(hoursOf(narrow).length).toBe(hoursIn(640));
  expect(hoursIn(1400)).toBeGreaterThan(hoursIn(640));
  expect([pxAt(wide, wide.fromMs), pxAt(wide, wide.toMs)]).toEqual([0, 1400]);
  expect(pxAt(wide, wide.fromMs - HOUR)).toBe(0);
});

const task = (
  trayId: string,
  act: PlanTask["act"],
  startMin: number,
  more: Partial<PlanTask> = {},
): PlanTask => ({
  trayId,
  act,
  startMs: T0 + startMin * MIN,
  endMs: T0 + (startMin + 10) * MIN,
  ...more,
});

it("C25 neighbours of one act and design are one block with the icing's colour; another act stands by itself", () => {
  const { kitchen } = busyBoard();
  const rows = workRows(kitchen, [
    task("n5", "flood", 0, { layer: 1, who: "wren" }),
    task("n27", "flood", 12, { layer: 1, who: "wren" }),
    task("n27", "pack", 23, { who: "wren" }),
    task("n26", "flood", 60, { layer: 1 }),
  ]);
  const wren = rows.find(({ key }) => key === "wren")!;
  expect(wren.blocks.map(({ trays }) => trays)).toEqual([[5, 27], [27]]);
  const { icingId } = kitchen.designs["lantern"]!.layers[1]!;
  expect(wren.blocks[0]!.icing?.hex).toBe(kitchen.icings[icingId]!.hex);
  expect(wren.blocks[1]!.doing).toBe("pack");
  expect(rows.find(({ key }) => key === "hands")!.blocks.map(({ trays }) => trays)).toEqual([[26]]);
});

it("C25 of 300 trays a place draws a handful of bars, in less than a frame's time", () => {
  const { kitchen, nowMs } = bigBoard(300);
  const dry = { earliestMs: nowMs + HOUR, likelyMs: nowMs + 2 * HOUR, latestMs: nowMs + 4 * HOUR };
  const films = Object.fromEntries(
    Object.keys(kitchen.trays).map((id) => [
      `${id}/2`,
      { skin: dry, dryThrough: dry, basis: "measured" as const },
    ]),
  );
  const tasks = Object.keys(kitchen.trays).map((id, k) =>
    task(id, "flood", 10 * k, { layer: 3, who: "wren" }),
  );
  const forecasts = { ...busyBoard().forecasts, films };
  const draw = (): number => {
    const startMs = performance.now();
    const axis: Axis = { fromMs: nowMs, toMs: nowMs + 9 * HOUR, widthPx: 1200 };
    const [place] = placeRows(kitchen, forecasts, tasks, nowMs);
    const bars = laidOut(place!.bars, axis, 4, (one) => one);
    const work = workRows(kitchen, tasks).flatMap(({ blocks }) => laidOut(blocks, axis, 3, severalOf));
    expect(bars.length).toBeLessThan(40);
    expect(bars.flatMap(({ item }) => [...item.trays]).length).toBe(300);
    expect(work.length).toBeLessThan(100);
    return performance.now() - startMs;
  };
  expect(Math.min(...Array.from({ length: 7 }, draw))).toBeLessThan(16);
});
