import { expect, it } from "vitest";
import { ASKED_MS, say, sayGrowth, sayWhatHolds, told } from "../bench/figures.ts";

const figure = {
  what: "a board",
  ms: 299.9,
  yardstick: "a floor",
  yardstickMs: 100,
  limitMs: ASKED_MS.board,
};

it.each([
  [299.9, true, "under 300 ms: met"],
  [300, false, "under 300 ms: NOT met"],
] as const)("a figure of %d ms tells what was asked for and whether it was met", (ms, isMet, words) => {
  expect(told({ ...figure, ms })).toMatchObject({ isMet, ratio: ms / 100 });
  expect(say({ ...figure, ms })).toContain(words);
});

it("a figure of which nothing is asked says nothing of it", () => {
  const { limitMs: _asked, ...plain } = figure;
  expect(told(plain)).not.toHaveProperty("isMet");
  expect(say(plain)).not.toContain("met");
});

it.each([
  [150, true, "at most 1.5 ×: met"],
  [151, false, "at most 1.5 ×: NOT met"],
] as const)("a figure of %d ms beside a floor of 100 tells whether its share was met", (ms, isMet, words) => {
  const { limitMs: _asked, ...plain } = figure;
  expect(told({ ...plain, ms, limitTimes: 1.5 })).toMatchObject({ isMet, ratio: ms / 100 });
  expect(say({ ...plain, ms, limitTimes: 1.5 })).toContain(words);
});

it("at its end it says which of what is asked for holds, and names what does not", () => {
  const { limitMs: _asked, ...plain } = figure;
  const growth = { what: "A snapshot", exponent: 1.2, limit: 1 };
  expect(sayGrowth(growth)).toContain("1.20, at most 1: NOT met");
  expect(sayWhatHolds([figure, plain, { ...figure, what: "a film", ms: 400 }], [growth])).toBe(
    "Asked for: 3, ok: 1, over: 2\n  over: a film\n  over: A snapshot, growth",
  );
});
