import type { AlertGroup } from "#shared/kitchen/model/alert-kinds.ts";
import type { BackupTrouble } from "#shared/kitchen/model/server-problem.ts";
import type { Formats } from "#shared/words/formats.ts";

/** Lines of the server's log, for whoever looks after it. */
export const log = (format: Formats) => ({
  cannotWrite: "The log cannot be written: nothing is acknowledged until it can.",
  canWrite: "The log can be written again.",
  cannotRead: "The log could not be read.",
  eventSetAside: (seq: number, type: string, reason: string) =>
    `Event ${seq} (${type}) cannot be read and is set aside: ${reason}`,
  snapshotNotSaved: "A snapshot could not be saved; the events are safe without it.",
  snapshotsUnreadable: (reason: string) =>
    `The snapshots cannot be read (${reason}): they are skipped, the events are not.`,
  snapshotDamaged: (seq: number) =>
    `The snapshot at event ${seq} is damaged: it is skipped, the events are not.`,
  highWaterNotWritten: "high-water.json could not be written; the log is safe without it.",
  backupFailed: (why: BackupTrouble, folder: string) =>
    `The backup into ${folder} failed (${why}); it is tried again every ten minutes.`,
  backupsNotSeen: "The backups' folder could not be looked at.",
  rulesFailed: (group: AlertGroup) => `Alerts of the group "${group}" cannot be checked.`,
  decisionFailed: (command: string) => `A decision failed on ${command}.`,
  listenerFailed: "A listener failed on a change.",
  forecastFailed: "A forecast failed.",
  forecastThreadDied: "The thread that works out forecasts died; a new one takes over.",
  planThreadDied: "The thread that works out the day's plan died; a new one takes over.",
  connectionFailed: "A connection failed.",
  messageFailed: "A message from a screen failed.",
  requestFailed: (method: string, path: string) => `${method} ${path} failed.`,
  photoNotRemoved: "The photo of a design that was deleted could not be removed.",
  deviceNotForgotten: "A removed person's device could not be forgotten.",
  clockJumped: (s: number) =>
    `This machine's clock jumped ahead by ${format.number(s)} s: the kitchen's time follows it.`,
  clockBehind: (s: number) =>
    `This machine's clock is ${format.number(s)} s behind the kitchen's time, which never runs backwards. Set the clock right.`,
  practiceFault: "The practice kitchen's people met a fault.",
  practicePaused: "The practice kitchen stands still for a moment.",
});
