import {
  copyFileSync,
  existsSync,
  mkdirSync,
  mkdtempSync,
  readFileSync,
  rmSync,
  truncateSync,
  writeFileSync,
} from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { nanoid } from "nanoid";
import { afterEach, beforeEach, describe, expect, test } from "vitest";
import { backupsFolder } from "#server/backup/backup-folder.ts";
import { examine } from "#server/backup/examine.ts";
import { makeBackup } from "#server/backup/make-backup.ts";
import { restore } from "#server/backup/restore.ts";
import { lockFolder } from "#server/log/folder-lock.ts";
import { readHighWater } from "#server/log/high-water.ts";
import { openKitchenDb } from "#server/log/kitchen-db.ts";
import { sqliteDevices } from "#server/log/sqlite-devices.ts";
import { sqliteEventLog } from "#server/log/sqlite-event-log.ts";
import { openSqlite } from "#server/log/sqlite.ts";
import { filesIn, writeKitchen } from "../support/kitchen-files.ts";

const NOW = Date.UTC(2026, 10, 28, 3);
const DAY = 86_400_000;

let parent: string;
let data: string;
beforeEach(() => {
  parent = mkdtempSync(join(tmpdir(), "traytide-restore-"));
  data = join(parent, "data");
});
afterEach(() => rmSync(parent, { recursive: true, force: true }));

const backup = async (dataFolder = data, nowMs = NOW): Promise<string> => {
  const folder = backupsFolder(dataFolder, undefined);
  const app = "0.0.0-test";
  return (await makeBackup({ dataFolder, folder, reason: "by-hand", app, nowMs, isFolderSure: false })).file;
};
const putBack = (file: string, into = data) => restore(file, into, { newId: nanoid, nowMs: NOW + DAY });

/** What it says as it refuses; nothing in the folder may have changed. */
function refusal(file: string, into = data): string {
  const before = existsSync(into) ? filesIn(into) : undefined;
  let said = "";
  try {
    putBack(file, into);
  } catch (error) {
    said = (error as Error).message;
  }
  expect(existsSync(into) ? filesIn(into) : undefined).toEqual(before);
  return said;
}

describe("B4 a backup put back", () => {
  test("B4 the log, answers, devices and photos are those of the backup, under a new epoch; what was there is set aside", async () => {
    const { epoch, seq } = await writeKitchen(data, 400);
    mkdirSync(join(data, "photos"));
    const jpeg = Buffer.concat([Buffer.from([0xff, 0xd8, 0xff]), Buffer.alloc(9000, 5)]);
    writeFileSync(join(data, "photos", "moon.jpg"), jpeg);
    const file = await backup();
    const held = examine(file).held!;
    rmSync(join(data, "photos", "moon.jpg"));
    writeFileSync(join(data, "photos", "later.jpg"), jpeg);
    const present = examine(join(data, "kitchen.db")).held!;

    const { replaced, photos } = putBack(file);
    expect(photos).toBe(1);
    const now = examine(join(data, "kitchen.db"));
    expect(now.faults).toEqual([]);
    expect(now.held).toMatchObject({ hash: held.hash, seq, answers: seq, devices: 1, kitchenId: epoch });
    expect(now.held?.epoch).not.toBe(epoch);
    expect(now.held?.facts).toBeUndefined();
    expect(readHighWater(data)).toEqual({ epoch: now.held?.epoch, seq });
    expect(readFileSync(join(data, "photos", "moon.jpg"))).toEqual(jpeg);
    expect(existsSync(join(data, "photos", "later.jpg"))).toBe(false);

    expect(examine(join(replaced!, "kitchen.db")).held).toEqual(present);
    expect(existsSync(join(replaced!, "photos", "later.jpg"))).toBe(true);
    expect(readHighWater(replaced!)).toEqual({ epoch, seq });
    expect(existsSync(file)).toBe(true);
    // Again, and of the same kitchen still, though the epoch is another.
    expect(putBack(await backup(data, NOW + 1), data).held.kitchenId).toBe(epoch);
  });

  test("B4 into a folder that is not there yet, as on another machine", async () => {
    const { seq } = await writeKitchen(data, 100);
    const other = join(parent, "other", "data");
    expect(putBack(await backup(), other).replaced).toBeUndefined();
    expect(examine(join(other, "kitchen.db"))).toMatchObject({ faults: [], held: { seq } });
  });

  test("B4 a device that was made to forget its token since then stays out", async () => {
    await writeKitchen(data, 20);
    const file = await backup();
    const db = openKitchenDb(join(data, "kitchen.db"));
    await sqliteDevices(db).forget("phone-1", NOW);
    db.close();
    putBack(file);
    const again = openKitchenDb(join(data, "kitchen.db"));
    expect(await sqliteDevices(again).byToken("the token of phone 1")).toBeUndefined();
    again.close();
  });

  test("B4 a kitchen that is too damaged to tell which it is gives way to its backup", async () => {
    const { seq } = await writeKitchen(data, 400);
    const file = await backup();
    truncateSync(join(data, "kitchen.db"), 9000);
    expect(putBack(file).held.seq).toBe(seq);
    expect(examine(join(data, "kitchen.db")).faults).toEqual([]);
  });

  test("B4 a start before it is in its place is refused rather than opening an empty kitchen", async () => {
    await writeKitchen(data, 20);
    const file = await backup();
    const { replaced } = putBack(file);
    // As a machine that lost power in the middle of it.
    rmSync(join(data, "kitchen.db"));
    expect(readHighWater(data)?.seq).toBe(20);
    expect(putBack(file).replaced).not.toBe(replaced);
    expect(examine(join(data, "kitchen.db")).held?.seq).toBe(20);
  });
});

describe("B5 what is no whole backup of this kitchen is refused with nothing changed", () => {
  test.each([0, 1, 15, 16, 99, 100, 4095, 4096, 0.25, 0.5, 0.999])("cut at %d", async (at) => {
    await writeKitchen(data, 200);
    const file = await backup();
    const cut = join(parent, "cut.db");
    copyFileSync(file, cut);
    const bytes = readFileSync(file).length;
    truncateSync(cut, at > 0 && at < 1 ? Math.floor(at * bytes) : at);
    expect(refusal(cut)).toMatch(at === 0 ? /is empty\.$/ : /is cut short: it has/);
    const fresh = join(parent, "fresh");
    expect(refusal(cut, fresh)).not.toBe("");
    expect(existsSync(fresh)).toBe(false);
  });

  test("a file that is no backup, or not there", async () => {
    const { file: database } = await writeKitchen(data, 30);
    const text = join(parent, "recipe.txt");
    writeFileSync(text, "Buy butter. ".repeat(2000));
    expect(refusal(text)).toMatch(/is no database/);
    expect(refusal(join(parent, "none.db"))).toMatch(/^There is no file/);
    expect(refusal(parent)).toMatch(/^There is no file/);
    const copy = join(parent, "copy.db");
    copyFileSync(database, copy);
    expect(refusal(copy)).toMatch(/but no backup made by Traytide/);
    const other = openSqlite(join(parent, "music.db"));
    other.exec("CREATE TABLE song (name TEXT)");
    other.close();
    expect(refusal(other.file)).toMatch(/holds no kitchen/);
  });

  test("damaged: a page, an event, a hash", async () => {
    await writeKitchen(data, 600);
    const file = await backup();
    const whole = readFileSync(file);
    const damaged = join(parent, "damaged.db");
    for (let page = 2; page < whole.length / 4096; page += 9) {
      const bytes = Buffer.from(whole);
      bytes.fill(0xa5, page * 4096, page * 4096 + 4096);
      writeFileSync(damaged, bytes);
      expect(refusal(damaged)).toMatch(/is damaged|is not what was written|are missing|is no backup/);
    }
    const at = whole.indexOf('"finding":"skinned"') + 12;
    const bytes = Buffer.from(whole);
    bytes.write("s", at);
    bytes.write("firmxxx", at);
    writeFileSync(damaged, bytes);
    expect(refusal(damaged)).toMatch(/^Event \d+ of .* is not what was written/);
  });

  test("of another kitchen: said with its name, and a folder without events takes it", async () => {
    await writeKitchen(data, 50);
    const file = await backup();
    const other = join(parent, "other");
    await writeKitchen(other, 30, "another epoch");
    expect(refusal(file, other)).toMatch(/is a backup of another kitchen, "Tidepool Bakes"/);
    const begun = join(parent, "begun");
    mkdirSync(begun);
    const db = openKitchenDb(join(begun, "kitchen.db"));
    sqliteEventLog(db, "test", () => "a third epoch");
    db.close();
    expect(putBack(file, begun).held.seq).toBe(50);
  });

  test("of a newer Traytide: its tables, its events, its way of keeping backups", async () => {
    await writeKitchen(data, 50);
    const file = await backup();
    const newer = join(parent, "newer.db");
    for (const sql of [
      "PRAGMA user_version = 99",
      "UPDATE backup_facts SET facts = json_set(facts, '$.protocol', 999)",
      "UPDATE backup_facts SET facts = json_set(facts, '$.format', 2)",
    ]) {
      copyFileSync(file, newer);
      const db = openSqlite(newer);
      db.exec(sql);
      db.close();
      expect(refusal(newer)).toMatch(/was made by a newer Traytide/);
    }
  });

  test("while a server has the folder", async () => {
    await writeKitchen(data, 50);
    const file = await backup();
    const unlock = lockFolder(data);
    expect(refusal(file)).toMatch(/^Another Traytide server has the data folder/);
    unlock();
    putBack(file);
  });
});
