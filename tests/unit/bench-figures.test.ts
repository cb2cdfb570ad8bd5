import { expect, it } from "vitest";
import { ASKED_MS, say, told } from "../bench/figures.ts";

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
