import { stat } from "node:fs/promises";
import { dirname } from "node:path";
import type { BackupTrouble, ServerProblem } from "#shared/kitchen/model/server-problem.ts";
import type { BackupKept, BackupProgress, BackupReason } from "#shared/kitchen/model/backup.ts";
import type { BackupAnswer } from "#shared/protocol/backup.ts";
import { HOUR_MS, MIN_MS } from "#shared/time.ts";
import type { Clock, Timers } from "#server/live/clock.ts";
import type { Report } from "#server/words.ts";
import { type BackupFolder, folderTrouble, KEPT_OF_EACH, listBackups } from "./backup-folder.ts";
import { areOnOneDisk, lowDisks } from "./disk-low.ts";
import { hasLostBackups, type LastBackup, readLastBackup } from "./last-backup.ts";
import { BackupFailure, type BackupStep } from "./make-backup.ts";
import { latestNightMs, nextNightMs } from "./nightly.ts";
import type { RunBackup } from "./run-backup.ts";

export interface BackupsDeps {
  dataFolder: string;
  folder: BackupFolder;
  kitchenId: string;
  /** The version of Traytide. */
  app: string;
  run: RunBackup;
  clock: Pick<Clock, "nowMs">;
  timers: Pick<Timers, "every">;
  timeZone: () => string;
  /** When the kitchen began; undefined while nothing has happened in it. */
  firstMs: () => Promise<number | undefined>;
  report: Report;
  /** Why none was made before this upgrade, where one had to be: it is tried again at the first chance. */
  owedFor?: BackupTrouble;
}

/** A running kitchen's backups: it makes one each night, says when they are old, and takes one when asked. */
export interface Backups {
  status: () => Promise<BackupAnswer>;
  /** Begins one; false where one is being made already. */
  take: () => boolean;
  problems: () => ServerProblem[];
  /** Resolves once nothing is looked at or made. */
  idle: () => Promise<void>;
  stop: () => void;
}

/** One that is being made. */
interface Running {
  step?: BackupStep;
  stop?: () => void;
  ended?: Promise<void>;
}

const LOOK_EVERY_MS = MIN_MS;
const TRY_AGAIN_MS = 10 * MIN_MS;
/** A backup older than this is said; so is none at all in a kitchen older than this. */
export const OLD_AFTER_MS = 36 * HOUR_MS;

export function createBackups(deps: BackupsDeps): Backups {
  const { dataFolder, folder, kitchenId, clock, report } = deps;
  let kept: readonly BackupKept[] = [];
  let last: LastBackup | BackupKept | undefined;
  let firstMs: number | undefined;
  let folderFor: BackupTrouble | undefined;
  let failedFor = deps.owedFor;
  let isOwed = deps.owedFor !== undefined;
  let low: ServerProblem[] = [];
  let triedMs = isOwed ? clock.nowMs() : Number.NEGATIVE_INFINITY;
  let running: Running | undefined;
  let looking: Promise<void> | undefined;
  let isStopped = false;

  async function see(): Promise<void> {
    const nowMs = clock.nowMs();
    firstMs ??= await deps.firstMs();
    folderFor = await folderTrouble(folder);
    kept = folderFor === "folder-missing" ? [] : await listBackups(folder.path, kitchenId).catch(() => []);
    const noted = readLastBackup(dataFolder);
    const note = noted?.kitchenId === kitchenId ? noted : undefined;
    if (folderFor === undefined && hasLostBackups(folder, note, kept)) folderFor = "folder-lost-backups";
    last = await newest(nowMs, note);
    // One may have been made by hand meanwhile.
    if (last !== undefined && last.madeAtMs >= triedMs) {
      failedFor = undefined;
      isOwed = false;
    }
    const reached = folderFor === "folder-missing" ? undefined : folder.path;
    low = await lowDisks(dataFolder, reached, last?.bytes ?? 0).catch(() => []);
  }

  /** The newest good one, in the folder or where the note says; one that a wrong clock put into the future tells nothing. */
  async function newest(
    nowMs: number,
    note: LastBackup | undefined,
  ): Promise<LastBackup | BackupKept | undefined> {
    const isGone =
      note === undefined || (folderFor !== "folder-lost-backups" && (await isKnownGone(note.file)));
    return [...(isGone ? [] : [note]), ...kept]
      .filter(({ madeAtMs }) => madeAtMs <= nowMs)
      .toSorted((a, b) => b.madeAtMs - a.madeAtMs)[0];
  }

  function isDue(): boolean {
    if (firstMs === undefined) return false;
    const nowMs = clock.nowMs();
    if (nowMs - triedMs < TRY_AGAIN_MS) return false;
    return isOwed || Math.max(last?.madeAtMs ?? 0, firstMs) < latestNightMs(nowMs, deps.timeZone());
  }

  function start(reason: BackupReason): void {
    triedMs = clock.nowMs();
    const job = { dataFolder, folder, reason, app: deps.app, nowMs: triedMs, isFolderSure: false };
    const own: Running = {};
    running = own;
    const backup = deps.run(job, (step) => (own.step = step));
    own.stop = backup.stop;
    own.ended = backup.made
      .then(
        () => undefined,
        (error: unknown) => {
          if (isStopped) return;
          const why = error instanceof BackupFailure ? error.trouble : "unknown";
          if (why !== failedFor) report(({ server }) => server.log.backupFailed(why, folder.path), error);
          failedFor = why;
        },
      )
      .then(see)
      .catch((error: unknown) => report(({ server }) => server.log.backupsNotSeen, error))
      .finally(() => (running = undefined));
  }

  const look = (mayStart = true): Promise<void> =>
    // A disk that answers slowly is not asked twice at once.
    (looking ??= see()
      .then(() => {
        if (mayStart && !isStopped && running === undefined && isDue()) start(isOwed ? "upgrade" : "nightly");
      })
      .catch((error: unknown) => report(({ server }) => server.log.backupsNotSeen, error))
      .finally(() => (looking = undefined)));

  async function progress(): Promise<BackupProgress | undefined> {
    if (running === undefined) return undefined;
    const { step } = running;
    if (step?.stage === "checking") return { stage: "checking", part: step.done / Math.max(1, step.of) };
    const copied = step === undefined ? 0 : ((await stat(step.file).catch(() => undefined))?.size ?? 0);
    return { stage: "copying", part: Math.min(1, copied / Math.max(1, step?.ofBytes ?? 0)) };
  }

  const stopLooking = deps.timers.every(LOOK_EVERY_MS, () => void look());
  // A server that has just started has better to do than to make one at once.
  void look(false);

  return {
    idle: async () => {
      await looking;
      await running?.ended;
    },
    take: () => {
      if (running !== undefined) return false;
      start("by-hand");
      return true;
    },
    status: async () => {
      await look(false);
      const trouble = running === undefined ? (folderFor ?? failedFor) : undefined;
      const going = await progress();
      return {
        is: "kept",
        folder: folder.path,
        count: kept.length,
        depth: KEPT_OF_EACH,
        isOnDataDisk: await areOnOneDisk(dataFolder, folder.path).catch(() => false),
        nextAtMs: nextNightMs(clock.nowMs(), deps.timeZone()),
        ...(last !== undefined && {
          last: { file: last.file, bytes: last.bytes, madeAtMs: last.madeAtMs, reason: last.reason },
          ...("events" in last && { holds: { events: last.events, trays: last.trays } }),
        }),
        ...(going !== undefined && { running: going }),
        ...(trouble !== undefined && { trouble }),
      };
    },
    problems: () => {
      const why = folderFor ?? failedFor;
      return [...old(), ...(why === undefined ? [] : [{ code: "backup-failed", why } as const]), ...low];
    },
    stop: () => {
      isStopped = true;
      stopLooking();
      running?.stop?.();
    },
  };

  function old(): ServerProblem[] {
    const sinceMs = last?.madeAtMs ?? firstMs;
    if (sinceMs === undefined) return [];
    const ageMs = clock.nowMs() - sinceMs;
    if (ageMs <= OLD_AFTER_MS) return [];
    return [{ code: "backup-old", hours: last === undefined ? null : Math.floor(ageMs / HOUR_MS) }];
  }
}

/** Whether its folder is there and the file is not: one on a disk that is unplugged, or put away, is still a backup. */
async function isKnownGone(file: string): Promise<boolean> {
  const isThere = (path: string): Promise<boolean> =>
    stat(path).then(
      () => true,
      () => false,
    );
  return (await isThere(dirname(file))) && !(await isThere(file));
}
