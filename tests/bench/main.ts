import { parseArgs } from "node:util";
import { benchBoard } from "./board.ts";
import { benchDecide } from "./decide.ts";
import { ASKED_MS, type Figure, say, told } from "./figures.ts";
import { benchFilm } from "./film.ts";
import { benchLearning, coverageTable, sayCoverage } from "./learning.ts";
import { benchPhone } from "./phone.ts";
import { benchPlan, benchReplan, exponentOf, PLAN_TRAYS } from "./plan.ts";
import { benchTaps } from "./taps.ts";
import { benchWall } from "./wall.ts";

const { values, positionals } = parseArgs({
  options: { json: { type: "boolean", default: false } },
  allowPositionals: true,
});
const figures: Figure[] = [];

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
    what: "  its longest slice on the server's thread",
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
const planExponent = exponentOf(plans);

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

if (values.json) {
  console.log(JSON.stringify({ figures: figures.map(told), planExponent }, undefined, 2));
} else {
  console.log(
    "Each figure beside what is asked for and a yardstick of the same run: compare the ratios, the machine sets the rest.\n",
  );
  for (const figure of figures) console.log(say(figure));
  console.log(`A plan's work grows as its trays to the power ${planExponent.toFixed(2)}.`);
}
