import { describe, expect, it } from "vitest";
import { NO_LIMIT, tighten, type HandsRead } from "#display/view/fit.ts";

const read = (change: Partial<HandsRead>): HandsRead => ({
  overPx: 0,
  roomPx: 700,
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
