import type { Band } from "#shared/drying/uncertainty/band.ts";
import { describe, expect, it } from "vitest";
import { learn } from "#shared/drying/uncertainty/learning.ts";
import type { DaySheet } from "#shared/kitchen/day-sheet/sheet.ts";
import { daySheet, openingLine } from "#shared/kitchen/day-sheet/day-sheet.ts";
import { paceOf } from "#shared/kitchen/day-sheet/pace.ts";
import { english } from "#shared/words/en/index.ts";
import { type Forecasts, NO_FORECASTS } from "#shared/kitchen/model/forecast.ts";
import { placeForecast } from "#shared/kitchen/forecast/films.ts";
import type { AirReading, Kitchen } from "#shared/kitchen/model/state.ts";
import type { Consistency } from "#shared/kitchen/model/vocabulary.ts";
import type { Settings } from "#shared/kitchen/model/settings.ts";
import { DAY_AND_NIGHT } from "../support/furnishings.ts";
import { aKitchen, HOUR, MIN } from "../support/scene.ts";

/** A Thursday in May, 07:00 in Lisbon, an hour after opening. */
const NOW = Date.UTC(2026, 4, 7, 6, 0);
const UNTAUGHT = learn([]);
const ROOM = aKitchen().kitchen;
const WORDS = english("metric", ROOM.settings.timeZone);
// Between a figure and its per cent stands a space that does not break.
const plain = (text: string): string => text.replaceAll("\u00A0", " ");
const headlineText = ({ headline }: DaySheet, words = WORDS): string => {
  if (headline === undefined) return "";
  const { air, films } = words.day.headline(headline);
  return plain([air, ...(films === undefined ? [] : [films])].join(" "));
};
const rowText = (sheet: DaySheet, consistency: Consistency): string =>
  plain(WORDS.day.row(rowOf(sheet, consistency)));

/** A sensor's lines every quarter of an hour (or as told) between two moments. */
const lines = (
  fromMs: number,
  toMs: number,
  air: (atMs: number) => { tempC?: number; rhPct: number },
  everyMs = 15 * MIN,
): AirReading[] =>
  Array.from({ length: Math.floor((toMs - fromMs) / everyMs) + 1 }, (_, k) => {
    const atMs = fromMs + k * everyMs;
    return { tempC: 21, ...air(atMs), atMs, source: "sensor" };
  });

const reading = (readings: readonly AirReading[], settings: Partial<Settings> = {}): Kitchen => ({
  ...ROOM,
  settings: { ...ROOM.settings, ...settings },
  readings: { "rack-a": readings },
});

/** What the server would have published of the rack. */
const forecastsOf = (kitchen: Kitchen, learned = UNTAUGHT, nowMs = NOW): Forecasts => ({
  ...NO_FORECASTS,
  places: { "rack-a": placeForecast(kitchen, kitchen.places["rack-a"]!, learned, nowMs) },
});

function sheetOf(kitchen: Kitchen, nowMs = NOW, learned = UNTAUGHT): DaySheet {
  const sheet = daySheet(kitchen, forecastsOf(kitchen, learned, nowMs), undefined, nowMs);
  if (sheet === undefined) throw new Error("no sheet");
  return sheet;
}

/** A week at one air, then another since the kitchen's midnight. */
const changedTo = (then: number, now: number, tempC = 21): AirReading[] => [
  ...lines(NOW - 7 * 24 * HOUR, NOW - 8 * HOUR, () => ({ rhPct: then })),
  ...lines(NOW - 7 * HOUR, NOW, () => ({ rhPct: now, tempC })),
];

const rowOf = (sheet: DaySheet, consistency: Consistency) =>
  sheet.rows.find((row) => row.consistency === consistency)!;
const likely = (span: Band): number => ("never" in span ? Infinity : span.likelyMs / MIN);

describe("a wet day", () => {
  const sheet = sheetOf(reading(changedTo(51, 64)));

  it("D24 today's numbers are the published forecasts, to the minute", () => {
    const published = forecastsOf(reading(changedTo(51, 64))).places["rack-a"]!;
    expect(sheet.rows.map(({ today }) => today)).toEqual(
      published.films.map(({ skin, dryThrough }) => ({ skin, dryThrough })),
    );
  });

  it("D24 D4 both other days are what a kitchen in their air would forecast, and today takes longer by the ratio", () => {
    const [dry, wet] = [51, 64].map(
      (rhPct) => forecastsOf(reading(lines(NOW - HOUR, NOW, () => ({ rhPct })))).places["rack-a"]!.films,
    );
    for (const [k, row] of sheet.rows.entries())
      for (const [day, quantity] of [
        ["yesterday", "skin"],
        ["yesterday", "dryThrough"],
        ["usual", "skin"],
        ["usual", "dryThrough"],
      ] as const) {
        const ratio = likely(wet![k]![quantity]) / likely(dry![k]![quantity]);
        expect(ratio).toBeGreaterThan(1);
        // Both sides are minutes rounded to a tenth, of outline icing's few.
        expect(row[day]![`${quantity}Ratio`]).toBeCloseTo(ratio, 1);
        expect(likely(row[day]![quantity]) / likely(dry![k]![quantity])).toBeCloseTo(1, 1);
      }
  });

  it("D24 a row says it in a sentence, a headline for the wall with its uncertainty", () => {
    expect(rowText(sheet, "flood")).toMatch(
      /^A flood skins in [\d½]+( min)?–[\d½]+ (min|h) today: about .+ yesterday and (than|as) usual\. It is dry through in [\d½]+( h)?–[\d½]+ (h|days): /,
    );
    expect(headlineText(sheet)).toMatch(
      /^Wetter than usual: 64 % RH against 51 %\. Floods skin in [\d½]+( min)?–[\d½]+ (min|h), about .+ usual; dry through (today|tomorrow) \d\d:[03]0.+\d\d:[03]0\.$/,
    );
    expect(sheet.missing).toEqual([]);
  });
});

it("D26 D27 it says what the air is taken to do from now on: to stay, or once a week is read to move as it did", () => {
  const aheadAfter = (days: number): string =>
    sheetOf(reading(lines(NOW - days * 24 * HOUR, NOW, () => ({ rhPct: 55 })))).ahead;
  expect(aheadAfter(2)).toBe("persistence");
  expect(aheadAfter(8)).toBe("daily swing");
});

// PHYSICS of the trade, practice, no source: at 70 % in still air a top-coat skins in over 2 h against 15–45 min at 45 %, and
// dries through in 2 to 4 times the time.
it("D24 D3 at 70 % against 45 % a top-coat takes 2 to 4 times as long to dry through, and over 2 h to skin", () => {
  const readings = changedTo(45, 70, 22).map((line) => ({ ...line, tempC: 22 }));
  const row = rowOf(sheetOf(reading(readings)), "top-coat");
  expect(row.usual?.dryThroughRatio).toBeGreaterThan(2);
  expect(row.usual?.dryThroughRatio).toBeLessThan(4);
  expect(likely(row.today.skin)).toBeGreaterThan(120);
  expect(likely(row.usual!.skin)).toBeLessThan(45);
});

describe("like with like", () => {
  it.each([6, 9, 13, 17])("D24 a day that swings as every day does is as usual at %i:00", (hour) => {
    const nowMs = Date.UTC(2026, 4, 7, hour - 1, 0);
    const swing = (atMs: number) => {
      const turn = Math.sin((2 * Math.PI * (atMs % (24 * HOUR))) / (24 * HOUR));
      return { rhPct: 55 + 8 * turn, tempC: 20 - 2 * turn };
    };
    const sheet = sheetOf(reading(lines(nowMs - 8 * 24 * HOUR, nowMs, swing)), nowMs);
    expect(headlineText(sheet)).toMatch(/^Air as usual: floods skin in [^.]+\.$/);
    expect(sheet.usual?.rhPct).toBeCloseTo(sheet.today.rhPct, 0);
    expect(sheet.yesterday?.rhPct).toBeCloseTo(sheet.today.rhPct, 0);
  });

  it("D24 each day counts once for the usual, however often it was read", () => {
    const days = [45, 46, 47, 48, 49].flatMap((rhPct, k) =>
      lines(NOW - (7 - k) * 24 * HOUR - HOUR, NOW - (7 - k) * 24 * HOUR + HOUR, () => ({ rhPct }), 2 * HOUR),
    );
    const busy = lines(NOW - 24 * HOUR - HOUR, NOW - 24 * HOUR + HOUR, () => ({ rhPct: 70 }), MIN);
    const sheet = sheetOf(reading([...days, ...busy, ...lines(NOW - HOUR, NOW, () => ({ rhPct: 50 }))]));
    expect(sheet.usual?.rhPct).toBe(47.5);
    expect(sheet.yesterday?.rhPct).toBe(70);
  });

  it("D24 the same hour is the kitchen clock's: on the day the clocks went forward, 23 hours ago", () => {
    // Lisbon, 29 March 2026: 01:00 became 02:00 (EU directive 2000/84/EC: the last Sunday in March, 01:00 UTC).
    const nowMs = Date.UTC(2026, 2, 29, 11, 0);
    const yesterday = lines(Date.UTC(2026, 2, 28, 0, 0), Date.UTC(2026, 2, 28, 23, 45), (atMs) => ({
      rhPct: 30 + new Date(atMs).getUTCHours(),
    }));
    const sheet = sheetOf(
      reading([...yesterday, ...lines(nowMs - HOUR, nowMs, () => ({ rhPct: 50 }))]),
      nowMs,
    );
    // 12:00 by the kitchen's clock on both days; hours either side of it alike.
    expect(sheet.yesterday?.rhPct).toBe(42);
  });

  it("D24 D12 what the kitchen has taught moves both columns and leaves the ratio", () => {
    const slow = learn(
      Array.from({ length: 40 }, () => ({
        quantity: "skin" as const,
        icing: "storm",
        place: "rack-a",
        lnLow: Math.log(1.6),
        lnHigh: Math.log(1.6),
      })),
    );
    const kitchen = reading(changedTo(51, 64));
    const [untaught, taught] = [sheetOf(kitchen), sheetOf(kitchen, NOW, slow)].map((one) =>
      rowOf(one, "flood"),
    );
    expect(likely(taught!.today.skin)).toBeGreaterThan(1.3 * likely(untaught!.today.skin));
    expect(taught!.usual!.skinRatio).toBeCloseTo(untaught!.usual!.skinRatio!, 6);
    expect(likely(taught!.usual!.skin) * taught!.usual!.skinRatio!).toBeCloseTo(
      likely(taught!.today.skin),
      0,
    );
  });
});

describe("what was not read", () => {
  it("D25 D15 without any reading only today is shown, as assumed", () => {
    const sheet = sheetOf(reading([]));
    expect(sheet.missing).toEqual([{ code: "never-read" }]);
    expect(sheet.rows.every((row) => row.yesterday === undefined && row.usual === undefined)).toBe(true);
    expect(headlineText(sheet)).toMatch(/^Air at 45 % RH, 22 °C\. Floods skin in [^,]+; dry through /);
  });

  it("D24 with today alone there is nothing to compare with", () => {
    const sheet = sheetOf(reading(lines(NOW - HOUR, NOW, () => ({ rhPct: 64 }))));
    expect(sheet.missing).toEqual([{ code: "no-yesterday" }, { code: "no-usual", daysLeast: 3 }]);
    expect(rowText(sheet, "flood")).not.toMatch(/usual|yesterday/);
  });

  it("D24 with yesterday but no usual the headline compares with yesterday", () => {
    const readings = [
      ...lines(NOW - 25 * HOUR, NOW - 23 * HOUR, () => ({ rhPct: 51 })),
      ...lines(NOW - HOUR, NOW, () => ({ rhPct: 64 })),
    ];
    const sheet = sheetOf(reading(readings));
    expect(headlineText(sheet)).toMatch(/^Wetter than yesterday: 64 % RH against 51 %\./);
    expect(rowOf(sheet, "flood").usual).toBeUndefined();
    expect(sheet.missing).toHaveLength(1);
  });

  it("D25 with a usual but no yesterday that column is left out", () => {
    const readings = changedTo(51, 64).filter(({ atMs }) => Math.abs(atMs - (NOW - 24 * HOUR)) > 2 * HOUR);
    const sheet = sheetOf(reading(readings));
    expect(sheet.missing).toEqual([{ code: "no-yesterday" }]);
    expect(headlineText(sheet)).toMatch(/^Wetter than usual/);
    expect(sheet.rows.every((row) => row.yesterday === undefined && row.usual !== undefined)).toBe(true);
  });

  it("D25 air read over three hours ago is not today's", () => {
    const sheet = sheetOf(reading(lines(NOW - 8 * 24 * HOUR, NOW - 4 * HOUR, () => ({ rhPct: 51 }))));
    expect(sheet.missing).toEqual([{ code: "not-read-since", atMs: NOW - 4 * HOUR }]);
    expect(sheet.usual).toBeUndefined();
  });

  it("D24 before any forecast there is no sheet, nor for a kitchen with nothing but an oven", () => {
    const kitchen = reading(changedTo(51, 64));
    expect(daySheet(kitchen, NO_FORECASTS, undefined, NOW)).toBeUndefined();
    const oven = placeForecast(kitchen, kitchen.places["oven"]!, UNTAUGHT, NOW);
    expect(daySheet(kitchen, { ...NO_FORECASTS, places: { oven } }, undefined, NOW)).toBeUndefined();
  });
});

describe("air in which icing gives up nothing", () => {
  it("D24 D5 today: it says why, and still what the usual was", () => {
    const sheet = sheetOf(reading(changedTo(51, 88)));
    expect(headlineText(sheet)).toMatch(
      /^Wetter than usual: 88 % RH against 51 %\. Floods will not skin\. The air at 88.% humidity is too damp \(.+\)\.$/,
    );
    const flood = rowOf(sheet, "flood");
    expect(rowText(sheet, "flood")).toMatch(/^A flood will not skin today\. The air at 88 %/);
    expect(flood.usual?.skinRatio).toBeUndefined();
    const usual = sheetOf(reading(changedTo(51, 51)));
    expect(likely(flood.usual!.skin)).toBeCloseTo(likely(rowOf(usual, "flood").today.skin), 0);
  });

  it("D24 D5 on other days: today is drier, and has no ratio", () => {
    const sheet = sheetOf(reading(changedTo(88, 51)));
    expect(headlineText(sheet)).toMatch(
      /^Drier than usual: 51 % RH against 88 %\. Floods skin in [^,]+; dry through /,
    );
    expect(rowOf(sheet, "flood").usual?.skin).toHaveProperty("never");
  });
});

describe("words", () => {
  it("D24 a cold day is told by its temperature, in the kitchen's units", () => {
    const cold = changedTo(50, 50, 14);
    expect(headlineText(sheetOf(reading(cold)))).toMatch(
      /^Colder than usual: 14 °C against 21 °C\. Floods skin in /,
    );
    expect(headlineText(sheetOf(reading(cold)), english("us", ROOM.settings.timeZone))).toMatch(
      /^Colder than usual: 57 °F against 70 °F\./,
    );
  });

  it("D24 the air is told by what explains the times, and never falsely", () => {
    for (const [rhPct, tempC] of [
      [50, 25],
      [50, 17],
      [58, 25],
      [42, 17],
      [58, 17],
      [42, 25],
    ] as const) {
      const headline = headlineText(sheetOf(reading(changedTo(50, rhPct, tempC))));
      const word = /^(Wetter|Drier|Colder|Warmer) than usual/.exec(headline)?.[1];
      expect({
        word,
        isTrue: { Wetter: rhPct > 50, Drier: rhPct < 50, Colder: tempC < 21, Warmer: tempC > 21 }[word!],
      }).toEqual({
        word,
        isTrue: true,
      });
    }
  });

  it.each([
    [1.0, "about as usual"],
    [1.099, "about as usual"],
    [0.92, "about as usual"],
    [1.1, "about a tenth slower than usual"],
    [1.2, "about a fifth slower than usual"],
    [1.25, "about a quarter slower than usual"],
    [4 / 3, "about a third slower than usual"],
    [1.5, "about half as long again as usual"],
    [2, "about twice as long as usual"],
    [3.1, "about 3 times as long as usual"],
    [0.9, "about a tenth quicker than usual"],
    [0.8, "about a fifth quicker than usual"],
    [0.75, "about a quarter quicker than usual"],
    [2 / 3, "about a third quicker than usual"],
    [0.5, "about half as long as usual"],
    [1 / 3, "about a third as long as usual"],
    [0.1, "at most a quarter as long as usual"],
  ])("D24 %d is %s", (ratio, words) => {
    expect(WORDS.day.compared(paceOf(ratio), "usual")).toBe(words);
  });

  it("D24 a band of dry-through that crosses midnight names both days", () => {
    const nowMs = Date.UTC(2026, 4, 7, 11, 0);
    const readings = lines(nowMs - HOUR, nowMs, () => ({ rhPct: 45 }));
    const headline = headlineText(sheetOf(reading(readings), nowMs));
    expect(headline).toMatch(/dry through today \d\d:[03]0 to tomorrow \d\d:[03]0\.$/);
  });
});

describe("at opening", () => {
  // Opening at 06:00 in Lisbon (05:00 UTC in summer), closed on Sundays.
  const kitchen = reading(changedTo(51, 64));
  const sheet = sheetOf(kitchen);
  const at = (day: number, hour: number, minute: number): number => Date.UTC(2026, 4, day, hour, minute);

  it.each([
    ["before", at(7, 4, 59), false],
    ["at opening", at(7, 5, 0), true],
    ["89 minutes later", at(7, 6, 29), true],
    ["90 minutes later", at(7, 6, 30), false],
    ["on a closed day", at(10, 5, 30), false],
  ])("D28 the line is shown in the first 90 minutes: %s", (_, nowMs, isShown) => {
    expect(openingLine(kitchen, sheet, nowMs)).toBe(isShown ? sheet.headline : undefined);
  });

  it("D24 K34 there is no line at midnight where nothing closed: hours that touch are one stretch", () => {
    const settings = { ...kitchen.settings, opening: DAY_AND_NIGHT };
    expect(openingLine({ ...kitchen, settings }, sheet, at(6, 23, 30))).toBeUndefined();
  });

  it("D24 an unremarkable day has a shorter line, with its uncertainty all the same", () => {
    const ordinary = sheetOf(reading(changedTo(51, 52)));
    expect(openingLine(kitchen, ordinary, at(7, 5, 30))).toEqual(ordinary.headline);
    const line = headlineText(ordinary);
    expect(line).toMatch(/^Air as usual: floods skin in [\d½]+( min)?–[\d½]+ (min|h)\.$/);
    expect(line.length).toBeLessThan(headlineText(sheet).length / 2);
  });
});
