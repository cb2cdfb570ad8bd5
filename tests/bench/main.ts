import { parseArgs } from "node:util";
import { benchBoard } from "./board.ts";
import { benchDecide } from "./decide.ts";
import { ASKED_MS, type Figure, type GrowthFigure, say, sayGrowth, sayWhatHolds, told } from "./figures.ts";
import { benchFilm } from "./film.ts";
import { benchGrowth, exponentOf, GROWTH_TRAYS } from "./growth.ts";
import { benchLearning, coverageTable, sayCoverage } from "./learning.ts";
import { benchPhone } from "./phone.ts";
import { benchPlan, benchReplan, PLAN_TRAYS } from "./plan.ts";
import { liveFiguresApart, quantile } from "./live/live.ts";
import { benchStart } from "./live/start.ts";
import { benchTapToWall } from "./live/tap-to-wall.ts";
import { benchTaps } from "./taps.ts";
import { benchWall } from "./wall.ts";

const { values, positionals } = parseArgs({
  options: { json: { type: "boolean", default: false } },
  allowPositionals: true,
});
const figures: Figure[] = [];
/** What does not grow, as far as a fit through four noisy points can tell. */
const CONSTANT = 0.1;
const middle = (values: readonly number[]): number => quantile(0.5, values);

if (positionals.includes("learning")) {
  const [rows, learning] = [coverageTable(), benchLearning()];
  if (values.json) console.log(JSON.stringify({ rows, figures: learning.map(told) }, undefined, 2));
  else console.log([sayCoverage(rows), "", ...learning.map(say)].join("\n"));
  process.exit(0);
}

for (const { name, films, medianMs, yardstickMs } of benchFilm())
  figures.push({
    what: name,
    ms: medianMs,
    yardstick: "plain tridiagonal sweeps, as many",
    yardstickMs,
    limitMs: films === 1 ? ASKED_MS.film : ASKED_MS.board,
  });

figures.push(...benchLearning());

const plans = PLAN_TRAYS.map(benchPlan);
for (const { trays, acts, workMs, longestSliceMs, schedulesMs } of plans)
  figures.push(
    {
      what: `${trays} trays, ${acts} acts: the day's plan`,
      ms: workMs,
      yardstick: "its likely day scheduled as often",
      yardstickMs: schedulesMs,
      ...(trays <= 300 && { limitMs: ASKED_MS.plan }),
    },
    {
      what: `  its longest slice`,
      ms: longestSliceMs,
      yardstick: "the whole of it",
      yardstickMs: workMs,
      ...(trays <= 300 && { limitMs: ASKED_MS.slice }),
    },
  );
const replan = await benchReplan(300);
const planMs = plans.find(({ trays }) => trays === 300)?.workMs ?? NaN;
figures.push(
  {
    what: "300 trays: a tap, to the plan that knows of it",
    ms: replan.tapMs,
    yardstick: "the plan alone",
    yardstickMs: planMs,
    limitMs: ASKED_MS.replan,
  },
  {
    what: "  its longest slice",
    ms: replan.longestSliceMs,
    yardstick: "the whole of it",
    yardstickMs: replan.tapMs,
    limitMs: ASKED_MS.slice,
  },
  {
    what: `300 trays: what would help an order, ${replan.advicePlans} choices`,
    ms: replan.adviceMs,
    yardstick: "as many plans alone",
    yardstickMs: replan.advicePlans * planMs,
  },
);

const board = await benchBoard();
for (const { what, workMs, longestSliceMs } of board.sweeps)
  figures.push(
    {
      what: `${board.trays} trays, ${board.films} films: ${what}`,
      ms: workMs,
      yardstick: "each film asked once",
      yardstickMs: board.floorMs,
      limitMs: ASKED_MS.board,
    },
    {
      what: `  its longest slice`,
      ms: longestSliceMs,
      yardstick: "the whole of it",
      yardstickMs: workMs,
      limitMs: ASKED_MS.slice,
    },
  );

const slices = [...board.slicesMs, ...replan.slicesMs];
const between = (fromMs: number, toMs: number): number =>
  slices.filter((ms) => ms >= fromMs && ms < toMs).length;
const sliceFigure = (what: string, ms: number): Figure => ({
  what,
  ms,
  yardstick: "the median slice",
  yardstickMs: middle(slices),
  limitMs: ASKED_MS.slice,
});
figures.push(
  sliceFigure(
    `${slices.length} slices (${between(0, 2)} under 2 ms, ${between(2, 4)} under 4, ${between(4, 10)} under 10): p99.9`,
    quantile(0.999, slices),
  ),
  sliceFigure("  the longest of them", Math.max(...slices)),
);

const taps = await benchTaps();
figures.push(
  {
    what: "a tap, to the server's word",
    ms: taps.aloneMs,
    yardstick: "one bare durable commit",
    yardstickMs: taps.commitMs,
  },
  {
    what: "200 taps at once, to the last word",
    ms: taps.allAtOnceMs,
    yardstick: "one bare durable commit",
    yardstickMs: taps.commitMs,
  },
);

const decided = await benchDecide();
for (const { type, medianMs, worstMs } of decided.commands)
  figures.push(
    {
      what: `${type} decided beside ${decided.trays} trays, median`,
      ms: medianMs,
      yardstick: "those trays written as JSON",
      yardstickMs: decided.jsonMs,
      limitMs: ASKED_MS.decide,
    },
    {
      what: `  its worst`,
      ms: worstMs,
      yardstick: "those trays written as JSON",
      yardstickMs: decided.jsonMs,
      limitMs: ASKED_MS.decide,
    },
  );

const phone = await benchPhone();
for (const { trays, ms, threadMs } of phone.opened)
  figures.push(
    {
      what: `a phone four times as slow opened beside ${trays} trays, to a tray to tap`,
      ms,
      yardstick: "an empty page of the same framework",
      yardstickMs: phone.emptyMs,
      limitMs: ASKED_MS.phone,
    },
    {
      what: "  its main thread's own time",
      ms: threadMs,
      yardstick: "that of the empty page",
      yardstickMs: phone.emptyThreadMs,
    },
  );

const wall = await benchWall();
figures.push(
  {
    what: `the wall's tick at ${wall.trays} trays`,
    ms: wall.tickMs,
    yardstick: "300 plain labels rewritten",
    yardstickMs: wall.naiveTickMs,
  },
  {
    what: "the wall's tick with 300 cookies drawn over it",
    ms: wall.drawnTickMs,
    yardstick: "its tick without them",
    yardstickMs: wall.tickMs,
    limitMs: ASKED_MS.drawnTick,
  },
  {
    what: "one tray changed on the wall",
    ms: wall.patchMs,
    yardstick: "300 plain labels rewritten",
    yardstickMs: wall.naiveTickMs,
  },
);

const start = await benchStart();
figures.push({
  what: `a start on ${start.events} events without a snapshot (${Math.round(start.emptyMs)} ms on none)`,
  ms: start.startMs,
  yardstick: "their JSON parsed and hashed",
  yardstickMs: start.jsonMs,
  limitMs: ASKED_MS.start,
});

figures.push(...(await liveFiguresApart()));

const screens = await benchTapToWall();
const blankMs = middle(screens.blankTapMs) + middle(screens.roundTripMs);
const part = (what: string, times: readonly number[]): Figure => ({
  what,
  ms: middle(times),
  yardstick: "an empty page's tap to paint, and a round trip",
  yardstickMs: blankMs,
});
figures.push(
  {
    ...part("300 trays: a tap on a phone to the painted wall, two browsers", screens.tapToWallMs),
    limitTimes: 1.5,
  },
  part("  until the browser tells the phone's page of it", screens.clickMs),
  part("  until that has sent it", screens.sendMs),
  part("  until the wall's browser has it", screens.carryMs),
  part("  until that is painted", screens.paintMs),
  part("until it is painted where its forecast has it", screens.forecastMs),
  part("an empty page, until the browser tells it of a tap", screens.blankClickMs),
);

const grown = [];
for (const trays of GROWTH_TRAYS) grown.push(await benchGrowth(trays));
for (const { trays, commandMs, snapshotMs } of grown)
  figures.push({
    what: `${trays} trays: a tap decided, appended and told`,
    ms: commandMs,
    yardstick: "the whole board as JSON",
    yardstickMs: snapshotMs,
  });
const growths: GrowthFigure[] = [
  {
    what: "A plan's work",
    exponent: exponentOf(plans.map(({ trays, workMs }) => [trays, workMs])),
    limit: 1,
  },
  {
    what: "A board's snapshot",
    exponent: exponentOf(grown.map(({ trays, snapshotMs }) => [trays, snapshotMs])),
    limit: 1,
  },
  {
    what: "A command's handling",
    exponent: exponentOf(grown.map(({ trays, commandMs }) => [trays, commandMs])),
    limit: CONSTANT,
  },
];

if (values.json) {
  console.log(JSON.stringify({ figures: figures.map(told), growths }, undefined, 2));
} else {
  console.log(
    "Each figure beside what is asked for and a yardstick of the same run: compare the ratios, the machine sets the rest.\n",
  );
  for (const figure of figures) console.log(say(figure));
  for (const growth of growths) console.log(sayGrowth(growth));
  console.log(`\n${sayWhatHolds(figures, growths)}`);
}
// A browser's or a socket's leftovers keep no bench from its end.
process.exit(0);
