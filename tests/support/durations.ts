import { relative, sep } from "node:path";

/** What of a test file in Vitest's JSON report is timed, ms. */
export interface FileTimes {
  /** Absolute path. */
  name: string;
  startTime: number;
  endTime: number;
}

const SLOWEST_SHOWN = 5;
const inS = (ms: number): string => `${(Math.max(0, ms) / 1000).toFixed(1)} s`;

/** A line of "name: time". */
export const timeLine = (name: string, ms: number): string => `${inS(ms).padStart(9)}  ${name}`;

/**
 * A line for each folder of tests, then for the slowest files, the longest first. Files run side by side, so folders add up
 * to more than the whole took.
 */
export function fileTimeLines(root: string, files: readonly FileTimes[]): string[] {
  const timed = files.map(({ name, startTime, endTime }) => ({
    name: relative(root, name).split(sep).join("/"),
    ms: endTime - startTime,
  }));
  const folders = new Map<string, number>();
  for (const { name, ms } of timed) {
    const folder = name.slice(0, name.lastIndexOf("/"));
    folders.set(folder, (folders.get(folder) ?? 0) + ms);
  }
  return [
    ...longestFirst([...folders].map(([name, ms]) => ({ name: `all files of ${name}`, ms }))),
    ...longestFirst(timed).slice(0, SLOWEST_SHOWN),
  ].map(({ name, ms }) => timeLine(`  ${name}`, ms));
}

const longestFirst = <Timed extends { ms: number }>(all: readonly Timed[]): Timed[] =>
  all.toSorted((a, b) => b.ms - a.ms);
