import type { Band, ReachedBand } from "#shared/drying/uncertainty/band.ts";
import type { Climate } from "#shared/drying/air-record/measured-air.ts";
import type { DaySheet } from "./day-sheet.ts";
import { type Pace, paceOf } from "./pace.ts";

/** The day that today is held against. */
export type OtherDay = "usual" | "yesterday";

type ReachedSpan = ReachedBand;

/** The sheet in a line, of a flood laid now. */
export type Headline =
  /** Nothing stands out. */
  | { code: "alike"; day: OtherDay; skin: ReachedSpan }
  | {
      code: "differs";
      atMs: number;
      air: HeadlineAir;
      skin: Band;
      dryThrough: Band;
      day: OtherDay;
      /** How skins stand to that day's, where both come. */
      skinPace?: Pace;
      /** Told where skins are alike, and dry-through is not told by them. */
      dryThroughPace?: Pace;
    };

/** Today's air beside another day's: the one of humidity and temperature that explains the times, else the greater change. */
export type HeadlineAir =
  | { code: "alone"; today: Climate }
  | { code: "wetter" | "drier" | "colder" | "warmer"; day: OtherDay; today: Climate; other: Climate };

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
