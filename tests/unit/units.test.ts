import { english } from "#shared/words/en/index.ts";
import { spanish } from "#shared/words/es/index.ts";
import { describe, expect, it, test } from "vitest";
import {
  celsiusToFahrenheit,
  fahrenheitToCelsius,
  inchesToMm,
  mlToTsp,
  mmToInches,
  parseAmount,
  tspToMl,
} from "#shared/units.ts";

test("temperatures, lengths and volumes turn over and back", () => {
  expect(celsiusToFahrenheit(100)).toBe(212);
  expect(celsiusToFahrenheit(-40)).toBe(-40);
  expect(fahrenheitToCelsius(150)).toBeCloseTo(65.56, 2);
  expect(fahrenheitToCelsius(celsiusToFahrenheit(22.4))).toBeCloseTo(22.4, 9);
  expect(mmToInches(inchesToMm(2.5))).toBeCloseTo(2.5, 12);
  expect(mlToTsp(tspToMl(48))).toBeCloseTo(48, 12);
});

test.each([
  [22.4, "metric", "22.4 °C"],
  [38, "metric", "38 °C"],
  [65.6, "us", "150 °F"],
  [22.4, "us", "72 °F"],
] as const)("%f °C in %s is %s", (tempC, units, words) => {
  expect(english(units, "UTC").format.temp(tempC)).toBe(words);
});

test.each([
  [2.4, "metric", "2.4 mm"],
  [12.2, "metric", "12 mm"],
  [140, "metric", "14 cm"],
  [2.4, "us", "3/32 in"],
  [6.35, "us", "¼ in"],
  [63.5, "us", "2½ in"],
  [55.6, "us", "2 3/16 in"],
  [25.4, "us", "1 in"],
] as const)("%f mm in %s is %s", (lengthMm, units, words) => {
  expect(english(units, "UTC").format.length(lengthMm)).toBe(words);
});

test.each([
  [4.2, "metric", "4.2 mL"],
  [59.1, "metric", "59 mL"],
  [1250, "metric", "1.25 L"],
  [11.8, "us", "2½ tsp"],
  [20, "us", "4 tsp"],
  [44.4, "us", "3 tbsp"],
  [59.1, "us", "¼ cup"],
  [236.6, "us", "1 cup"],
  [296, "us", "1¼ cups"],
] as const)("%f mL in %s is %s", (volumeMl, units, words) => {
  expect(english(units, "UTC").format.volume(volumeMl)).toBe(words);
});

test.each([
  [4.52, "4.5 g"],
  [315.4, "315 g"],
  [1254, "1.25 kg"],
])("%f g is %s", (massG, words) => {
  expect(english("metric", "UTC").format.mass(massG)).toBe(words);
});

describe("spans", () => {
  test.each([
    [-3, "under 1 min"],
    [0.4, "under 1 min"],
    [4, "4 min"],
    [59.4, "59 min"],
    [59.6, "1 h"],
    [80, "1 h 20"],
    [63, "1 h 05"],
    [119, "2 h"],
    [150, "2½ h"],
    [190, "3 h 10"],
    [9 * 60, "9 h"],
    [14.7 * 60, "15 h"],
    [47.6 * 60, "48 h"],
    [60 * 60, "2½ days"],
  ])("%f min is %s", (minutes, words) => {
    expect(english("metric", "UTC").format.span(minutes)).toBe(words);
  });
});

describe("bands are rounded outwards and never say a single time", () => {
  test.each([
    [4, 10, "4–10 min"],
    [18.4, 37.2, "18–38 min"],
    [5, 5, "about 5 min"],
    [0.3, 3, "under 3 min"],
    [-20, -5, "now"],
    [-5, 4, "under 4 min"],
    [50, 85, "50–85 min"],
    [45, 140, "45 min–2½ h"],
    [150, 270, "2½–4½ h"],
    [160, 260, "2½–4½ h"],
    [60, 100, "1–2 h"],
    [14.2 * 60, 16.9 * 60, "14–17 h"],
    [8 * 60, 12 * 60, "8–12 h"],
    [40 * 60, 60 * 60, "1½–2½ days"],
    [120, 60 * 60, "2 h–2½ days"],
  ])("%f to %f min is %s", (earliestMin, latestMin, words) => {
    expect(english("metric", "UTC").format.band(earliestMin, latestMin)).toBe(words);
  });
});

test.each([
  [0, "0:00"],
  [7.9, "0:07"],
  [84, "1:24"],
  [600, "10:00"],
  [3723, "1:02:03"],
])("a running clock at %f s reads %s", (seconds, words) => {
  expect(english("metric", "UTC").format.stopwatch(seconds)).toBe(words);
});

describe("an amount as a hand types it", () => {
  it.each([
    "3 1/2",
    "3½",
    "3 ½",
    "3-1/2",
    "3–1/2",
    "3 - 1/2",
    "3.5",
    "3,5",
    " 3.50 ",
    "7/2",
    "3 1⁄2",
    "3 2/4",
  ])("%s is three and a half", (text) => expect(parseAmount(text)).toBe(3.5));

  it.each([
    ["0", 0],
    ["12", 12],
    [".5", 0.5],
    ["5.", 5],
    ["0,125", 0.125],
    ["1/8", 0.125],
    ["⅛", 0.125],
    ["3 1/16", 3.0625],
    ["-4,5", -4.5],
    ["−4", -4],
  ])("%s is %f", (text, value) => expect(parseAmount(text)).toBe(value));

  it.each([
    "",
    " ",
    "3 1/0",
    "3/",
    "/2",
    "-1/2",
    "-½",
    "1,500",
    "1.2.3",
    "3 1 2",
    "1e3",
    "0x10",
    "3 in",
    "½½",
  ])("%j is none", (text) => expect(parseAmount(text)).toBeUndefined());

  it("looks at no more than an amount's length", () => {
    expect(parseAmount("1".repeat(64_000))).toBeUndefined();
    expect(parseAmount(`3${" ".repeat(64_000)}1/2`)).toBeUndefined();
  });
});

describe("P21 a refusal's range is told as the kitchen reads it too", () => {
  test("P21 a range is told in the units of the figures sent, and beside it in the kitchen's own", () => {
    const us = english("us", "UTC").faults;
    const tempC = { is: "between", min: -5, max: 120, unit: "°C" } as const;
    expect(us.say({ field: "tempC", must: tempC })).toBe("tempC must be -5 to 120 °C (23 to 248 °F)");
    expect(us.must({ is: "between", min: 10, max: 500, unit: "mm" })).toBe(
      "must be 10 to 500 mm (⅜ to 19 11/16 in)",
    );
    expect(us.must({ is: "between", min: 0, max: 100, unit: "% humidity" })).toBe(
      "must be 0 to 100 % humidity",
    );
    expect(english("metric", "UTC").faults.must(tempC)).toBe("must be -5 to 120 °C");
    expect(spanish("us", "UTC").faults.must(tempC)).toBe("debe ser de -5 a 120 °C (23 a 248 °F)");
  });
});
