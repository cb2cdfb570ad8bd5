import type { Change, InTime } from "#shared/drying/uncertainty/compare.ts";
import type { ForecastQuery } from "#shared/drying/uncertainty/query.ts";
import { unreachable } from "#shared/outcome.ts";
import type { Formats } from "#shared/words/formats.ts";

const MOVING = { still: "still air", moving: "moving air", fan: "air under a fan" } as const;
const PICK_UP: Readonly<Record<InTime, string>> = {
  surely: "pick-up met",
  likely: "pick-up likely met",
  no: "pick-up missed",
};

/** `npm run forecast`. Metric, as its options are. */
export const forecast = (format: Formats) => ({
  usage: `How long icing takes to skin over and to dry through.

  npm run forecast -- --temp 22 --rh 45 --air still --thickness 2.4 --water 19

  --temp       air, °C, -5 to 120
  --rh         humidity, %, 0 to 100
  --air        still, moving, fan, or m/s from 0 to 10
  --thickness  of the icing, mm, 0.2 to 12
  --water      in the icing, % of its mass, 8 to 35
  --compare    what would help, the soonest first
  --pick-up    with --compare: min until it must be dry through, 1 to 20160
  --json       the answer as JSON, and how much longer (ln) a point of water takes
`,
  pickUpRange: (maxMin: number) => `--pick-up must be 1 to ${maxMin} min`,
  pickUpAlone: "--pick-up goes with --compare",
  asked: ({ tempC, rhPct, air, thicknessMm, waterPct }: ForecastQuery) => {
    const where = typeof air === "number" ? `air moving at ${format.number(air, 2)} m/s` : MOVING[air];
    return `Icing ${format.number(thicknessMm, 3)} mm thick, ${format.number(waterPct, 3)} % water, in ${where} at ${format.number(tempC, 3)} °C and ${format.number(rhPct, 3)} % humidity.`;
  },
  skin: "skin",
  dryThrough: "dry through",
  /** From the earliest to the latest a film will have got there. */
  times: (likely: string, earliest: string, latest: string) =>
    `likely after ${likely}; earliest ${earliest}, latest ${latest}`,
  orMore: (span: string) => `${span} or more`,
  never: (why: string) => `never. ${why}`,
  doubt:
    "One in ten is sooner than the earliest, one in ten later than the latest.\nAn estimate: a touch test overrules it.",
  asItIs: (inTime: InTime) => `As it is: ${PICK_UP[inTime]}.`,
  nothingHelps: "Nothing on the list would make it sooner.",
  waysHeading:
    "What would help, the soonest dry through first: likeliest, earliest to latest, and the time saved at the likeliest:",
  change: (change: Change) => {
    switch (change.code) {
      case "moving-air":
        return "in moving air";
      case "fan":
        return "under a fan";
      case "warm-cabinet":
        return `in a ${format.number(change.tempC)} °C warm cabinet with a fan`;
      case "heat-set":
        return `heat-set first: ${format.number(change.min)} min in a low oven, ${format.number(change.tempC, 1)} °C`;
      case "dried-air":
        return `with the air dried to ${format.number(change.rhPct)} %`;
      case "thinner":
        return `laid a quarter thinner, ${format.number(change.thicknessMm, 2)} mm`;
      default:
        return unreachable(change);
    }
  },
  way: (dryThrough: string, skin: string, inTime: InTime | undefined) =>
    `dry through ${dryThrough}; skin ${skin}${inTime === undefined ? "" : `; ${PICK_UP[inTime]}`}`,
  wayNever: "never",
  elseNever: (times: string) => `${times} (else never)`,
  noSooner: (times: string) => `${times} (no sooner)`,
  sooner: (times: string, by: string) => `${times} (${by} sooner)`,
  later: (times: string, by: string) => `${times} (${by} later)`,
  upTo: (latest: string) => `up to ${latest}`,
  /** Heat sets the film in the first, or else it takes the second. */
  heated: (heated: string, unheated: string) => `${heated}, or, where heat does not set it, ${unheated}`,
  unheated: (unheated: string, heated: string) => `${unheated}, or, where heat sets it, ${heated}`,
});
