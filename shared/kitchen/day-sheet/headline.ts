import type { Climate } from "#shared/drying/air-record/measured-air.ts";
import type { DaySheet, Headline, HeadlineAir, OtherDay } from "./sheet.ts";
import { paceOf } from "./pace.ts";

/** Beside the usual if that is known, else yesterday; undefined where floods have no forecast. */
export function headlineOf(
  sheet: Pick<DaySheet, "atMs" | "today" | "yesterday" | "usual" | "rows">,
): Headline | undefined {
  const flood = sheet.rows.find(({ consistency }) => consistency === "flood");
  if (flood === undefined) return undefined;
  const { skin, dryThrough } = flood.today;
  const day = sheet.usual === undefined ? "yesterday" : "usual";
  const then = sheet[day];
  const { skinRatio, dryThroughRatio } = flood[day] ?? {};
  const skinPace = skinRatio === undefined ? undefined : paceOf(skinRatio);
  const dryThroughPace = dryThroughRatio === undefined ? undefined : paceOf(dryThroughRatio);
  const isSkinAlike = skinPace?.code === "alike";
  if (isSkinAlike && dryThroughPace?.code === "alike" && !("never" in skin))
    return { code: "alike", day, skin };
  const isSlower = "never" in skin || (skinRatio ?? 0) > 1;
  return {
    code: "differs",
    atMs: sheet.atMs,
    air:
      then === undefined
        ? { code: "alone", today: sheet.today }
        : airBeside(sheet.today, then, day, isSlower),
    skin,
    dryThrough,
    day,
    ...(skinPace !== undefined && { skinPace }),
    ...(isSkinAlike && dryThroughPace !== undefined && { dryThroughPace }),
  };
}

/** As many points of humidity move drying about as much as one degree does; less than this, °C, explains nothing. */
const POINTS_A_DEGREE = 2;
const EXPLAINS_C = 0.75;

function airBeside(today: Climate, other: Climate, day: OtherDay, isSlower: boolean): HeadlineAir {
  const wetter = (today.rhPct - other.rhPct) / POINTS_A_DEGREE;
  const colder = other.tempC - today.tempC;
  const sign = isSlower ? 1 : -1;
  const isExplained = Math.max(sign * wetter, sign * colder) >= EXPLAINS_C;
  const isByHumidity = isExplained ? sign * wetter >= sign * colder : Math.abs(wetter) >= Math.abs(colder);
  const code = isByHumidity ? (wetter > 0 ? "wetter" : "drier") : colder > 0 ? "colder" : "warmer";
  return { code, day, today, other };
}
