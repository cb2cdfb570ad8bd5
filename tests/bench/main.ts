import { parseArgs } from "node:util";
import { benchBoard } from "./board.ts";
import { benchFilm } from "./film.ts";
import { benchTaps } from "./taps.ts";
import { benchWall } from "./wall.ts";

/** One measured figure, and what it is measured against in the same run. */
interface Figure {
  what: string;
  ms: number;
  yardstick: string;
  yardstickMs: number;
}

const { values } = parseArgs({ options: { json: { type: "boolean", default: false } } });
const figures: Figure[] = [];

for (const { name, medianMs, yardstickMs } of benchFilm())
  figures.push({ what: name, ms: medianMs, yardstick: "plain tridiagonal sweeps, as many", yardstickMs });

const board = await benchBoard();
for (const { what, workMs, longestSliceMs } of board.sweeps)
  figures.push(
    {
      what: `${board.trays} trays, ${board.films} films: ${what}`,
      ms: workMs,
      yardstick: "each film asked once",
      yardstickMs: board.floorMs,
    },
    { what: `  its longest slice`, ms: longestSliceMs, yardstick: "the whole of it", yardstickMs: workMs },
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

const wall = await benchWall();
figures.push(
  {
    what: `the wall's tick at ${wall.trays} trays`,
    ms: wall.tickMs,
    yardstick: "300 plain labels rewritten",
    yardstickMs: wall.naiveTickMs,
  },
  {
    what: "one tray changed on the wall",
    ms: wall.patchMs,
    yardstick: "300 plain labels rewritten",
    yardstickMs: wall.naiveTickMs,
  },
);

if (values.json) {
  console.log(
    JSON.stringify(
      figures.map((figure) => ({ ...figure, ratio: figure.ms / figure.yardstickMs })),
      undefined,
      2,
    ),
  );
} else {
  console.log(
    "Each figure beside a yardstick of the same run: compare the ratios, the machine sets the rest.\n",
  );
  for (const { what, ms, yardstick, yardstickMs } of figures)
    console.log(
      `${what.padEnd(62)} ${ms.toFixed(2).padStart(9)} ms ${(ms / yardstickMs).toFixed(2).padStart(8)} × ${yardstick} (${yardstickMs.toFixed(2)} ms)`,
    );
}
