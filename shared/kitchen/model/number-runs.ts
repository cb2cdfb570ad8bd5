/** Ascending numbers as runs of neighbours: 27, 28, 30 → [27, 28], [30]. */
export function runsOf(numbers: readonly number[]): number[][] {
  const runs: number[][] = [];
  for (const number of numbers.toSorted((a, b) => a - b)) {
    const run = runs.at(-1);
    if (run !== undefined && number === run.at(-1)! + 1) run.push(number);
    else if (number !== run?.at(-1)) runs.push([number]);
  }
  return runs;
}
