import { expect, test } from "vitest";
import { Scheduler } from "#shared/scheduling/schedule.ts";
import { ALWAYS, type Task, type Work } from "#shared/scheduling/work.ts";
import { improved } from "#shared/scheduling/priorities.ts";
import { atOnce } from "#shared/steps.ts";
import { byLatestStart } from "#tests/support/latest-start.ts";
import { randomFrom } from "#tests/support/random.ts";

/**
 * Published job shops, planned by the kitchen's own engine: every machine a tool of which there is one, no waits. FT06 and FT20
 * are Fisher & Thompson 1963, LA01, LA02 and LA17 Lawrence 1984; data and best makespans as in OR-Library (Beasley, J. Oper. Res.
 * Soc. 41, 1990, 1069–1072). Within 10 %: a rule with a short local search, not a solver that proves its best.
 */
const SHOPS: Readonly<Record<string, { best: number; jobs: string }>> = {
  ft06: {
    best: 55,
    jobs: `
      2 1 0 3 1 6 3 7 5 3 4 6
      1 8 2 5 4 10 5 10 0 10 3 4
      2 5 3 4 5 8 0 9 1 1 4 7
      1 5 0 5 2 5 3 3 4 8 5 9
      2 9 1 3 4 5 5 4 0 3 3 1
      1 3 3 3 5 9 0 10 4 4 2 1`,
  },
  ft20: {
    best: 1165,
    jobs: `
      0 29 1 9 2 49 3 62 4 44
      0 43 1 75 3 69 2 46 4 72
      1 91 0 39 2 90 4 12 3 45
      1 81 0 71 4 9 2 85 3 22
      2 14 1 22 0 26 3 21 4 72
      2 84 1 52 4 48 0 47 3 6
      1 46 0 61 2 32 3 32 4 30
      2 31 1 46 0 32 3 19 4 36
      0 76 3 76 2 85 1 40 4 26
      1 85 2 61 0 64 3 47 4 90
      1 78 3 36 0 11 4 56 2 21
      2 90 0 11 1 28 3 46 4 30
      0 85 2 74 1 10 3 89 4 33
      2 95 0 99 1 52 3 98 4 43
      0 6 1 61 4 69 2 49 3 53
      1 2 0 95 3 72 4 65 2 25
      0 37 2 13 1 21 3 89 4 55
      0 86 1 74 4 88 2 48 3 79
      1 69 2 51 0 11 3 89 4 74
      0 13 1 7 2 76 3 52 4 45`,
  },
  la01: {
    best: 666,
    jobs: `
      1 21 0 53 4 95 3 55 2 34
      0 21 3 52 4 16 2 26 1 71
      3 39 4 98 1 42 2 31 0 12
      1 77 0 55 4 79 2 66 3 77
      0 83 3 34 2 64 1 19 4 37
      1 54 2 43 4 79 0 92 3 62
      3 69 4 77 1 87 2 87 0 93
      2 38 0 60 1 41 3 24 4 83
      3 17 1 49 4 25 0 44 2 98
      4 77 3 79 2 43 1 75 0 96`,
  },
  la02: {
    best: 655,
    jobs: `
      0 20 3 87 1 31 4 76 2 17
      4 25 2 32 0 24 1 18 3 81
      1 72 2 23 4 28 0 58 3 99
      2 86 1 76 4 97 0 45 3 90
      4 27 0 42 3 48 2 17 1 46
      1 67 0 98 4 48 3 27 2 62
      4 28 1 12 3 19 0 80 2 50
      1 63 0 94 2 98 3 50 4 80
      4 14 0 75 2 50 1 41 3 55
      4 72 2 18 1 37 3 79 0 61`,
  },
  la17: {
    best: 784,
    jobs: `
      4 18 7 21 9 41 2 45 3 38 8 50 5 84 6 29 1 23 0 82
      8 57 5 16 1 52 7 74 2 38 3 54 6 62 9 37 4 54 0 52
      2 30 4 79 3 68 1 61 8 11 6 89 7 89 0 81 9 81 5 57
      0 91 8 8 3 33 7 55 5 20 2 20 4 32 6 84 1 66 9 24
      9 40 0 7 4 19 8 7 6 83 2 64 5 56 3 54 7 8 1 39
      3 91 2 64 5 40 0 63 7 98 4 74 8 61 1 6 6 42 9 15
      1 80 7 39 8 24 3 75 4 75 5 6 6 44 0 26 2 87 9 22
      1 15 7 43 2 20 0 12 8 26 6 61 3 79 9 22 5 8 4 80
      2 62 3 96 4 22 9 5 0 63 6 33 7 10 8 18 1 36 5 40
      1 96 0 89 5 64 3 95 9 23 7 18 8 15 2 64 6 38 4 8`,
  },
};

function workOf(jobs: string): Work {
  const tasks: Task[] = [];
  const rows = jobs
    .trim()
    .split("\n")
    .map((row) => row.trim().split(/\s+/).map(Number));
  const machines = Math.max(...rows.flatMap((row) => row.filter((_, k) => k % 2 === 0))) + 1;
  for (const row of rows)
    for (let k = 0; k < row.length; k += 2)
      tasks.push({
        pool: row[k]!,
        durationMin: row[k + 1]!,
        after: k === 0 ? [] : [{ task: tasks.length - 1, waitMin: 0 }],
      });
  return {
    tasks,
    pools: Array.from({ length: machines }, () => ({ units: 1, hours: ALWAYS })),
    changeMin: 0,
  };
}

const makespan = (scheduler: Scheduler): number => Math.max(...scheduler.endMin);

test.each(Object.keys(SHOPS))("%s is planned within a tenth of its best makespan", (name) => {
  const { best, jobs } = SHOPS[name]!;
  const work = workOf(jobs);
  const first = byLatestStart(work, new Float64Array(work.tasks.length));
  const { cost } = atOnce(improved(work, [first], makespan, 8000, randomFrom(7)));
  expect(cost).toBeGreaterThanOrEqual(best);
  expect(cost / best).toBeLessThan(1.1);
});
