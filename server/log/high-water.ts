import { readFileSync, statSync } from "node:fs";
import { join } from "node:path";
import * as v from "valibot";
import type { ServerProblem } from "#shared/kitchen/model/server-problem.ts";
import { WordedError } from "#server/words.ts";
import type { EventLog } from "./event-log.ts";
import { writeWhole } from "./write-whole.ts";

/** How far the log is known to have come, kept in a file of its own, so that a log cut short is noticed. */
const HighWater = v.object({ epoch: v.string(), seq: v.pipe(v.number(), v.integer(), v.minValue(0)) });
export type HighWater = v.InferOutput<typeof HighWater>;

const fileIn = (folder: string): string => join(folder, "high-water.json");

/** Undefined where there is none, or none that can be read: it guards the log and must not keep it from opening. */
export function readHighWater(folder: string): HighWater | undefined {
  try {
    return v.parse(HighWater, JSON.parse(readFileSync(fileIn(folder), "utf8")));
  } catch {
    return undefined;
  }
}

export const writeHighWater = (folder: string, mark: HighWater): void =>
  writeWhole(fileIn(folder), JSON.stringify(mark));

/** Refuses, in words, a database without a byte where one held events: opening it would show an empty kitchen. */
export function refuseEmptied(folder: string, mark: HighWater | undefined): void {
  if (mark === undefined || mark.seq === 0) return;
  const size = statSync(join(folder, "kitchen.db"), { throwIfNoEntry: false })?.size ?? 0;
  if (size === 0) throw emptied(folder, mark);
}

const emptied = (folder: string, { seq }: HighWater): WordedError =>
  new WordedError(({ server }) => server.data.emptied(folder, seq));

/** What is missing of a log at its opening; throws, in words, when that is all of it. */
export async function missingEvents(
  log: EventLog,
  folder: string,
  mark: HighWater | undefined,
): Promise<Extract<ServerProblem, { code: "log-cut-short" }> | undefined> {
  const seq = await log.latestSeq();
  if (mark === undefined || mark.seq === 0) return undefined;
  if (seq === 0) throw emptied(folder, mark);
  if (mark.epoch !== log.epoch || seq >= mark.seq) return undefined;
  return { code: "log-cut-short", heldSeq: seq, knownSeq: mark.seq };
}
