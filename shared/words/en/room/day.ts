import type { ReachedBand } from "#shared/drying/uncertainty/band.ts";
import type { Climate } from "#shared/drying/air-record/measured-air.ts";
import { unreachable } from "#shared/outcome.ts";
import type {
  BesideDay,
  DayRow,
  DaySheet,
  MissingAir,
  Headline,
  HeadlineAir,
  OtherDay,
} from "#shared/kitchen/day-sheet/sheet.ts";
import { isSamePace, type Pace, paceOf } from "#shared/kitchen/day-sheet/pace.ts";
import type { Consistency } from "#shared/kitchen/model/vocabulary.ts";
import { halfHours } from "#shared/words/clock-band.ts";
import type { Formats } from "#shared/words/formats.ts";
import { drying } from "#shared/words/en/drying.ts";

type ReachedSpan = ReachedBand;

const SUBJECTS: Readonly<Record<Consistency, string>> = {
  outline: "An outline",
  "top-coat": "A top-coat",
  flood: "A flood",
  detail: "A detail",
};
const AIRS = { wetter: "Wetter", drier: "Drier", colder: "Colder", warmer: "Warmer" } as const;

/** The day's headline in two parts; where the air is as on other days it says it all. */
export interface HeadlineWords {
  air: string;
  films: string | undefined;
}

/** Today's air and what it does to icing, beside other days. */
export const day = (format: Formats) => {
  const { whySentence } = drying(format);
  const humidity = (rhPct: number): string => `${format.percent(rhPct)} RH`;
  const air = ({ tempC, rhPct }: Climate): string => `${format.temp(tempC)}, ${humidity(rhPct)}`;
  const span = (reached: ReachedSpan): string => format.bandOf(reached);

  /** "about a third slower", and how a day is joined to it. */
  function pace(pace: Pace): { stem: string; join: "as" | "than" } {
    switch (pace.code) {
      case "alike":
        return { stem: "about", join: "as" };
      case "slower":
      case "quicker":
        return { stem: `about a ${pace.by} ${pace.code}`, join: "than" };
      case "half-longer":
        return { stem: "about half as long again", join: "as" };
      case "times-as-long":
        return {
          stem: pace.times === 2 ? "about twice as long" : `about ${format.number(pace.times)} times as long`,
          join: "as",
        };
      case "half":
        return { stem: "about half as long", join: "as" };
      case "third":
        return { stem: "about a third as long", join: "as" };
      case "quarter-at-most":
        return { stem: "at most a quarter as long", join: "as" };
      default:
        return unreachable(pace);
    }
  }
  /** "about a third slower than yesterday and than usual". */
  function compared(to: Pace, ...days: readonly OtherDay[]): string {
    const { stem, join } = pace(to);
    return `${stem} ${days.map((day) => `${join} ${day}`).join(" and ")}`;
  }
  /** ": about a third slower than yesterday, about as usual", as far as they are known. */
  function beside(last: number | undefined, most: number | undefined): string {
    const [lastPace, mostPace] = [last, most].map((ratio) =>
      ratio === undefined ? undefined : paceOf(ratio),
    );
    if (lastPace !== undefined && mostPace !== undefined && isSamePace(lastPace, mostPace))
      return `: ${compared(lastPace, "yesterday", "usual")}`;
    const told = [
      ...(lastPace === undefined ? [] : [compared(lastPace, "yesterday")]),
      ...(mostPace === undefined ? [] : [compared(mostPace, "usual")]),
    ];
    return told.length === 0 ? "" : `: ${told.join(", ")}`;
  }
  const besideBoth = (row: DayRow, quantity: keyof BesideDay & `${string}Ratio`): string =>
    beside(row.yesterday?.[quantity], row.usual?.[quantity]);

  const dayName = (atMs: number, nowMs: number): string =>
    ["today", "tomorrow"][format.daysAhead(atMs, nowMs)] ?? format.day(atMs);
  /** "tomorrow 07:00–11:00". */
  function clockBand(nowMs: number, from: ReachedSpan): string {
    const { fromMs, toMs } = halfHours(nowMs, from);
    const [first, last] = [dayName(fromMs, nowMs), dayName(toMs, nowMs)];
    return first === last
      ? `${first} ${format.timeRange(fromMs, toMs)}`
      : `${first} ${format.time(fromMs)} to ${last} ${format.time(toMs)}`;
  }
  function airBeside(beside: HeadlineAir): string {
    const { today } = beside;
    if (beside.code === "alone") return `Air at ${humidity(today.rhPct)}, ${format.temp(today.tempC)}.`;
    const { other } = beside;
    const against =
      beside.code === "wetter" || beside.code === "drier"
        ? `${humidity(today.rhPct)} against ${format.percent(other.rhPct)}`
        : `${format.temp(today.tempC)} against ${format.temp(other.tempC)}`;
    return `${AIRS[beside.code]} than ${beside.day}: ${against}.`;
  }

  return {
    noSheet: "No forecast yet for a place in the room's own air. A lead adds one under Room → Places.",
    now: (today: Climate) => `Now ${air(today)}`,
    yesterday: (then: Climate) => `yesterday at this hour ${air(then)}`,
    usually: (then: Climate) => `usually ${air(then)}`,
    days: { today: "today", yesterday: "yesterday", usual: "usually" },
    skinsIn: "skins in",
    dryThroughIn: "dry through in",
    never: "never",
    print: "Print this page",
    footnote: ({ ahead }: DaySheet) =>
      `Earliest to latest, for a film laid now at its usual thickness. ${
        ahead === "persistence"
          ? "From now on the air is taken to stay as it is."
          : "From now on the air is taken to move over the day as it did in the last week."
      } A touch test overrules it.`,
    missing: (missing: MissingAir): string => {
      switch (missing.code) {
        case "never-read":
          return "No hygrometer has been read: today's air is assumed.";
        case "not-read-since":
          return `Nothing was read since ${format.dayTime(missing.atMs)}: today cannot be compared.`;
        case "no-yesterday":
          return "Nothing was read yesterday at this hour.";
        case "no-usual":
          return `Fewer than ${format.number(missing.daysLeast)} earlier days were read at this hour: there is no usual yet.`;
        default:
          return unreachable(missing);
      }
    },
    compared,
    /** "A flood skins in 40–75 min today: about a third slower than yesterday. It is dry through in 12–18 h." */
    row: (row: DayRow): string => {
      const subject = SUBJECTS[row.consistency];
      const { skin, dryThrough } = row.today;
      if ("never" in skin) return `${subject} will not skin today. ${whySentence(skin.never)}`;
      const skins = `${subject} skins in ${span(skin)} today${besideBoth(row, "skinRatio")}.`;
      if ("never" in dryThrough) return `${skins} It will not dry through. ${whySentence(dryThrough.never)}`;
      return `${skins} It is dry through in ${span(dryThrough)}${besideBoth(row, "dryThroughRatio")}.`;
    },
    /** The air, then what it does. */
    headline: (line: Headline): HeadlineWords => {
      if (line.code === "alike")
        return { air: `Air as ${line.day}: floods skin in ${span(line.skin)}.`, films: undefined };
      const { skin, dryThrough, day, skinPace, dryThroughPace } = line;
      const air = airBeside(line.air);
      if ("never" in skin) return { air, films: `Floods will not skin. ${whySentence(skin.never)}` };
      const skins = `Floods skin in ${span(skin)}${skinPace === undefined ? "" : `, ${compared(skinPace, day)}`}`;
      if ("never" in dryThrough)
        return { air, films: `${skins}, and will not dry through. ${whySentence(dryThrough.never)}` };
      const differs = dryThroughPace === undefined ? "" : `, ${compared(dryThroughPace, day)}`;
      return { air, films: `${skins}; dry through ${clockBand(line.atMs, dryThrough)}${differs}.` };
    },
  };
};
