import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { asId } from "#shared/ids.ts";
import { type Lane, LANES } from "#display/model/coming-in.ts";
import { allotRows, giveRows, holdNeeds, NO_NEEDS } from "#display/model/lane-rows.ts";
import {
  packLane,
  rowsWanted,
  type LaneRoom,
  type PackedLane,
  type Pill,
} from "#display/model/pill-packing.ts";
import { boxOf, type BoxCover } from "#display/model/time-axis.ts";

const MIN = 60_000;
const NOW = Date.UTC(2026, 4, 7, 14, 12);
const ROOM: LaneRoom = { axisPx: 950, rows: 4, gapPx: 8, leastPx: (pill) => pill.label.length * 23 + 36 };

const draw = (pill: Pill, nowMs: number, room: LaneRoom, cover: BoxCover) =>
  boxOf(pill, nowMs, room.axisPx, room.leastPx(pill), cover);

const pill = (number: number, earliest: number, likely: number, latest: number, group = "moon/1"): Pill => ({
  key: `t${number}`,
  keys: [`t${number}`],
  trayIds: [`t${number}`],
  numbers: [number],
  designId: asId("moon"),
  laid: 1,
  label: String(number),
  earliestMs: NOW + earliest * MIN,
  likelyMs: NOW + likely * MIN,
  latestMs: NOW + latest * MIN,
  group,
});

const pillsOf = fc
  .array(
    fc.tuple(
      fc.double({ min: 0.5, max: 1200, noNaN: true }),
      fc.double({ min: 1.05, max: 1.8, noNaN: true }),
      fc.integer({ min: 0, max: 3 }),
    ),
    { maxLength: 40 },
  )
  .map((spots) =>
    spots.map(([likely, spread, group], index) =>
      pill(index + 1, likely / spread, likely, likely * spread, `g${group}`),
    ),
  );

/** The least clear space between any two pills of one row. */
function leastGapPx({ pills, rows, cover }: PackedLane, atMs: number): number {
  let least = Number.POSITIVE_INFINITY;
  for (const [index, a] of pills.entries())
    for (const b of pills.slice(index + 1)) {
      if (rows.get(a.key) !== rows.get(b.key)) continue;
      const [first, second] = [draw(a, atMs, ROOM, cover), draw(b, atMs, ROOM, cover)].toSorted(
        (x, y) => x.leftPx - y.leftPx,
      );
      least = Math.min(least, second!.leftPx - first!.leftPx - first!.widthPx);
    }
  return least;
}

describe("rows of the lanes", () => {
  const wanting = (
    flooding: number,
    heat: number,
    crusting: number,
    dry: number,
    held = NO_NEEDS,
    atMs = NOW,
  ) => holdNeeds(held, { flooding, "heat-set": heat, crusting, "full-dry": dry }, atMs);

  it("each lane has one, what is left goes where most is lacking, and none is lost", () => {
    expect(allotRows(8, wanting(0, 1, 1, 9))).toEqual({
      flooding: 1,
      "heat-set": 1,
      crusting: 1,
      "full-dry": 5,
    });
    expect(allotRows(8, wanting(1, 2, 9, 9))).toEqual({
      flooding: 1,
      "heat-set": 2,
      crusting: 2,
      "full-dry": 3,
    });
    fc.assert(
      fc.property(
        fc.integer({ min: 4, max: 20 }),
        fc.array(fc.nat(12), { minLength: 4, maxLength: 4 }),
        (total, [a, b, c, d]) => {
          const rows = Object.values(allotRows(total, wanting(a!, b!, c!, d!)));
          expect(rows.reduce((sum, one) => sum + one, 0)).toBe(total);
          expect(Math.min(...rows)).toBeGreaterThanOrEqual(1);
        },
      ),
    );
  });

  it("a lane keeps the rows it filled for ten minutes, so that lanes do not move to and fro", () => {
    const busy = wanting(4, 1, 1, 5);
    const lull = wanting(1, 1, 1, 5, busy, NOW + 9 * MIN);
    expect(allotRows(9, lull)).toEqual(allotRows(9, busy));
    expect(allotRows(9, busy)).toMatchObject({ flooding: 3, "full-dry": 4 });
    const over = wanting(1, 1, 1, 5, lull, NOW + 11 * MIN);
    expect(allotRows(9, over)["full-dry"]).toBeGreaterThanOrEqual(5);
  });

  describe("C22 rows move to where a tray would be left out", () => {
    /** Of so many trays a lane shows one a row: what it has no row for is left. */
    const leaving =
      (trays: Readonly<Record<Lane, number>>) =>
      (lane: Lane, rows: number): number =>
        Math.max(0, trays[lane] - rows);
    const given = (trays: Record<Lane, number>, rows: Record<Lane, number>) =>
      giveRows(rows, NO_NEEDS, leaving(trays));

    it("first from lanes with rows to spare, then the only row of an empty one", () => {
      expect(
        given(
          { flooding: 0, "heat-set": 1, crusting: 5, "full-dry": 1 },
          { flooding: 1, "heat-set": 1, crusting: 3, "full-dry": 2 },
        ),
      ).toEqual({ flooding: 0, "heat-set": 1, crusting: 5, "full-dry": 1 });
    });

    it("an empty lane keeps its row while no tray is left out", () => {
      const rows = { flooding: 1, "heat-set": 1, crusting: 3, "full-dry": 2 };
      expect(given({ flooding: 0, "heat-set": 0, crusting: 3, "full-dry": 2 }, rows)).toEqual(rows);
    });

    it("afterwards a tray is left out only where no lane could do with a row less, and no row is lost", () => {
      const four = fc.tuple(fc.nat(9), fc.nat(9), fc.nat(9), fc.nat(9));
      const laned = ([a, b, c, d]: readonly number[]): Record<Lane, number> => ({
        flooding: a!,
        "heat-set": b!,
        crusting: c!,
        "full-dry": d!,
      });
      const sum = (rows: Record<Lane, number>): number => LANES.reduce((all, lane) => all + rows[lane], 0);
      fc.assert(
        fc.property(four, fc.integer({ min: 4, max: 20 }), (counts, total) => {
          const trays = laned(counts);
          const rows = given(trays, allotRows(total, NO_NEEDS));
          expect(sum(rows)).toBe(total);
          const left = LANES.filter((lane) => leaving(trays)(lane, rows[lane]) > 0);
          const spare = LANES.filter((lane) => rows[lane] > 0 && leaving(trays)(lane, rows[lane] - 1) === 0);
          expect(left.length > 0 && spare.length > 0).toBe(false);
          expect(left.length > 0).toBe(sum(trays) > total);
        }),
      );
    });
  });

  it("a lane wants as many rows as its trays need to stand one by one", () => {
    const same = [1, 2, 3].map((number) => pill(number, 60, 80, 105));
    expect(rowsWanted(same, NOW, { ...ROOM, rows: 9 })).toBe(3);
    expect(rowsWanted(same, NOW, { ...ROOM, rows: 2 })).toBe(2);
    expect(rowsWanted([], NOW, { ...ROOM, rows: 9 })).toBe(0);
  });
});

describe("C6 packing a lane", () => {
  it("no two pills of a row overlap, now or at any moment before the sooner of them comes in", () => {
    fc.assert(
      fc.property(pillsOf, fc.double({ min: 0, max: 1, noNaN: true }), (pills, share) => {
        const packed = packLane(pills, NOW, ROOM);
        const shown = packed.pills;
        expect(leastGapPx(packed, NOW)).toBeGreaterThanOrEqual(ROOM.gapPx - 1e-6);
        const soonestMs = Math.min(
          ...shown.map((one) => (packed.cover === "mark" ? one.likelyMs : one.latestMs)),
        );
        if (shown.length > 0)
          expect(leastGapPx(packed, NOW + share * (soonestMs - NOW))).toBeGreaterThanOrEqual(
            ROOM.gapPx - 1e-6,
          );
      }),
    );
  });

  it("rows stay as they were while pills drift, and when some come in", () => {
    fc.assert(
      fc.property(pillsOf, fc.double({ min: 0, max: 60, noNaN: true }), (pills, later) => {
        const first = packLane(pills, NOW, ROOM);
        fc.pre(first.left.length === 0 && first.pills.length === pills.length);
        // A tray leaves its lane at its likeliest time (K9), whichever part of its stretch the boxes cover.
        const left = pills.filter((one) => one.likelyMs > NOW + later * MIN);
        const second = packLane(left, NOW + later * MIN, ROOM, first.rows);
        for (const one of second.pills) expect(second.rows.get(one.key)).toBe(first.rows.get(one.key));
      }),
    );
  });

  it("C22 pills change their rows before a tray is left out", () => {
    const [soon, middle, late] = [
      pill(1, 58, 60, 62, "moon/1"),
      pill(2, 80, 82, 84, "shell/1"),
      pill(3, 110, 112, 114, "kite/1"),
    ];
    const apart = new Map([
      [soon.key, 0],
      [late.key, 1],
    ]);
    const room = { ...ROOM, rows: 2 };
    expect(packLane([soon, late], NOW, room, apart).rows).toEqual(apart);
    const packed = packLane([soon, middle, late], NOW, room, apart);
    expect(packed.left).toEqual([]);
    expect(Object.fromEntries(packed.rows)).toEqual({ t1: 0, t2: 1, t3: 0 });
  });

  it("every tray is on a pill or counted as left, and the order given does not matter", () => {
    fc.assert(
      fc.property(pillsOf, (pills) => {
        const packed = packLane(pills, NOW, ROOM);
        const numbers = [...packed.pills, ...packed.left]
          .flatMap((one) => one.numbers)
          .toSorted((a, b) => a - b);
        expect(numbers).toEqual(pills.flatMap((one) => one.numbers));
        const turned = packLane(pills.toReversed(), NOW, ROOM);
        expect(turned.rows).toEqual(packed.rows);
      }),
    );
  });

  it("merges trays of one design at one point only when the lane is full: 27–30", () => {
    const four = [27, 28, 29, 30].map((number) => pill(number, 60, 80 + number / 10, 105));
    const roomy = packLane(four, NOW, ROOM);
    expect(roomy.pills.map((one) => one.label)).toEqual(["27", "28", "29", "30"]);
    const tight = packLane(four, NOW, { ...ROOM, rows: 1 });
    expect(tight.pills.map((one) => one.label)).toEqual(["27–30"]);
    expect(tight.pills[0]).toMatchObject({
      earliestMs: NOW + 60 * MIN,
      latestMs: NOW + 105 * MIN,
      numbers: [27, 28, 29, 30],
    });
  });

  it("numbers wider than the whole axis are counted: 27 +3", () => {
    const four = [27, 28, 29, 30].map((number) => pill(number, 60, 80 + number / 10, 105));
    const [merged] = packLane(four, NOW, { ...ROOM, rows: 1, axisPx: 145 }).pills;
    expect(merged).toMatchObject({ label: "27 +3", numbers: [27, 28, 29, 30] });
  });

  it("never merges trays of different designs, nor those that must be seen one by one", () => {
    const two = [pill(1, 60, 80, 105, "moon/1"), pill(2, 60, 80, 105, "shell/1")];
    expect(packLane(two, NOW, { ...ROOM, rows: 1 }).pills.map((one) => one.label)).toEqual(["1"]);
    const { group: _, ...heat } = pill(3, 1, 2, 3);
    const { group: __, ...other } = pill(4, 1, 2, 3);
    const packed = packLane([heat, other], NOW, { ...ROOM, rows: 1 });
    expect([packed.pills.length, packed.left.length]).toEqual([1, 1]);
  });
});
