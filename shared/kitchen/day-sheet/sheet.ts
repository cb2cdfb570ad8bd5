import type { Climate } from "#shared/drying/air-record/measured-air.ts";
import type { AirTimeline } from "#shared/drying/air-record/outlook.ts";
import type { Band, ReachedBand } from "#shared/drying/uncertainty/band.ts";
import type { Spans } from "#shared/kitchen/forecast/films.ts";
import type { AirBasis } from "#shared/kitchen/model/forecast.ts";
import type { Consistency } from "#shared/kitchen/model/vocabulary.ts";
import type { Pace } from "./pace.ts";

/** What today's air does to icing in the kitchen's main rack, beside other days. */
export interface DaySheet {
  atMs: number;
  place: string;
  today: Climate;
  basis: AirBasis;
  /** What the air is taken to do from now on: to stay, or to move over the day as in the last week. */
  ahead: AirTimeline["outlook"];
  yesterday?: Climate;
  usual?: Climate;
  rows: readonly DayRow[];
  missing: readonly MissingAir[];
  /** The sheet in a line; absent where floods have no forecast. */
  headline?: Headline;
}

/** What was not read, and so is left out. */
export type MissingAir =
  | { code: "never-read" }
  /** Too long ago to be today's air. */
  | { code: "not-read-since"; atMs: number }
  | { code: "no-yesterday" }
  | { code: "no-usual"; daysLeast: number };

/** One consistency at its usual thickness. */
export interface DayRow {
  consistency: Consistency;
  thicknessMm: number;
  today: Spans;
  yesterday?: BesideDay;
  usual?: BesideDay;
}

/** What that day's air would do, and how many times as long today takes; no ratio where either never comes. */
export interface BesideDay extends Spans {
  skinRatio?: number;
  dryThroughRatio?: number;
}

/** The day that today is held against. */
export type OtherDay = "usual" | "yesterday";

/** The sheet in a line, of a flood laid now. */
export type Headline =
  /** Nothing stands out. */
  | { code: "alike"; day: OtherDay; skin: ReachedBand }
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
