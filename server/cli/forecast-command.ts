import { parseArgs } from "node:util";
import { type InTime, waysToHelp } from "#shared/drying/uncertainty/compare.ts";
import { HORIZON_S } from "#shared/drying/film/constants.ts";
import {
  answerForecast,
  type ForecastAnswer,
  type ForecastQuery,
  parseForecastQuery,
} from "#shared/drying/uncertainty/query.ts";
import type { Span } from "#shared/drying/uncertainty/span.ts";
import { formatBand, formatSpan } from "#shared/units.ts";
import { CONSOLE_WORDS } from "#server/http/words.ts";
import { errorMessage } from "#server/error-message.ts";

const USAGE = `How long icing takes to skin over and to dry right through.

  npm run forecast -- --temp 22 --rh 45 --air still --thickness 2.4 --water 19

  --temp       air, °C, -5 to 120
  --rh         humidity, %, 0 to 100
  --air        still, moving, fan, or m/s from 0 to 10
  --thickness  of the icing, mm, 0.2 to 12
  --water      in the icing, % of its mass, 8 to 35
  --compare    what would help, the soonest first
  --pick-up    with --compare: min until it must be dry through, 1 to 20160
  --json       the answer as JSON
`;

const FLAGS = {
  tempC: "temp",
  rhPct: "rh",
  air: "air",
  thicknessMm: "thickness",
  waterPct: "water",
} as const;
const isField = (field: string): field is keyof typeof FLAGS => field in FLAGS;

/** The command: what it prints, where, and its exit code (0, or 2 when what was asked makes no sense). */
export function forecastCommand(args: readonly string[]): { out: string; err: string; exitCode: 0 | 2 } {
  const said = readArgs(args);
  if ("fault" in said) return { out: "", err: `${said.fault}\n`, exitCode: 2 };
  const { help, json, compare, ...asked } = said;
  if (help) return { out: USAGE, err: "", exitCode: 0 };
  const parsed = parseForecastQuery(
    Object.fromEntries(Object.entries(FLAGS).map(([field, flag]) => [field, asked[flag]])),
  );
  if (!parsed.ok) {
    const { field } = parsed.refusal;
    const flag = isField(field) ? `--${FLAGS[field]}` : field;
    return { out: "", err: `${CONSOLE_WORDS.faults.say({ ...parsed.refusal, field: flag })}\n`, exitCode: 2 };
  }
  const query = parsed.value;
  const withinMin = asked["pick-up"] === undefined ? undefined : Number(asked["pick-up"]);
  if (withinMin !== undefined && !(withinMin >= 1 && withinMin <= LONGEST_MIN))
    return { out: "", err: `--pick-up must be 1 to ${LONGEST_MIN} min\n`, exitCode: 2 };
  if (withinMin !== undefined && !compare)
    return { out: "", err: "--pick-up goes with --compare\n", exitCode: 2 };
  const answer = compare ? waysToHelp(query, withinMin) : answerForecast(query);
  const out = json
    ? JSON.stringify(answer, undefined, 2)
    : "asItIs" in answer
      ? compared(query, answer)
      : plain(query, answer);
  return { out: `${out}\n`, err: "", exitCode: 0 };
}

function readArgs(args: readonly string[]) {
  // "--temp -5" reads to parseArgs as two options: join a negative figure to its flag.
  const joined: string[] = [];
  for (const arg of args) {
    const last = joined.at(-1);
    const negative = /^-[\d.]/.test(arg) && last !== undefined && /^--[a-z-]+$/.test(last);
    if (negative) joined[joined.length - 1] = `${last}=${arg}`;
    else joined.push(arg);
  }
  const text = { type: "string" } as const;
  const flag = { type: "boolean", default: false } as const;
  try {
    return parseArgs({
      args: joined,
      options: {
        temp: text,
        rh: text,
        air: text,
        thickness: text,
        water: text,
        compare: flag,
        "pick-up": text,
        json: flag,
        help: flag,
      },
    }).values;
  } catch (error) {
    return { fault: `${errorMessage(error)}\n\n${USAGE}` };
  }
}

function inWords({ tempC, rhPct, air, thicknessMm, waterPct }: ForecastQuery): string {
  const moving = { still: "still air", moving: "moving air", fan: "air under a fan" };
  const where = typeof air === "number" ? `air moving at ${air} m/s` : moving[air];
  return `Icing ${thicknessMm} mm thick, ${waterPct} % water, in ${where} at ${tempC} °C and ${rhPct} % humidity.`;
}

function plain(query: ForecastQuery, { skin, dryThrough }: ForecastAnswer): string {
  const lines = [inWords(query), "", `  skin         ${band(skin)}`, `  dry through  ${band(dryThrough)}`];
  if ("never" in skin && "never" in dryThrough) return lines.join("\n");
  return [
    ...lines,
    "",
    "One in ten is sooner than the earliest, one in ten later than the latest.",
    TOUCH,
  ].join("\n");
}

const TOUCH = "An estimate: a touch test overrules it.";
const LONGEST_MIN = HORIZON_S / 60;

function band(times: Span): string {
  if ("never" in times) return `never. ${CONSOLE_WORDS.drying.whySentence(times.never)}`;
  const latest = `${formatSpan(times.latestMin)}${times.latestOrMore === true ? " or more" : ""}`;
  return `likely after ${formatSpan(times.likelyMin)}; earliest ${formatSpan(times.earliestMin)}, latest ${latest}`;
}

const PICK_UP_WORDS: Readonly<Record<InTime, string>> = {
  surely: "pick-up met",
  likely: "pick-up likely met",
  no: "pick-up missed",
};

function compared(query: ForecastQuery, { asItIs, inTime, ways }: ReturnType<typeof waysToHelp>): string {
  const before =
    inTime === undefined
      ? plain(query, asItIs)
      : `${plain(query, asItIs)}\nAs it is: ${PICK_UP_WORDS[inTime]}.`;
  if (ways.length === 0) return `${before}\n\nNothing on the list would make it sooner.`;
  const width = Math.max(...ways.map(({ change }) => change.length));
  const rows = ways.map(
    ({ change, answer, heatSetMin, dryThroughSoonerMin, skinSoonerMin, inTime: then }) =>
      `  ${change.padEnd(width)}   dry through ${likely(answer.dryThrough, dryThroughSoonerMin)}; skin ${likely(answer.skin, skinSoonerMin, heatSetMin)}${then === undefined ? "" : `; ${PICK_UP_WORDS[then]}`}`,
  );
  return [
    before,
    "",
    "What would help, the soonest dry through first: likeliest, earliest to latest, and what is won at the likeliest:",
    ...rows,
  ].join("\n");
}

function likely(times: Span, soonerMin: number | undefined, heatSetMin?: number): string {
  if ("never" in times) return "never";
  const after = `${formatSpan(times.likelyMin)}, ${bandWords(times, heatSetMin)}`;
  if (soonerMin === undefined) return `${after} (else never)`;
  if (Math.abs(soonerMin) < 0.5) return `${after} (no sooner)`;
  return `${after} (${formatSpan(Math.abs(soonerMin))} ${soonerMin > 0 ? "sooner" : "later"})`;
}

/** Heat sets a film while it lasts, or else the film waits in the room's air: two bands, not one. */
function bandWords(times: Exclude<Span, { never: unknown }>, heatSetMin = 0): string {
  const { earliestMin, likelyMin, latestMin, latestOrMore } = times;
  const more = latestOrMore === true ? " or more" : "";
  if (earliestMin >= heatSetMin || latestMin <= heatSetMin)
    return `${formatBand(earliestMin, latestMin)}${more}`;
  const [heated, unheated] = [formatBand(earliestMin, heatSetMin), `up to ${formatSpan(latestMin)}${more}`];
  return likelyMin <= heatSetMin
    ? `${heated}, or, where heat does not set it, ${unheated}`
    : `${unheated}, or, where heat sets it, ${heated}`;
}
