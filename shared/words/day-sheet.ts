import type { Climate } from "#shared/drying/air-record/measured-air.ts";
import { formatBand, formatTemp } from "#shared/units.ts";
import { dayAndMinute } from "./clock.ts";
import type { BesideDay, DayRow, DaySheet } from "#shared/kitchen/day-sheet/day-sheet.ts";
import type { Span } from "#shared/drying/uncertainty/span.ts";
import type { Settings } from "#shared/kitchen/model/vocabulary.ts";
import { clockTime, dayTime } from "./wording.ts";
import { MIN_MS } from "#shared/time.ts";

type Day = "usual" | "yesterday";

/** Within a tenth, two times count as alike. */
const ALIKE = 1.1;
const SLOWER: readonly [below: number, words: string][] = [
  [1.15, "about a tenth slower than"],
  [1.225, "about a fifth slower than"],
  [1.29, "about a quarter slower than"],
  [1.42, "about a third slower than"],
  [1.75, "about half as long again as"],
  [2.5, "about twice as long as"],
];
const QUICKER: readonly [above: number, words: string][] = [
  [0.85, "about a tenth quicker than"],
  [0.775, "about a fifth quicker than"],
  [0.71, "about a quarter quicker than"],
  [0.58, "about a third quicker than"],
  [0.42, "about half as long as"],
  [0.29, "about a third as long as"],
];

/** "about a third slower than usual": how today's time stands to another day's. */
export const ratioWords = (ratio: number, day: Day): string => `${stemOf(ratio)} ${day}`;

function stemOf(ratio: number): string {
  if (isAlike(ratio)) return "about as";
  return ratio > 1
    ? (SLOWER.find(([below]) => ratio < below)?.[1] ?? `about ${Math.round(ratio)} times as long as`)
    : (QUICKER.find(([above]) => ratio > above)?.[1] ?? "at most a quarter as long as");
}

const isAlike = (ratio: number): boolean => ratio < ALIKE && ratio > 1 / ALIKE;

/** "A flood skins in 40–75 min today: about a third slower than yesterday. It is dry through in 12–18 h." */
export function daySentence(row: Omit<DayRow, "sentence">): string {
  const { consistency, today, yesterday, usual } = row;
  const name = `${consistency === "outline" ? "An" : "A"} ${consistency}`;
  if ("never" in today.skin) return `${name} will not skin today. ${today.skin.never}`;
  const skin = `${name} skins in ${spanWords(today.skin)} today${besideWords("skin", yesterday, usual)}.`;
  if ("never" in today.dryThrough) return `${skin} It will not dry through. ${today.dryThrough.never}`;
  return `${skin} It is dry through in ${spanWords(today.dryThrough)}${besideWords("dryThrough", yesterday, usual)}.`;
}

/** ": about a third slower than yesterday and than usual", as far as they are known. */
function besideWords(
  quantity: "skin" | "dryThrough",
  yesterday: BesideDay | undefined,
  usual: BesideDay | undefined,
): string {
  const [last, most] = [yesterday?.[`${quantity}Ratio`], usual?.[`${quantity}Ratio`]];
  if (last !== undefined && most !== undefined && stemOf(last) === stemOf(most)) {
    const stem = stemOf(last);
    return `: ${stem} yesterday and ${stem.split(" ").at(-1) ?? ""} usual`;
  }
  const words = [
    ...(last === undefined ? [] : [ratioWords(last, "yesterday")]),
    ...(most === undefined ? [] : [ratioWords(most, "usual")]),
  ];
  return words.length === 0 ? "" : `: ${words.join(", ")}`;
}

/** The sheet in a line, beside the usual if that is known, else yesterday; short where nothing stands out. */
export function dayHeadline(
  sheet: Pick<DaySheet, "atMs" | "today" | "yesterday" | "usual" | "rows">,
  settings: Settings,
): string {
  const flood = sheet.rows.find(({ consistency }) => consistency === "flood");
  if (flood === undefined) return "";
  const { skin, dryThrough } = flood.today;
  const day: Day = sheet.usual === undefined ? "yesterday" : "usual";
  const then = sheet[day];
  const { skinRatio, dryThroughRatio } = flood[day] ?? {};
  const isSkinAlike = skinRatio !== undefined && isAlike(skinRatio);
  const isDryThroughAlike = dryThroughRatio !== undefined && isAlike(dryThroughRatio);
  if (isSkinAlike && isDryThroughAlike && !("never" in skin))
    return `Air as ${day}: floods skin in ${spanWords(skin)}.`;
  const air =
    then === undefined
      ? `Air at ${rhWords(sheet.today)}, ${formatTemp(sheet.today.tempC, settings.units)}.`
      : airWords(sheet.today, then, day, "never" in skin || (skinRatio ?? 0) > 1, settings);
  if ("never" in skin) return `${air} Floods will not skin. ${skin.never}`;
  const beside = skinRatio === undefined ? "" : `, ${ratioWords(skinRatio, day)}`;
  const skins = `${air} Floods skin in ${spanWords(skin)}${beside}`;
  if ("never" in dryThrough) return `${skins}, and will not dry through. ${dryThrough.never}`;
  const differs = isSkinAlike && dryThroughRatio !== undefined ? `, ${ratioWords(dryThroughRatio, day)}` : "";
  return `${skins}; dry through ${clockBand(sheet.atMs, dryThrough, settings.timeZone)}${differs}.`;
}

/** As many points of humidity move drying about as much as one degree does; less than this, °C, explains nothing. */
const POINTS_A_DEGREE = 2;
const EXPLAINS_C = 0.75;

/** "Wetter than usual: 64 % RH against 51 %.": the one of humidity and temperature that explains it, else the greater change. */
function airWords(today: Climate, then: Climate, day: Day, isSlower: boolean, { units }: Settings): string {
  const wetter = (today.rhPct - then.rhPct) / POINTS_A_DEGREE;
  const colder = then.tempC - today.tempC;
  const sign = isSlower ? 1 : -1;
  const isExplained = Math.max(sign * wetter, sign * colder) >= EXPLAINS_C;
  const isByHumidity = isExplained ? sign * wetter >= sign * colder : Math.abs(wetter) >= Math.abs(colder);
  if (isByHumidity)
    return `${wetter > 0 ? "Wetter" : "Drier"} than ${day}: ${rhWords(today)} against ${Math.round(then.rhPct)} %.`;
  return `${colder > 0 ? "Colder" : "Warmer"} than ${day}: ${formatTemp(today.tempC, units)} against ${formatTemp(then.tempC, units)}.`;
}

const rhWords = ({ rhPct }: Climate): string => `${Math.round(rhPct)} % RH`;

type ReachedSpan = Exclude<Span, { never: string }>;

const spanWords = ({ earliestMin, latestMin }: ReachedSpan): string => formatBand(earliestMin, latestMin);

const HALF_HOUR_MS = 30 * MIN_MS;

/** "tomorrow 07:00–11:00", from a clock that starts now, rounded outwards to half hours. */
function clockBand(nowMs: number, { earliestMin, latestMin }: ReachedSpan, timeZone: string): string {
  const fromMs = Math.floor((nowMs + earliestMin * MIN_MS) / HALF_HOUR_MS) * HALF_HOUR_MS;
  const toMs = Math.ceil((nowMs + latestMin * MIN_MS) / HALF_HOUR_MS) * HALF_HOUR_MS;
  const [first, last] = [dayName(fromMs, nowMs, timeZone), dayName(toMs, nowMs, timeZone)];
  const [from, to] = [clockTime(fromMs, timeZone), clockTime(toMs, timeZone)];
  return first === last ? `${first} ${from}–${to}` : `${first} ${from} to ${last} ${to}`;
}

function dayName(atMs: number, nowMs: number, timeZone: string): string {
  const ahead = (dayAndMinute(atMs, timeZone).day - dayAndMinute(nowMs, timeZone).day + 7) % 7;
  return ["today", "tomorrow"][ahead] ?? dayTime(atMs, timeZone).slice(0, 3);
}
