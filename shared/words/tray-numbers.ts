import { runsOf } from "#shared/collections.ts";

const sayRun = (run: readonly number[]): string =>
  run.length === 1 ? String(run[0]) : `${run[0]}–${run.at(-1)}`;

/** "18, 23, 40", "27–30": tray numbers in ascending order; past `most` runs, "18, 23 +5". */
export function sayNumbers(numbers: readonly number[], most = Number.POSITIVE_INFINITY): string {
  const runs = runsOf(numbers);
  const said = runs.slice(0, most).map(sayRun).join(", ");
  const left = runs.slice(most).flat().length;
  return left === 0 ? said : `${said} +${left}`;
}

/** At most four numbers, or the first three and what says how many more there are. */
export const fewOf = (numbers: readonly number[], moreWords: (more: number) => string): string[] =>
  numbers.length <= 4
    ? numbers.map(String)
    : [...numbers.slice(0, 3).map(String), moreWords(numbers.length - 3)];
