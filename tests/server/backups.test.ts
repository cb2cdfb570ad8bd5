import { mkdirSync, mkdtempSync, rmSync, statfsSync, utimesSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterEach, beforeEach, describe, expect, test } from "vitest";
import { backupName, backupsFolder } from "#server/backup/backup-folder.ts";
import { createBackups, type Backups } from "#server/backup/backups.ts";
import { isLow } from "#server/backup/disk-low.ts";
import { writeLastBackup } from "#server/backup/last-backup.ts";
import { latestNightMs, nextNightMs } from "#server/backup/nightly.ts";
import { inLog } from "#server/words.ts";
import type { ServerProblem } from "#shared/kitchen/model/server-problem.ts";
import { handMade, KITCHEN } from "../support/hand-made-backups.ts";
import { handDriven } from "../support/server-timers.ts";

const HOUR = 3_600_000;
const MIN = 60_000;
const LISBON = "Europe/Lisbon";

let parent: string;
let data: string;
beforeEach(() => {
  parent = mkdtempSync(join(tmpdir(), "traytide-backups-"));
  data = join(parent, "data");
  mkdirSync(data);
});
afterEach(() => rmSync(parent, { recursive: true, force: true }));

interface Rig extends ReturnType<typeof handMade> {
  backups: Backups;
  pass: (ms: number) => Promise<void>;
  reports: string[];
}
const rigs: Backups[] = [];
afterEach(() => rigs.splice(0).forEach(({ stop }) => stop()));

/** A kitchen that began at `firstMs`, now at `nowMs`. */
async function kitchen(nowMs: number, firstMs: number | undefined, chosen?: string): Promise<Rig> {
  const made = handMade();
  const hands = handDriven(nowMs);
  const reports: string[] = [];
  const backups = createBackups({
    dataFolder: data,
    folder: backupsFolder(data, chosen),
    kitchenId: KITCHEN,
    app: "test",
    run: made.run,
    ...hands,
    timeZone: () => LISBON,
    firstMs: async () => firstMs,
    report: (say) => void reports.push(inLog(say)),
  });
  rigs.push(backups);
  await backups.idle();
  const pass = async (ms: number): Promise<void> => {
    // As many looks as there are minutes would take long: what happens in one is the same in each.
    for (let gone = 0; gone < ms; gone += Math.min(ms, 10 * MIN)) {
      hands.advance(Math.min(10 * MIN, ms - gone));
      await backups.idle();
    }
  };
  return { ...made, backups, pass, reports };
}

const reasons = ({ jobs }: Rig): string[] => jobs.map(({ reason }) => reason);
const codes = (problems: readonly ServerProblem[]): string[] =>
  problems.map(({ code }) => code).filter((code) => code !== "disk-low");

describe("B2 a kitchen backs itself up", () => {
  // Lisbon is an hour ahead of UTC in May.
  const evening = Date.UTC(2026, 4, 7, 19);
  const three = Date.UTC(2026, 4, 8, 2);

  test("B2 each night at three by its own clock, once", async () => {
    const rig = await kitchen(evening, evening - 8 * HOUR);
    await rig.pass(three - evening - MIN);
    expect(rig.jobs).toEqual([]);
    await rig.pass(20 * MIN);
    expect(rig.jobs).toMatchObject([{ reason: "nightly", isFolderSure: false }]);
    expect(rig.jobs[0]!.nowMs).toBeGreaterThanOrEqual(three);
    await rig.pass(23 * HOUR);
    expect(reasons(rig)).toEqual(["nightly"]);
    await rig.pass(2 * HOUR);
    expect(reasons(rig)).toEqual(["nightly", "nightly"]);
    expect(codes(rig.backups.problems())).toEqual([]);
  });

  test("B2 at the first chance where the server was off at night, but not on the day it began", async () => {
    const morning = Date.UTC(2026, 4, 8, 7);
    const began = await kitchen(morning, morning - HOUR);
    await began.pass(5 * HOUR);
    expect(began.jobs).toEqual([]);
    const missed = await kitchen(morning, morning - 30 * HOUR);
    expect(missed.jobs).toEqual([]);
    await missed.pass(2 * MIN);
    expect(reasons(missed)).toEqual(["nightly"]);
    const empty = await kitchen(morning, undefined);
    await empty.pass(48 * HOUR);
    expect(empty.jobs).toEqual([]);
  });

  test("B2 three o'clock is found where the clocks change, by a kitchen's time zone", () => {
    for (const [nowMs, zone, expected] of [
      // The night of 29 March 2026: 01:00 becomes 02:00 in Lisbon.
      [Date.UTC(2026, 2, 29, 12), LISBON, Date.UTC(2026, 2, 29, 2)],
      [Date.UTC(2026, 2, 29, 1, 59), LISBON, Date.UTC(2026, 2, 28, 3)],
      // The night of 25 October 2026: 02:00 becomes 01:00.
      [Date.UTC(2026, 9, 25, 3), LISBON, Date.UTC(2026, 9, 25, 3)],
      [Date.UTC(2026, 9, 25, 2, 59), LISBON, Date.UTC(2026, 9, 24, 2)],
      [Date.UTC(2026, 6, 1, 9), "America/Denver", Date.UTC(2026, 6, 1, 9)],
      [Date.UTC(2026, 6, 1, 8, 59), "America/Denver", Date.UTC(2026, 5, 30, 9)],
    ] as const) {
      expect(latestNightMs(nowMs, zone)).toBe(expected);
      expect(nextNightMs(expected - 1, zone)).toBe(expected);
      expect(nextNightMs(nowMs, zone)).toBeGreaterThan(nowMs);
      expect(nextNightMs(nowMs, zone) - nowMs).toBeLessThanOrEqual(25 * HOUR);
    }
  });

  test("B3 a failure is said once and tried again, and said no more once one was made", async () => {
    const rig = await kitchen(three - 5 * MIN, evening - 30 * HOUR);
    rig.fail("disk-full");
    await rig.pass(62 * MIN);
    expect(rig.jobs.length).toBeGreaterThan(3);
    expect(rig.reports).toHaveLength(1);
    expect(codes(rig.backups.problems())).toContain("backup-failed");
    expect(rig.backups.problems()).toContainEqual({ code: "backup-failed", why: "disk-full" });
    rig.fail(undefined);
    await rig.pass(20 * MIN);
    expect(codes(rig.backups.problems())).toEqual([]);
    expect(await rig.backups.status()).toMatchObject({ last: { reason: "nightly" }, count: 1 });
  });

  test("B3 a chosen folder that is not there is said at once, and its disk that comes back is used", async () => {
    const disk = join(parent, "disk");
    const rig = await kitchen(three - 5 * MIN, evening - 30 * HOUR, disk);
    expect(rig.backups.problems()).toContainEqual({ code: "backup-failed", why: "folder-missing" });
    mkdirSync(disk);
    await rig.pass(30 * MIN);
    expect(codes(rig.backups.problems())).toEqual([]);
    // Unplugged, with an empty folder in its place.
    rmSync(disk, { recursive: true });
    mkdirSync(disk);
    await rig.pass(MIN);
    expect(rig.backups.problems()).toContainEqual({ code: "backup-failed", why: "folder-lost-backups" });
  });
});

describe("B8 backups that are old and disks that are nearly full are said", () => {
  const now = Date.UTC(2026, 4, 8, 12);
  const old = ({ backups }: Rig) => backups.problems().filter(({ code }) => code === "backup-old");

  test("B8 from 36 h after the last good one; a kitchen younger than that needs none", async () => {
    const young = await kitchen(now, now - 35 * HOUR);
    young.fail("unknown");
    expect(old(young)).toEqual([]);
    await young.pass(50 * MIN);
    expect(old(young)).toEqual([]);
    await young.pass(20 * MIN);
    expect(old(young)).toEqual([{ code: "backup-old", hours: null }]);

    const name = backupName(KITCHEN, now - 35 * HOUR, "nightly");
    mkdirSync(join(data, "backups"), { recursive: true });
    writeFileSync(join(data, "backups", name), "x");
    const aged = await kitchen(now, now - 900 * HOUR);
    aged.fail("read-only");
    expect(old(aged)).toEqual([]);
    await aged.pass(61 * MIN);
    expect(old(aged)).toEqual([{ code: "backup-old", hours: 36 }]);
    aged.fail(undefined);
    await aged.pass(10 * MIN);
    expect(old(aged)).toEqual([]);
  });

  test("B8 one that a wrong clock dated ahead counts for nothing, nor does another kitchen's, nor a copy that was not finished", async () => {
    const folder = join(data, "backups");
    mkdirSync(folder);
    for (const name of [
      backupName(KITCHEN, now + 9 * HOUR, "nightly"),
      backupName("another", now - HOUR, "nightly"),
      `${backupName(KITCHEN, now - HOUR, "nightly")}.77.part`,
    ]) {
      writeFileSync(join(folder, name), "x");
      utimesSync(join(folder, name), now / 1000, now / 1000);
    }
    const rig = await kitchen(now, now - 40 * HOUR);
    expect(old(rig)).toEqual([{ code: "backup-old", hours: null }]);
  });

  test("B8 a disk is nearly full with less than 500 MB free, or less than a twentieth of a small one", () => {
    const [MB, GB] = [1e6, 1e9];
    const cases: [number, number, boolean][] = [
      [499 * MB, 100 * GB, true],
      [501 * MB, 100 * GB, false],
      [199 * MB, 4 * GB, true],
      [201 * MB, 4 * GB, false],
    ];
    for (const [freeBytes, bytes, is] of cases) expect(isLow({ freeBytes, bytes })).toBe(is);
    expect(isLow({ freeBytes: 900 * MB, bytes: 100 * GB }, 1000 * MB)).toBe(true);
  });

  test("B8 the backups' disk is nearly full where the next two would not fit", async () => {
    const { bavail, bsize } = statfsSync(data);
    const file = join(data, "backups", backupName(KITCHEN, now - HOUR, "nightly"));
    const last = {
      kitchenId: KITCHEN,
      file,
      bytes: bavail * bsize,
      madeAtMs: now - HOUR,
      reason: "nightly",
    } as const;
    mkdirSync(join(data, "backups"));
    writeFileSync(file, "x");
    writeLastBackup(data, { ...last, events: 1, trays: 1 });
    const rig = await kitchen(now, now - 40 * HOUR);
    expect(rig.backups.problems()).toMatchObject([{ code: "disk-low", disk: "data" }]);
  });
});
