import { type Band, mapBand, roundedSpan } from "#shared/drying/uncertainty/band.ts";
import { type Belief, PRIOR_BELIEF } from "#shared/drying/uncertainty/belief.ts";
import type { AirSpell } from "#shared/drying/film/air.ts";
import type { FilmSpec } from "#shared/drying/film/film.ts";
import { type AirDoubt, forecastFilm } from "#shared/drying/uncertainty/forecast.ts";
import { beliefFor, type Learned } from "#shared/drying/uncertainty/learning.ts";
import type { Climate } from "#shared/drying/air-record/measured-air.ts";
import { doubtOf, median, READING_RANGE } from "#shared/drying/air-record/readings.ts";
import { mainOutlook } from "#shared/kitchen/forecast/main-outlook.ts";
import { offsetMs } from "#shared/kitchen/model/calendar.ts";
import { openSinceMs } from "#shared/kitchen/model/opening-hours.ts";
import { airAt } from "#shared/kitchen/forecast/air.ts";
import { readingsAt } from "#shared/kitchen/tray/place-readings.ts";
import type { Forecasts } from "#shared/kitchen/model/forecast.ts";
import { type Spans, usualFilm } from "#shared/kitchen/forecast/films.ts";
import type { AirReading, Kitchen } from "#shared/kitchen/model/state.ts";
import { DAY_MS, MIN_MS } from "#shared/time.ts";
import { headlineOf } from "./headline.ts";
import type { BesideDay, DayRow, DaySheet, Headline, MissingAir } from "./sheet.ts";

/** Lines this near to the hour speak for it. */
const NEAR_MS = 90 * MIN_MS;
/** Air read longer ago than this is not today's. */
const READ_WITHIN_MS = 180 * MIN_MS;
/** Readings are kept for eight days; the usual takes three of them. */
const DAYS_MOST = 8;
const DAYS_LEAST = 3;

/**
 * Today's numbers are the forecasts'; another day's are today's times the ratio of the model's likeliest times, both in
 * today's course of the air at that day's level for this hour. `learned` where it is at hand. Undefined before any forecast, and
 * where there is no place in the room's own air.
 */
export function daySheet(
  kitchen: Kitchen,
  forecasts: Forecasts,
  learned: Learned | undefined,
  nowMs: number,
): DaySheet | undefined {
  const outlook = mainOutlook(kitchen, forecasts);
  const place = kitchen.places[outlook?.placeId ?? ""];
  if (outlook === undefined || place === undefined || place.setTempC !== undefined) return undefined;
  const air = airAt(kitchen, place.id, nowMs, nowMs);
  const course = air.spells;
  const today = course[0]?.air;
  if (today === undefined) return undefined;
  const readings = readingsAt(kitchen, place.id);
  const { yesterday, usual, missing } = daysOf(readings, kitchen.settings.timeZone, nowMs);
  const model: Model = {
    course,
    today,
    belief: learned === undefined ? PRIOR_BELIEF : beliefFor(learned, { icing: "", place: place.id }),
    doubt: doubtOf(readings, nowMs),
  };
  const rows = outlook.films.map(({ consistency, thicknessMm, ...now }): DayRow => {
    const { spec } = usualFilm(kitchen, consistency);
    return {
      consistency,
      thicknessMm,
      today: now,
      ...(yesterday !== undefined && { yesterday: beside(model, spec, now, yesterday) }),
      ...(usual !== undefined && { usual: beside(model, spec, now, usual) }),
    };
  });
  const sheet = {
    atMs: nowMs,
    place: place.name,
    today: { tempC: today.tempC, rhPct: today.rhPct },
    basis: outlook.basis,
    ahead: air.outlook,
    ...(yesterday !== undefined && { yesterday }),
    ...(usual !== undefined && { usual }),
    rows,
    missing,
  };
  const headline = headlineOf(sheet);
  return headline === undefined ? sheet : { ...sheet, headline };
}

/** The sheet's line for the wall, in the first 90 minutes after opening. */
export function openingLine(kitchen: Kitchen, sheet: DaySheet, nowMs: number): Headline | undefined {
  const openedAtMs = openSinceMs(kitchen.settings, nowMs);
  return openedAtMs !== undefined && nowMs - openedAtMs < OPENING_MS ? sheet.headline : undefined;
}
const OPENING_MS = 90 * MIN_MS;

interface Days {
  yesterday?: Climate;
  usual?: Climate;
  missing: MissingAir[];
}

/** The days to compare with, as far as they were read; none if today was not. */
function daysOf(readings: readonly AirReading[], timeZone: string, nowMs: number): Days {
  const readAtMs = readings.findLast(({ atMs }) => atMs <= nowMs)?.atMs;
  if (readAtMs === undefined) return { missing: [{ code: "never-read" }] };
  if (nowMs - readAtMs > READ_WITHIN_MS) return { missing: [{ code: "not-read-since", atMs: readAtMs }] };
  const days = levelsBefore(readings, timeZone, nowMs);
  const [yesterday] = days;
  const usual = usualOf(days);
  const missing: MissingAir[] = [];
  if (yesterday === undefined) missing.push({ code: "no-yesterday" });
  if (usual === undefined) missing.push({ code: "no-usual", daysLeast: DAYS_LEAST });
  return { ...(yesterday !== undefined && { yesterday }), ...(usual !== undefined && { usual }), missing };
}

/** The air of each earlier day at this hour of the kitchen's clock, yesterday first. */
function levelsBefore(
  readings: readonly AirReading[],
  timeZone: string,
  nowMs: number,
): (Climate | undefined)[] {
  return Array.from({ length: DAYS_MOST }, (_, k) => {
    const atMs = nowMs - (k + 1) * DAY_MS;
    return levelOf(readings, atMs + offsetMs(timeZone, nowMs) - offsetMs(timeZone, atMs));
  });
}

const levelOf = (readings: readonly AirReading[], atMs: number): Climate | undefined =>
  middle(readings.filter((line) => Math.abs(line.atMs - atMs) <= NEAR_MS));

/** The median over the days, so that each counts once however often it was read. */
function usualOf(days: readonly (Climate | undefined)[]): Climate | undefined {
  const read = days.filter((day) => day !== undefined);
  return read.length < DAYS_LEAST ? undefined : middle(read);
}

function middle(airs: readonly Climate[]): Climate | undefined {
  const tempC = median(airs.map((air) => air.tempC));
  const rhPct = median(airs.map((air) => air.rhPct));
  return tempC === undefined || rhPct === undefined ? undefined : { tempC, rhPct };
}

/** What the model goes by today: the air's course from now, and how sure it is. */
interface Model {
  course: readonly AirSpell[];
  today: Climate;
  belief: Belief;
  doubt: AirDoubt;
}

function beside(
  { course, today, belief, doubt }: Model,
  spec: FilmSpec,
  now: Spans,
  level: Climate,
): BesideDay {
  const then = course.map((spell) => ({
    ...spell,
    air: { ...spell.air, ...moved(spell.air, today, level) },
  }));
  const likely = (spells: readonly AirSpell[]) => forecastFilm(spec, spells, { belief: surely(belief) });
  const [nowLikely, thenLikely] = [likely(course), likely(then)];
  const skinRatio = ratioOf(nowLikely.skin, thenLikely.skin);
  const dryThroughRatio = ratioOf(nowLikely.dryThrough, thenLikely.dryThrough);
  const afresh = () => forecastFilm(spec, then, { belief, doubt });
  return {
    skin: stretched(now.skin, skinRatio) ?? roundedSpan(afresh().skin),
    dryThrough: stretched(now.dryThrough, dryThroughRatio) ?? roundedSpan(afresh().dryThrough),
    ...(skinRatio !== undefined && { skinRatio }),
    ...(dryThroughRatio !== undefined && { dryThroughRatio }),
  };
}

/** An air of today's course at another day's level. */
function moved(air: Climate, today: Climate, level: Climate): Climate {
  const by = (kind: keyof Climate): number => {
    const { min, max } = READING_RANGE[kind];
    return Math.min(max, Math.max(min, air[kind] + level[kind] - today[kind]));
  };
  return { tempC: by("tempC"), rhPct: by("rhPct") };
}

/** The same belief without its spread: only the likeliest time is asked for. */
const surely = ({ skin, dryThrough }: Belief): Belief => ({
  skin: { ...skin, sdLn: 0 },
  dryThrough: { ...dryThrough, sdLn: 0 },
});

const ratioOf = (now: Band, then: Band): number | undefined =>
  "never" in now || "never" in then ? undefined : now.likelyMs / then.likelyMs;

/** Today's span on a day on which it takes 1/`ratio` as long; undefined where there is nothing to stretch. */
function stretched(today: Band, ratio: number | undefined): Band | undefined {
  if ("never" in today || ratio === undefined) return undefined;
  return roundedSpan(mapBand(today, (ms) => ms / ratio));
}
