import { waysToHelp } from "#shared/drying/uncertainty/compare.ts";
import { HORIZON_S } from "#shared/drying/film/constants.ts";
import {
  answerForecast,
  type ForecastAnswer,
  lnPerWaterPct,
  parseForecastQuery,
  type SpanMin,
} from "#shared/drying/uncertainty/query.ts";
import type { Words } from "#shared/words/words.ts";
import { sayError } from "#server/words.ts";
import { readArgs } from "./read-args.ts";

const FLAGS = {
  tempC: "temp",
  rhPct: "rh",
  air: "air",
  thicknessMm: "thickness",
  waterPct: "water",
} as const;
const isField = (field: string): field is keyof typeof FLAGS => field in FLAGS;
const LONGEST_MIN = HORIZON_S / 60;

/** What a command prints, and its exit code: 2 when what was asked makes no sense. */
interface Printed {
  out: string;
  err: string;
  exitCode: 0 | 2;
}

export function forecastCommand(args: readonly string[], words: Words): Printed {
  const { forecast } = words.server;
  const refuse = (why: string): Printed => ({ out: "", err: `${why}\n`, exitCode: 2 });
  let given: ReturnType<typeof readOptions>;
  try {
    given = readOptions(args);
  } catch (error) {
    return refuse(`${sayError(error)(words)}\n\n${forecast.usage}`);
  }
  const { help, json, compare, ...asked } = given;
  if (help) return { out: forecast.usage, err: "", exitCode: 0 };
  const parsed = parseForecastQuery(
    Object.fromEntries(Object.entries(FLAGS).map(([field, flag]) => [field, asked[flag]])),
  );
  if (!parsed.ok) {
    const { field } = parsed.refusal;
    return refuse(
      words.faults.say({ ...parsed.refusal, field: isField(field) ? `--${FLAGS[field]}` : field }),
    );
  }
  const query = parsed.value;
  const withinMin = asked["pick-up"] === undefined ? undefined : Number(asked["pick-up"]);
  if (withinMin !== undefined && !(withinMin >= 1 && withinMin <= LONGEST_MIN))
    return refuse(forecast.pickUpRange(LONGEST_MIN));
  if (withinMin !== undefined && !compare) return refuse(forecast.pickUpAlone);
  const answer = compare ? waysToHelp(query, withinMin) : answerForecast(query);
  const lines = (): string[] => [
    forecast.asked(query),
    "",
    ...("asItIs" in answer ? comparison(words, answer) : times(words, answer)),
  ];
  const told = compare ? answer : { ...answer, lnPerWaterPct: lnPerWaterPct(query) };
  return {
    out: `${json ? JSON.stringify(told, undefined, 2) : lines().join("\n")}\n`,
    err: "",
    exitCode: 0,
  };
}

function readOptions(args: readonly string[]) {
  // "--temp -5" reads to parseArgs as two options: join a negative figure to its flag.
  const joined: string[] = [];
  for (const arg of args) {
    const last = joined.at(-1);
    const isNegative = /^-[\d.]/.test(arg) && last !== undefined && /^--[a-z-]+$/.test(last);
    if (isNegative) joined[joined.length - 1] = `${last}=${arg}`;
    else joined.push(arg);
  }
  const text = { type: "string" } as const;
  const flag = { type: "boolean", default: false } as const;
  return readArgs(joined, {
    temp: text,
    rh: text,
    air: text,
    thickness: text,
    water: text,
    compare: flag,
    "pick-up": text,
    json: flag,
    help: flag,
  });
}

/** When a film skins and dries through, a line each. */
function times(words: Words, { skin, dryThrough }: ForecastAnswer): string[] {
  const { format, server } = words;
  const { forecast } = server;
  const line = (span: SpanMin): string =>
    "never" in span
      ? forecast.never(words.drying.whySentence(span.never))
      : forecast.times(format.span(span.likelyMin), format.span(span.earliestMin), latest(words, span));
  const width = Math.max(forecast.skin.length, forecast.dryThrough.length) + 2;
  const rows = [
    `  ${forecast.skin.padEnd(width)}${line(skin)}`,
    `  ${forecast.dryThrough.padEnd(width)}${line(dryThrough)}`,
  ];
  return "never" in skin && "never" in dryThrough ? rows : [...rows, "", forecast.doubt];
}

type Times = Exclude<SpanMin, { never: unknown }>;

const latest = (words: Words, { latestMin, latestOrMore }: Times): string =>
  orMore(words, words.format.span(latestMin), latestOrMore);

const orMore = ({ server }: Words, span: string, isMore: boolean | undefined): string =>
  isMore === true ? server.forecast.orMore(span) : span;

function comparison(words: Words, { asItIs, inTime, ways }: ReturnType<typeof waysToHelp>): string[] {
  const { forecast } = words.server;
  const before = [...times(words, asItIs), ...(inTime === undefined ? [] : [forecast.asItIs(inTime)]), ""];
  if (ways.length === 0) return [...before, forecast.nothingHelps];
  const width = Math.max(...ways.map(({ change }) => forecast.change(change).length));
  const row = ({ change, answer, heatSetMin, ...way }: (typeof ways)[number]): string => {
    const dryThrough = likely(words, answer.dryThrough, way.dryThroughSoonerMin);
    const skin = likely(words, answer.skin, way.skinSoonerMin, heatSetMin);
    return `  ${forecast.change(change).padEnd(width)}   ${forecast.way(dryThrough, skin, way.inTime)}`;
  };
  return [...before, forecast.waysHeading, ...ways.map(row)];
}

function likely(words: Words, span: SpanMin, soonerMin: number | undefined, heatSetMin?: number): string {
  const { forecast } = words.server;
  if ("never" in span) return forecast.wayNever;
  const at = `${words.format.span(span.likelyMin)}, ${band(words, span, heatSetMin)}`;
  if (soonerMin === undefined) return forecast.elseNever(at);
  if (Math.abs(soonerMin) < 0.5) return forecast.noSooner(at);
  const by = words.format.span(Math.abs(soonerMin));
  return soonerMin > 0 ? forecast.sooner(at, by) : forecast.later(at, by);
}

/** Heat sets a film while it lasts, or else the film waits in the room's air: two bands, not one. */
function band(words: Words, span: Times, heatSetMin = 0): string {
  const { format, server } = words;
  const { earliestMin, likelyMin, latestMin, latestOrMore } = span;
  if (earliestMin >= heatSetMin || latestMin <= heatSetMin)
    return orMore(words, format.band(earliestMin, latestMin), latestOrMore);
  const heated = format.band(earliestMin, heatSetMin);
  const unheated = server.forecast.upTo(latest(words, span));
  return likelyMin <= heatSetMin
    ? server.forecast.heated(heated, unheated)
    : server.forecast.unheated(unheated, heated);
}
