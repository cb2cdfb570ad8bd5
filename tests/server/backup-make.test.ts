import { mkdirSync, mkdtempSync, readdirSync, rmSync, utimesSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { fileURLToPath, pathToFileURL } from "node:url";
import { afterEach, beforeEach, describe, expect, test } from "vitest";
import { backupName, backupsFolder, KEPT_OF_EACH, prune } from "#server/backup/backup-folder.ts";
import { examine } from "#server/backup/examine.ts";
import { BackupFailure, type BackupJob, type BackupStep, makeBackup } from "#server/backup/make-backup.ts";
import { backupInChild } from "#server/backup/run-backup.ts";
import { MAY_CRASH } from "#server/crash-points.ts";
import { openSqlite } from "#server/log/sqlite.ts";
import { isBuilt } from "#server/built.mjs";
import { BACKUP_REASONS } from "#shared/kitchen/model/backup.ts";
import { writeKitchen } from "../support/kitchen-files.ts";
import { startProcess } from "../support/server-process.ts";
import { setUp } from "../support/server-kitchen.ts";

const root = fileURLToPath(new URL("../../", import.meta.url));
const FROM_SOURCE = pathToFileURL(`${root}server/backup/backup-child.mjs`);
/** As it was built, where that is current: it starts sooner. */
const run = backupInChild(isBuilt(root) ? pathToFileURL(`${root}dist/server/backup-child.js`) : FROM_SOURCE);
const NOW = Date.UTC(2026, 10, 28, 3);
const DAY = 86_400_000;

let parent: string;
let data: string;
let folder: string;
beforeEach(() => {
  parent = mkdtempSync(join(tmpdir(), "traytide-backup-"));
  data = join(parent, "data");
  folder = join(data, "backups");
});
afterEach(() => rmSync(parent, { recursive: true, force: true }));

const job = (more: Partial<BackupJob> = {}): BackupJob => ({
  dataFolder: data,
  folder: backupsFolder(data, undefined),
  reason: "by-hand",
  app: "0.0.0-test",
  nowMs: NOW,
  isFolderSure: false,
  ...more,
});
const backup = (more: Partial<BackupJob> = {}, onStep: (step: BackupStep) => void = () => {}) =>
  run(job(more), onStep).made;
const trouble = (made: Promise<unknown>): Promise<string> =>
  made.then(
    () => "made",
    (error: BackupFailure) => error.trouble,
  );

describe("B1 a backup", () => {
  test("B1 taken over and over while a server takes taps as fast as it can: each is whole, and a part of the log from its start", async () => {
    const server = await startProcess(data);
    const { token } = await server.join("Ida");
    await setUp(server, token, 40, Date.now());
    const tapping = { isOn: true };
    let taps = 0;
    const tap = async (): Promise<void> => {
      while (tapping.isOn) {
        taps += 1;
        const note = `note ${taps} ${"x".repeat(taps % 90)}`;
        const command = { type: "report-problem", commandId: `tap-${taps}`, trayId: `t${(taps % 40) + 1}` };
        const { status } = await server.command(token, { ...command, problem: "dented", count: 1, note });
        // More in a minute than one address may ask.
        if (status === 429) await new Promise((resolve) => setTimeout(resolve, 100));
        else if (status !== 200 && status !== 409) throw new Error(`a tap was answered ${status}`);
      }
    };
    const all = Promise.all(Array.from({ length: 8 }, tap));
    const made = [];
    for (let k = 0; k < 6; k += 1) made.push(await backup({ nowMs: NOW + k }));
    tapping.isOn = false;
    await all;
    await server.end("SIGTERM");
    const log = openSqlite(join(data, "kitchen.db"));
    const hashAt = log.prepare<[number], { hash: string }>("SELECT hash FROM events WHERE seq = ?");
    for (const { file, held } of made) {
      const { held: seen, faults } = examine(file);
      expect(faults).toEqual([]);
      expect(seen).toMatchObject({ events: held.events, seq: held.seq, devices: 1, name: "Tidepool Bakes" });
      // The running hash at its end is the log's own: the same events, from the first to there.
      expect(held.hash).toBe(hashAt.get(held.seq)?.hash);
    }
    const seqs = made.map(({ held }) => held.seq);
    expect(seqs).toEqual(seqs.toSorted((a, b) => a - b));
    expect(new Set(seqs).size).toBe(seqs.length);
    log.close();
  }, 60_000);

  test("B1 holds events, answers, devices and photos, and says so", async () => {
    const { seq, epoch } = await writeKitchen(data, 700);
    mkdirSync(join(data, "photos"));
    const jpeg = Buffer.from([0xff, 0xd8, 0xff, 7]);
    writeFileSync(join(data, "photos", "moon.jpg"), jpeg);
    const { file, held, bytes, sha256 } = await backupInChild(FROM_SOURCE)(job(), () => {}).made;
    expect(held).toMatchObject({ kitchenId: epoch, seq, events: seq, answers: seq, devices: 1, photos: 1 });
    expect(held).toMatchObject({ name: "Tidepool Bakes", unreadable: [] });
    expect(bytes).toBeGreaterThan(100_000);
    expect(sha256).toMatch(/^[\da-f]{64}$/);
    expect(readdirSync(folder)).toEqual([backupName(epoch, NOW, "by-hand")]);
    expect(file).toBe(join(folder, backupName(epoch, NOW, "by-hand")));
  });

  test.each([
    ["once copied", 1],
    ["before it gets its name", 2],
  ])(
    "B1 the power fails %s: no file by a backup's name, and the next one clears up",
    async (_when, count) => {
      const { epoch } = await writeKitchen(data, 300);
      writeFileSync(join(data, MAY_CRASH), "");
      process.env["TRAYTIDE_CRASH_AT"] = `in-backup:${count}`;
      const ended = await backup()
        .catch((error: BackupFailure) => error.message)
        .finally(() => delete process.env["TRAYTIDE_CRASH_AT"]);
      expect(ended).toMatch(/ended by itself \(SIGKILL\)/);
      const left = readdirSync(folder);
      expect(left).toEqual([expect.stringMatching(/\.part$/)]);
      // It is old by the time of the next one.
      for (const name of left) utimesSync(join(folder, name), NOW / 1000, NOW / 1000);
      await backup({ nowMs: NOW + DAY });
      expect(readdirSync(folder)).toEqual([backupName(epoch, NOW + DAY, "by-hand")]);
    },
  );

  test("B1 given up while the database is being copied, it leaves no file by a backup's name", async () => {
    await writeKitchen(data, 10_000);
    const child = run(job(), ({ stage }) => {
      if (stage === "copying") child.stop();
    });
    expect(await trouble(child.made)).toBe("unknown");
    expect(readdirSync(folder).filter((name) => name.endsWith(".db"))).toEqual([]);
  });

  test("B2 fourteen of each reason are kept; the one just made stays whatever the clock said before, and others' files are left alone", async () => {
    const { epoch } = await writeKitchen(data, 20);
    mkdirSync(folder);
    const own = BACKUP_REASONS.flatMap((reason) =>
      Array.from({ length: 18 }, (_, k) => backupName(epoch, NOW + (k + 1) * DAY, reason)),
    );
    const others = [
      backupName("another kitchen", NOW - 400 * DAY, "nightly"),
      `copy of ${backupName(epoch, NOW - 400 * DAY, "nightly")}`,
      "orders.db",
    ];
    for (const name of [...own, ...others]) writeFileSync(join(folder, name), "x");
    const { file } = await backup({ reason: "nightly" });
    const left = readdirSync(folder);
    expect(left).toEqual(expect.arrayContaining(others));
    expect(left.map((name) => join(folder, name))).toContain(file);
    for (const reason of BACKUP_REASONS) {
      const kept = left.filter((name) => name.endsWith(`-${reason}.db`) && own.includes(name));
      const expected = own.filter((name) => name.endsWith(`-${reason}.db`)).toSorted();
      expect(kept.toSorted()).toEqual(
        expected.slice(reason === "nightly" ? -KEPT_OF_EACH + 1 : -KEPT_OF_EACH),
      );
    }
    // Nothing more goes when it is asked again.
    await prune(folder, epoch, file, NOW);
    expect(readdirSync(folder)).toEqual(left);
  });

  test("B3 a folder that is not there, is a file, lost its backups or is full: nothing is made there, and it is said which", async () => {
    await writeKitchen(data, 20);
    const at = (path: string) => ({ folder: backupsFolder(data, path) });
    expect(await trouble(backup(at(join(parent, "unplugged"))))).toBe("folder-missing");
    expect(readdirSync(parent)).toEqual(["data"]);
    writeFileSync(join(parent, "a file"), "x");
    expect(await trouble(backup(at(join(parent, "a file"))))).toBe("folder-missing");

    const disk = join(parent, "disk");
    mkdirSync(disk);
    const { file } = await backup(at(disk));
    rmSync(file);
    expect(await trouble(backup({ ...at(disk), nowMs: NOW + 1 }))).toBe("folder-lost-backups");
    expect(readdirSync(disk)).toEqual([]);
    expect(await trouble(backup({ ...at(disk), nowMs: NOW + 2, isFolderSure: true }))).toBe("made");

    const full = async () => ({ freeBytes: 1000, bytes: 1e9 });
    const made = makeBackup(job({ nowMs: NOW + 3 }), () => {}, { spaceOf: full });
    expect(await trouble(made)).toBe("disk-full");
    expect(readdirSync(folder)).toEqual([]);
  });

  test("B1 a copy that is not whole is no backup, and those there are stay", async () => {
    const { file: source } = await writeKitchen(data, 300);
    const { file } = await backup();
    const db = openSqlite(source);
    db.exec("DROP TRIGGER events_never_change");
    db.exec(`UPDATE events SET event = replace(event, '"moon"', '"noon"') WHERE seq = 6`);
    db.close();
    const failed = await backup({ nowMs: NOW + DAY }).catch((error: BackupFailure) => error);
    expect(failed).toMatchObject({ trouble: "damaged", faults: [{ code: "altered", seq: 6 }] });
    expect(readdirSync(folder).map((name) => join(folder, name))).toEqual([file]);
  });
});
