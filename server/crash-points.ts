import { existsSync } from "node:fs";
import { join } from "node:path";
import type { EventLog } from "#server/log/event-log.ts";

/** Where a test may have the server die as if the power went. */
export const CRASH_POINTS = [
  /** Decided, nothing written. */
  "before-append",
  /** Written, nobody told. */
  "after-append",
  /** The senders know, the other screens do not. */
  "after-acknowledge",
  /** The first time a snapshot is begun, the second time it is written. */
  "in-snapshot",
  /** The first time nothing is read, the second time a page of events is. */
  "in-replay",
  /** In the process that makes a backup: the first time the copy is made, the second time it was found whole. */
  "in-backup",
] as const;
export type CrashPoint = (typeof CRASH_POINTS)[number];

/** Said at each crash point; does not resolve where the process dies there. A kitchen's server is given none. */
export type CrashAt = (point: CrashPoint) => Promise<void>;

/** A file of this name says that a data folder is a test's, whose server may die. No kitchen has one. */
export const MAY_CRASH = "may-crash";

/** By then an acknowledgement has left for its socket, ms. */
const ACKNOWLEDGED_MS = 5;

/** Dies at "POINT:COUNT", the point reached so many times, in a data folder that a test marked; undefined for any other. */
export function crashAt(spec: string | undefined, dataFolder: string): CrashAt | undefined {
  if (spec === undefined || !existsSync(join(dataFolder, MAY_CRASH))) return undefined;
  const [asked, count] = spec.split(":");
  let left = Number(count);
  return async (point) => {
    if (point !== asked || (left -= 1) !== 0) return;
    if (point === "after-acknowledge") await new Promise((resolve) => setTimeout(resolve, ACKNOWLEDGED_MS));
    process.kill(process.pid, "SIGKILL");
    await new Promise(() => undefined);
  };
}

/** The log, with the crash points around it. */
export const crashingLog = (log: EventLog, crash: CrashAt): EventLog => ({
  ...log,
  append: async (batch, fromSeq) => {
    await crash("before-append");
    const hashes = await log.append(batch, fromSeq);
    await crash("after-append");
    return hashes;
  },
  saveSnapshot: async (snapshot) => {
    await crash("in-snapshot");
    await log.saveSnapshot(snapshot);
    await crash("in-snapshot");
  },
  since: async (seq, limit) => {
    await crash("in-replay");
    return log.since(seq, limit);
  },
});
