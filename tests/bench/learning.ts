import { type Evidence, learn, learningSteps } from "#shared/drying/uncertainty/learning.ts";
import { truncatedNormal } from "#shared/drying/uncertainty/normal.ts";
import { coverageOf, coverageRange, KITCHEN_KINDS } from "#tests/support/learning-kitchens.ts";
import { drawsFrom } from "#tests/support/simulated-kitchen.ts";
import { ASKED_MS, type Figure } from "./figures.ts";

/** Findings in the columns of the coverage table. */
const FINDINGS = [0, 5, 20, 60];
const KITCHENS = 1000;
const FINDINGS_MOST = 600;
const RUNS = 5;

/** One row of the table: how often the next film fell into its 80 % band, by findings, and the range asked for. */
export interface CoverageRow {
  kitchens: string;
  held: Readonly<Record<number, number>>;
  least: number;
  most: number;
}

export function coverageTable(kitchens = KITCHENS): CoverageRow[] {
  return Object.entries(KITCHEN_KINDS).map(([name, kind]) => ({
    kitchens: name,
    ...coverageRange(kind),
    held: Object.fromEntries(FINDINGS.map((count) => [count, coverageOf(kind, count, kitchens, 7 + count)])),
  }));
}

/** The table for people; a share outside its range is marked. */
export function sayCoverage(rows: readonly CoverageRow[], kitchens = KITCHENS): string {
  const cell = (text: string): string => text.padStart(8);
  const percent = (share: number): string => `${Math.round(100 * share)} %`;
  return [
    `How often the next film falls into its 80 % band, ${kitchens} simulated kitchens a cell (each scatters by ${percent(Math.sqrt(0.16 / kitchens))}; * is outside its range)`,
    `${"after so many findings".padEnd(42)}${FINDINGS.map((count) => cell(String(count))).join("")}`,
    ...rows.map(
      ({ kitchens: name, held, least, most }) =>
        `${name.padEnd(42)}${FINDINGS.map((count) => {
          const share = held[count]!;
          return cell(`${percent(share)}${share < least || share > most ? "*" : ""}`);
        }).join("")}   asked ${Math.round(100 * least)}–${Math.round(100 * most)} %`,
    ),
  ].join("\n");
}

/** Findings of many icings and places, three films a bowl, half of them acts. */
function manyFindings(): Evidence[] {
  const draws = drawsFrom(FINDINGS_MOST);
  return Array.from({ length: FINDINGS_MOST }, (_, k): Evidence => {
    const ln = 0.1 + 0.3 * draws.normal();
    return {
      quantity: k % 2 === 0 ? "skin" : "dryThrough",
      icing: `icing-${Math.floor(16 * draws.uniform())}`,
      place: `place-${Math.floor(8 * draws.uniform())}`,
      bowl: `bowl-${Math.floor(k / 6)}`,
      ageDays: Math.floor(k / 60),
      lnLow: draws.uniform() < 1 / 3 ? -Infinity : ln - 0.3 * draws.uniform(),
      lnHigh: ln + 0.3 * draws.uniform(),
      ...(draws.uniform() < 0.5 && { byAct: true }),
    };
  });
}

const middle = (values: readonly number[]): number =>
  values.toSorted((a, b) => a - b)[Math.floor(values.length / 2)]!;

/** What learning from 600 findings takes, whole and by its longest step. */
export function benchLearning(): Figure[] {
  const evidence = manyFindings();
  learn(evidence);
  let sweeps = 0;
  const runs = Array.from({ length: RUNS }, () => {
    const took: number[] = [];
    const steps = learningSteps(evidence);
    for (;;) {
      const from = performance.now();
      const { done } = steps.next();
      took.push(performance.now() - from);
      if (done === true) break;
    }
    sweeps = took.length;
    return { whole: took.reduce((sum, ms) => sum + ms, 0), longest: Math.max(...took) };
  });
  // Each sweep looks at the findings of one quantity.
  const normals = (sweeps * FINDINGS_MOST) / 2;
  const yardstickMs = middle(
    Array.from({ length: RUNS }, () => {
      const from = performance.now();
      for (let k = 0; k < normals; k += 1) truncatedNormal(0, 0.5, -0.3 + (k % 7) / 20, 0.4);
      return performance.now() - from;
    }),
  );
  const whole = middle(runs.map((run) => run.whole));
  return [
    {
      what: `learning from ${FINDINGS_MOST} findings, ${sweeps} steps`,
      ms: whole,
      yardstick: "as many truncated normals",
      yardstickMs,
      limitMs: ASKED_MS.learning,
    },
    {
      what: "  its longest step",
      ms: middle(runs.map((run) => run.longest)),
      yardstick: "the whole of it",
      yardstickMs: whole,
      limitMs: ASKED_MS.slice,
    },
  ];
}
