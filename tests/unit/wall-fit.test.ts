import { describe, expect, it } from "vitest";
import {
  firstThat,
  fitGrowth,
  MOST_CUTS,
  NO_LIMIT,
  tighten,
  UNMEASURED,
  type HandsRead,
} from "#display/view/fit.ts";

const read = (change: Partial<HandsRead>): HandsRead => ({
  overPx: 0,
  roomPx: 700,
  tilesPx: 300,
  alerts: [
    { px: 100, isUrgent: true },
    { px: 100, isUrgent: true },
    { px: 100, isUrgent: false },
  ],
  tileRowsPx: [80, 80, 80],
  tools: { lines: 4, linePx: 30 },
  ...change,
});
const ALL = { alerts: 3, tileRows: 3, toolsLines: 4, letters: 1 };

describe("C23 the room in which tiles grow", () => {
  it("is what the browser measured beside all else, less what their words then need more", () => {
    const first = fitGrowth(UNMEASURED, read({ overPx: 90 }));
    expect(first).toEqual({ px: 300, cuts: 0 });
    expect(fitGrowth(first, read({}))).toEqual(first);
    expect(fitGrowth(first, read({ overPx: 40 }))).toEqual({ px: 260, cuts: 1 });
  });

  it("is cut so often and no more: then they do not grow, and something else must go", () => {
    let room = fitGrowth(UNMEASURED, read({}));
    for (let k = 0; k < 10; k += 1) room = fitGrowth(room, read({ overPx: 40 }));
    expect(room.cuts).toBe(MOST_CUTS);
  });

  it("is not known where nothing is laid out", () => {
    expect(fitGrowth(UNMEASURED, read({ tilesPx: 0 }))).toEqual(UNMEASURED);
  });
});

describe("C18 what has no room on the wall", () => {
  it("is nothing while all of it fits", () => {
    expect(tighten(NO_LIMIT, read({ overPx: 1 }))).toBe(NO_LIMIT);
    expect(tighten(NO_LIMIT, read({ overPx: -300 }))).toBe(NO_LIMIT);
  });

  it.each([
    ["words of heat tools beyond two lines", 31, { toolsLines: 2 }],
    ["then tiles but for one row, whose room may hold such words again", 75, { toolsLines: 4, tileRows: 2 }],
    ["then tiles but for one row", 139, { toolsLines: 2, tileRows: 2 }],
    ["then alerts that are not urgent", 319, { toolsLines: 2, tileRows: 1, alerts: 2 }],
    ["then the last row of tiles", 399, { toolsLines: 2, tileRows: 0, alerts: 2 }],
    ["then urgent alerts but the first", 499, { toolsLines: 2, tileRows: 0, alerts: 1 }],
    ["and never that", 9999, { toolsLines: 2, tileRows: 0, alerts: 1 }],
  ])("goes by what can wait: %s", (_, overPx, left) => {
    expect(tighten(NO_LIMIT, read({ overPx }))).toEqual({ ...ALL, ...left });
  });

  it("without any alert the first row of tiles stays", () => {
    const alone = read({ overPx: 199, alerts: [] });
    expect(tighten(NO_LIMIT, alone)).toEqual({ alerts: 0, tileRows: 1, toolsLines: 2, letters: 1 });
  });

  it("a limit is never raised by what is read", () => {
    const limit = { alerts: 1, tileRows: 0, toolsLines: 2, letters: 0.9 };
    expect(tighten(limit, read({ overPx: 20 }))).toEqual(limit);
  });

  it("where one alert alone is too high, what is read from nearby shrinks, to half at most", () => {
    const alone = read({ alerts: [{ px: 700, isUrgent: true }], tileRowsPx: [], overPx: 60 });
    const { letters, ...rest } = tighten(NO_LIMIT, { ...alone, tools: { lines: 2, linePx: 30 } });
    expect(rest).toEqual({ alerts: 1, tileRows: 0, toolsLines: 2 });
    expect(letters).toBeGreaterThan(0.9);
    expect(letters).toBeLessThan(1);
    expect(tighten(NO_LIMIT, { ...alone, overPx: 99_999 }).letters).toBe(0.5);
  });
});

describe("the way to say what has room", () => {
  it("is the first that has, wherever the search begins, and few are tried where little changed", () => {
    for (let count = 1; count < 8; count += 1)
      for (let first = 0; first <= count; first += 1)
        for (let from = 0; from < 9; from += 1) {
          const tried: number[] = [];
          const hasRoom = (k: number): boolean => {
            tried.push(k);
            return k >= first;
          };
          expect(firstThat(hasRoom, count, from)).toBe(Math.min(first, count - 1));
          if (from === first) expect(tried.length).toBeLessThanOrEqual(2);
          expect(tried.every((k) => k >= 0 && k < count)).toBe(true);
        }
  });
});
