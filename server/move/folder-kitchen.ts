import { existsSync, mkdirSync, renameSync, rmSync } from "node:fs";
import { join } from "node:path";
import { asId, type DesignId } from "#shared/ids.ts";
import { lockFolder } from "#server/log/folder-lock.ts";
import { readHighWater, refuseEmptied, writeHighWater } from "#server/log/high-water.ts";
import { type KitchenDb, openKitchenDb } from "#server/log/kitchen-db.ts";
import { photoFiles } from "#server/log/photo-files.ts";
import { openPrivateFolder } from "#server/log/private-folder.ts";
import { type Report, WordedError } from "#server/words.ts";
import type { KitchenSource, KitchenTable, KitchenTarget, Row } from "./kitchen-tables.ts";

const PAGE = 1000;
/** Where a kitchen is put together before it takes its place. */
const MOVING = "moving";

const sqlName = ({ name }: KitchenTable): string => (name === "values" ? "meta" : name);

function sourceOf(db: KitchenDb, folder: string): KitchenSource {
  const photos = photoFiles(join(folder, "photos"));
  const epoch =
    db.prepare<[], { value: string }>("SELECT value FROM meta WHERE key = 'epoch'").get()?.value ?? "";
  return {
    epoch,
    rows: async function* (table) {
      const { key, columns } = table;
      const all = `SELECT ${columns.join(", ")} FROM ${sqlName(table)}`;
      const first = db.prepare<[], Row>(`${all} ORDER BY ${key} LIMIT ${PAGE}`);
      const next = db.prepare<[string | number], Row>(
        `${all} WHERE ${key} > ? ORDER BY ${key} LIMIT ${PAGE}`,
      );
      for (let rows = first.all(); rows.length > 0; rows = next.all(rows.at(-1)?.[key] ?? "")) {
        // The epoch goes with the kitchen and not among its values.
        yield table.name === "values" ? rows.filter((row) => row["key"] !== "epoch") : rows;
      }
    },
    photos: async function* () {
      for (const designId of await photos.ids()) {
        const jpeg = await photos.get(designId);
        if (jpeg !== undefined) yield { designId, jpeg };
      }
    },
  };
}

/** Reads the kitchen in a data folder that no server has open. Throws, in words, when there is none or it cannot be opened. */
export async function fromFolder<Result>(
  folder: string,
  act: (source: KitchenSource) => Promise<Result>,
): Promise<Result> {
  if (!existsSync(join(folder, "kitchen.db")))
    throw new WordedError(({ server }) => server.move.noKitchen(folder));
  const unlock = lockFolder(folder);
  try {
    refuseEmptied(folder, readHighWater(folder));
    const db = openKitchenDb(join(folder, "kitchen.db"));
    try {
      if (db.pragma("integrity_check(1)") !== "ok")
        throw new WordedError(({ server }) => server.move.damaged(folder));
      return await act(sourceOf(db, folder));
    } finally {
      db.close();
    }
  } finally {
    unlock();
  }
}

/** Puts a kitchen into a data folder: put together beside, and in its place at once or not at all. */
export async function intoFolder<Result>(
  folder: string,
  epoch: string,
  report: Report,
  act: (target: KitchenTarget) => Promise<Result & { seq: number }>,
): Promise<Result> {
  const isNew = !existsSync(folder);
  openPrivateFolder(folder, report);
  const unlock = lockFolder(folder);
  const moving = join(folder, MOVING);
  try {
    refuseHeld(folder);
    rmSync(moving, { recursive: true, force: true });
    mkdirSync(moving, { mode: 0o700 });
    const result = await fill(moving, epoch, act);
    rmSync(join(folder, "photos"), { recursive: true, force: true });
    if (existsSync(join(moving, "photos"))) renameSync(join(moving, "photos"), join(folder, "photos"));
    for (const left of ["kitchen.db-wal", "kitchen.db-shm"]) rmSync(join(folder, left), { force: true });
    renameSync(join(moving, "kitchen.db"), join(folder, "kitchen.db"));
    writeHighWater(folder, { epoch, seq: result.seq });
    return result;
  } finally {
    rmSync(moving, { recursive: true, force: true });
    unlock();
    if (isNew && !existsSync(join(folder, "kitchen.db"))) rmSync(folder, { recursive: true, force: true });
  }
}

/** Refuses a folder in which there is, or was, a kitchen in which anything happened. */
function refuseHeld(folder: string): void {
  const mark = readHighWater(folder);
  const isHeld = existsSync(join(folder, "kitchen.db")) ? holdsAnything(folder) : (mark?.seq ?? 0) > 0;
  if (isHeld) throw new WordedError(({ server }) => server.move.held(folder));
}

function holdsAnything(folder: string): boolean {
  const db = openKitchenDb(join(folder, "kitchen.db"));
  try {
    const found = db
      .prepare<[], { n: number }>(
        "SELECT (SELECT count(*) FROM events) + (SELECT count(*) FROM devices) AS n",
      )
      .get();
    return (found?.n ?? 0) > 0;
  } finally {
    db.close();
  }
}

async function fill<Result>(
  folder: string,
  epoch: string,
  act: (target: KitchenTarget) => Promise<Result>,
): Promise<Result> {
  const db = openKitchenDb(join(folder, "kitchen.db"));
  const photos = photoFiles(join(folder, "photos"));
  try {
    db.exec("BEGIN");
    db.prepare("INSERT INTO meta (key, value) VALUES ('epoch', ?)").run(epoch);
    const result = await act({
      insert: async (table, rows) => {
        const { columns } = table;
        const insert = db.prepare(
          `INSERT INTO ${sqlName(table)} (${columns.join(", ")}) VALUES (${columns.map(() => "?").join(", ")})`,
        );
        for (const row of rows) insert.run(...columns.map((column) => row[column] ?? null));
      },
      putPhoto: (designId, jpeg) => photos.put(asId<DesignId>(designId), jpeg),
      written: sourceOf(db, folder),
    });
    db.exec("COMMIT");
    return result;
  } finally {
    db.close();
  }
}
