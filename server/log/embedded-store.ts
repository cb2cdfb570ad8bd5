import { join } from "node:path";
import type { Timers } from "#server/live/clock.ts";
import { type Report, WordedError } from "#server/words.ts";
import { openingTrouble, saveTroubleOf } from "./disk-trouble.ts";
import { guardedLog, guardFolder } from "./folder-guard.ts";
import { lockFolder } from "./folder-lock.ts";
import { type HighWater, missingEvents, readHighWater, refuseEmptied, writeHighWater } from "./high-water.ts";
import { type KitchenDb, openKitchenDb } from "./kitchen-db.ts";
import { photoFiles } from "./photo-files.ts";
import { openPrivateFolder } from "./private-folder.ts";
import { sqliteDevices } from "./sqlite-devices.ts";
import { sqliteEventLog } from "./sqlite-event-log.ts";
import { sqliteValues } from "./sqlite-values.ts";
import type { KitchenStore } from "./store.ts";

export interface EmbeddedStoreDeps {
  /** Names this build: a snapshot made by another one is passed over. */
  app: string;
  newId: () => string;
  photosFolder: string;
}

/** A kitchen in an open SQLite database, with its photos in a folder. */
export function embeddedStore(db: KitchenDb, { app, newId, photosFolder }: EmbeddedStoreDeps): KitchenStore {
  return {
    log: sqliteEventLog(db, app, newId),
    devices: sqliteDevices(db),
    values: sqliteValues(db),
    photos: photoFiles(photosFolder),
    problem: () => undefined,
    saveTroubleOf: (error) => saveTroubleOf(error),
    close: async () => db.close(),
  };
}

export interface DataFolderDeps extends Omit<EmbeddedStoreDeps, "photosFolder"> {
  timers: Pick<Timers, "every">;
  report: Report;
  /** Done once the folder is this process's, and before anything in its database is changed. */
  beforeOpening?: () => Promise<void>;
}

/** How often the log's height is written down beside it, when it has grown. */
const MARK_EVERY_MS = 1000;

/** Takes a data folder for this process and opens the kitchen in it; throws, in words, when it cannot be used. */
export async function openDataFolder(folder: string, deps: DataFolderDeps): Promise<KitchenStore> {
  const { report, timers } = deps;
  const { db, unlock, mark } = await takeFolder(folder, deps);
  const store = embeddedStore(db, { ...deps, photosFolder: join(folder, "photos") });
  const lacks = await missingEvents(store.log, folder, mark);
  if (lacks !== undefined) report(({ server }) => server.problems.say(lacks));
  const guard = guardFolder(db.file);
  const log = guardedLog(store.log, guard);

  // A log that lacks events keeps its old mark until something more is saved, so that a restart says it again.
  let markedSeq = lacks === undefined ? (mark?.seq ?? 0) : lacks.heldSeq;
  async function keepMark(): Promise<void> {
    if (!guard.isThere()) return;
    try {
      const seq = await log.latestSeq();
      if (markedSeq === seq) return;
      writeHighWater(folder, { epoch: log.epoch, seq });
      markedSeq = seq;
    } catch (error) {
      report(({ server }) => server.log.highWaterNotWritten, error);
    }
  }
  const stopMarking = timers.every(MARK_EVERY_MS, () => void keepMark());

  return {
    ...store,
    log,
    problem: () => (guard.isThere() ? lacks : { code: "cannot-save", why: "folder-gone" }),
    saveTroubleOf: (error) => saveTroubleOf(error, folder),
    close: async () => {
      stopMarking();
      await keepMark();
      await store.close();
      unlock();
    },
  };
}

async function takeFolder(
  folder: string,
  { report, beforeOpening }: DataFolderDeps,
): Promise<{ db: KitchenDb; unlock: () => void; mark: HighWater | undefined }> {
  try {
    openPrivateFolder(folder, report);
    const unlock = lockFolder(folder);
    const mark = readHighWater(folder);
    refuseEmptied(folder, mark);
    await beforeOpening?.();
    return { db: openKitchenDb(join(folder, "kitchen.db")), unlock, mark };
  } catch (error) {
    const trouble = openingTrouble(error, folder);
    throw trouble === undefined ? error : new WordedError(trouble, { cause: error });
  }
}
