import { describe, expect, test } from "vitest";
import { cookiesBeforeSetting, setWithinMin, sinkRisk } from "#shared/icing/sinking.ts";

// The band: common practice, no source.
describe("I3 sections that sink", () => {
  test.each([
    [1.5, "none"],
    [5.9, "none"],
    [6, "most"],
    [13, "most"],
    [13.1, "some"],
    [25, "some"],
    [26, "none"],
    [120, "none"],
  ])("%f mm: %s", (narrowestMm, risk) => {
    expect(sinkRisk(narrowestMm)).toBe(risk);
  });

  test("to be set within a share of the skin time, three tenths unless told", () => {
    expect(setWithinMin(20)).toBeCloseTo(6, 9);
    expect(setWithinMin(20, 0.5)).toBe(10);
  });
});

describe("I6 how many to flood before setting", () => {
  test.each([
    ["hot-air", 6, 1, 2, 2],
    ["hot-air", 10, 0.5, 2, 4],
    ["hot-air", 1, 1, 2, 1],
    ["hot-air", 0, 1, 2, 1],
    ["oven", 6, 1, 4, 6],
    ["warm-cabinet", 6, 0.5, 8, 12],
  ] as const)("%s: window %f, flooding %f, setting %f min", (kind, windowMin, floodMin, setMin, cookies) => {
    expect(cookiesBeforeSetting(windowMin, floodMin, setMin, kind)).toBe(cookies);
  });
});

test("bad figures are refused by name", () => {
  expect(() => sinkRisk(0)).toThrow("narrowestMm must be above 0 mm");
  expect(() => setWithinMin(-1)).toThrow("skinLikelyMin must be 0 min or more");
  expect(() => setWithinMin(10, 1.2)).toThrow("share must be above 0 and at most 1");
  expect(() => cookiesBeforeSetting(-1, 1, 1, "oven")).toThrow("windowMin must be 0 min or more");
  expect(() => cookiesBeforeSetting(6, 0, 1, "oven")).toThrow("floodMin must be above 0 min");
  expect(() => cookiesBeforeSetting(6, 1, Number.NaN, "oven")).toThrow("setMin must be 0 min or more");
});
