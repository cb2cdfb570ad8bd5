import { describe, expect, it } from "vitest";
import {
  closedSpells,
  doneInOneGoMs,
  openFromMs,
  openSinceMs,
  workedMs,
} from "#shared/kitchen/model/opening-hours.ts";
import { HOUR, MIN } from "../support/scene.ts";

const daily = (fromMin: number, toMin: number, closed: readonly number[] = []) => ({
  timeZone: "Europe/Lisbon",
  opening: Array.from({ length: 7 }, (_, day) => (closed.includes(day) ? null : { fromMin, toMin })),
});
/** Six to eight in the evening, closed on Sundays. */
const usual = daily(6 * 60, 20 * 60, [6]);
/** A bakery at night: ten in the evening to six, but not the nights that follow Saturdays. */
const nights = daily(22 * 60, 6 * 60, [5]);
const shortTuesday = {
  ...usual,
  opening: usual.opening.map((hours, day) => (day === 1 ? { fromMin: 360, toMin: 390 } : hours)),
};
/** In the night of Monday, and straight on through Tuesday. */
const shifts = {
  ...usual,
  opening: [{ fromMin: 1320, toMin: 360 }, { fromMin: 360, toMin: 900 }, null, null, null, null, null],
};
const never = daily(0, 1440, [0, 1, 2, 3, 4, 5, 6]);

describe("K34 opening hours", () => {
  // In May Lisbon is an hour ahead of UTC; 4 May 2026 is a Monday. The clocks go forward on 29 March 2026 and back on
  // 25 October (EU Directive 2000/84/EC: the last Sundays of both months, 01:00 UTC).
  it.each([
    ["open now", usual, "2026-05-04T09:00Z", "2026-05-04T09:00Z"],
    ["before it opens", usual, "2026-05-04T03:00Z", "2026-05-04T05:00Z"],
    ["at closing", usual, "2026-05-04T19:00Z", "2026-05-05T05:00Z"],
    ["over a closed Sunday", usual, "2026-05-09T19:30Z", "2026-05-11T05:00Z"],
    ["the night the clocks go forward", daily(360, 1200), "2026-03-28T21:00Z", "2026-03-29T05:00Z"],
    ["the night they go back", daily(360, 1200), "2026-10-24T21:00Z", "2026-10-25T06:00Z"],
    ["day and night", daily(0, 1440), "2026-05-04T23:00Z", "2026-05-04T23:00Z"],
    ["in the night it opened in", nights, "2026-05-05T04:00Z", "2026-05-05T04:00Z"],
    ["by day, of a bakery at night", nights, "2026-05-05T05:00Z", "2026-05-05T21:00Z"],
    ["over its closed night", nights, "2026-05-09T05:00Z", "2026-05-10T21:00Z"],
    ["never", never, "2026-05-04T09:00Z", "2026-05-04T09:00Z"],
  ])("%s", (_, hours, from, expected) => {
    expect(new Date(openFromMs(hours, Date.parse(from))).toISOString()).toBe(
      new Date(expected).toISOString(),
    );
  });

  it.each([
    ["within the day", usual, "2026-05-04T09:00Z", 3 * HOUR, "2026-05-04T12:00Z"],
    ["begun before opening", usual, "2026-05-04T03:00Z", HOUR, "2026-05-04T06:00Z"],
    ["until closing", usual, "2026-05-04T18:00Z", HOUR, "2026-05-04T19:00Z"],
    ["over a night", usual, "2026-05-04T18:30Z", 40 * MIN, "2026-05-05T05:10Z"],
    ["over two days and a Sunday", usual, "2026-05-08T18:00Z", 16 * HOUR, "2026-05-11T06:00Z"],
    ["over a day", nights, "2026-05-05T04:30Z", HOUR, "2026-05-05T21:30Z"],
    [
      "where it opens for no time at all, at once",
      daily(1440, 0),
      "2026-05-04T09:00Z",
      HOUR,
      "2026-05-04T10:00Z",
    ],
    ["where it never opens, at once", never, "2026-05-04T09:00Z", HOUR, "2026-05-04T10:00Z"],
  ])("work goes on %s", (_, hours, from, workMs, expected) => {
    expect(new Date(workedMs(hours, Date.parse(from), workMs)).toISOString()).toBe(
      new Date(expected).toISOString(),
    );
  });

  it.each([
    ["in time for closing", usual, "2026-05-04T18:50Z", 10 * MIN, "2026-05-04T19:00Z"],
    ["not in time, at the next opening", usual, "2026-05-04T18:54Z", 10 * MIN, "2026-05-05T05:10Z"],
    ["begun after closing", usual, "2026-05-04T19:30Z", 10 * MIN, "2026-05-05T05:10Z"],
    ["over midnight, where hours touch", shifts, "2026-05-05T04:55Z", 10 * MIN, "2026-05-05T05:05Z"],
    ["past a day that is too short", shortTuesday, "2026-05-04T18:30Z", HOUR, "2026-05-06T06:00Z"],
    [
      "where no day is long enough, over closing",
      daily(360, 420),
      "2026-05-04T05:30Z",
      90 * MIN,
      "2026-05-05T06:00Z",
    ],
    ["where it never opens, at once", never, "2026-05-04T09:00Z", HOUR, "2026-05-04T10:00Z"],
  ])("work not broken off is done %s", (_, hours, from, workMs, expected) => {
    expect(new Date(doneInOneGoMs(hours, Date.parse(from), workMs)).toISOString()).toBe(
      new Date(expected).toISOString(),
    );
  });

  it.each([
    ["since it opened today", usual, "2026-05-04T09:00Z", "2026-05-04T05:00Z"],
    ["from the very minute", usual, "2026-05-04T05:00Z", "2026-05-04T05:00Z"],
    ["not at closing", usual, "2026-05-04T19:00Z", undefined],
    ["not before it opens", usual, "2026-05-04T04:59Z", undefined],
    ["since yesterday, over midnight", nights, "2026-05-05T02:00Z", "2026-05-04T21:00Z"],
    ["for a week at least, day and night", daily(0, 1440), "2026-05-05T02:00Z", "2026-04-27T23:00Z"],
    [
      "since Monday, but for its closed Sunday",
      daily(0, 1440, [6]),
      "2026-05-07T02:00Z",
      "2026-05-03T23:00Z",
    ],
    [
      "since yesterday, where the day begins as the night's hours end",
      shifts,
      "2026-05-05T09:00Z",
      "2026-05-04T21:00Z",
    ],
    ["since it opened by the new clocks", daily(360, 1200), "2026-10-25T07:00Z", "2026-10-25T06:00Z"],
    ["never", never, "2026-05-04T09:00Z", undefined],
  ])("open %s", (_, hours, now, since) => {
    const found = openSinceMs(hours, Date.parse(now));
    expect(found).toBe(since === undefined ? undefined : Date.parse(since));
  });
});

describe("C21 closed hours between two moments", () => {
  const closed = (hours: typeof usual, from: string, to: string): string[] =>
    closedSpells(hours, Date.parse(from), Date.parse(to)).map(
      ({ fromMs, toMs }) => `${new Date(fromMs).toISOString()} ${new Date(toMs).toISOString()}`,
    );
  it.each([
    ["a night", usual, "2026-05-04T09:00Z", "2026-05-05T09:00Z", ["2026-05-04T19:00 2026-05-05T05:00"]],
    ["from amid one", usual, "2026-05-04T03:00Z", "2026-05-04T19:00Z", ["2026-05-04T03:00 2026-05-04T05:00"]],
    [
      "up to amid one",
      usual,
      "2026-05-04T09:00Z",
      "2026-05-04T22:00Z",
      ["2026-05-04T19:00 2026-05-04T22:00"],
    ],
    [
      "two of them",
      usual,
      "2026-05-04T03:00Z",
      "2026-05-04T20:00Z",
      ["2026-05-04T03:00 2026-05-04T05:00", "2026-05-04T19:00 2026-05-04T20:00"],
    ],
    ["a Sunday", usual, "2026-05-09T20:00Z", "2026-05-10T20:00Z", ["2026-05-09T20:00 2026-05-10T20:00"]],
    ["open day and night", daily(0, 1440), "2026-05-04T09:00Z", "2026-05-05T09:00Z", []],
    ["without opening hours", never, "2026-05-04T09:00Z", "2026-05-05T09:00Z", []],
  ] as const)("%s", (_, hours, from, to, expected) => {
    const full = expected.map((spell) => spell.replaceAll(/T\d\d:\d\d/g, (time) => `${time}:00.000Z`));
    expect(closed(hours, from, to)).toEqual(full);
  });
});
