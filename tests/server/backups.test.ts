import { mkdirSync, mkdtempSync, rmSync, statfsSync, utimesSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterEach, beforeEach, describe, expect, test } from "vitest";
import { backupName, backupsFolder } from "#server/backup/backup-folder.ts";
import { createBackups, type Backups } from "#server/backup/backups.ts";
import { isLow } from "#server/backup/disk-low.ts";
import type { Held } from "#server/backup/examine.ts";
import { writeLastBackup } from "#server/backup/last-backup.ts";
import { BackupFailure, type BackupJob, type Made } from "#server/backup/make-backup.ts";
import { latestNightMs, nextNightMs } from "#server/backup/nightly.ts";
import type { RunBackup } from "#server/backup/run-backup.ts";
import { inLog } from "#server/words.ts";
import type { BackupTrouble, ServerProblem } from "#shared/kitchen/model/server-problem.ts";
import { startServer, type TestServer } from "../support/server-app.ts";
import { setUp } from "../support/server-kitchen.ts";
import { connect } from "../support/server-socket.ts";
import { handDriven, START_MS } from "../support/server-timers.ts";

const HOUR = 3_600_000;
const MIN = 60_000;
const LISBON = "Europe/Lisbon";
const KITCHEN = "the kitchen";

let parent: string;
let data: string;
beforeEach(() => {
  parent = mkdtempSync(join(tmpdir(), "traytide-backups-"));
  data = join(parent, "data");
  mkdirSync(data);
});
afterEach(() => rmSync(parent, { recursive: true, force: true }));

/** Makes backups that hold nothing, at once or when told, or fails as it is told. */
function handMade() {
  const jobs: BackupJob[] = [];
  let trouble: BackupTrouble | undefined;
  let wait: Promise<void> = Promise.resolve();
  const run: RunBackup = (job, onStep) => {
    jobs.push(job);
    const file = join(job.folder.path, backupName(KITCHEN, job.nowMs, job.reason));
    onStep({ stage: "checking", done: 25, of: 100 });
    const make = async (): Promise<Made> => {
      await wait;
      if (trouble !== undefined) throw new BackupFailure(trouble, "as the test asked");
      writeFileSync(file, "x".repeat(4000));
      const kept = { file, bytes: 4000, madeAtMs: job.nowMs, reason: job.reason };
      writeLastBackup(job.dataFolder, { ...kept, kitchenId: KITCHEN, events: 40, trays: 3 });
      return { ...kept, sha256: "", held: {} as Held };
    };
    return { made: make(), stop: () => undefined };
  };
  return {
    run,
    jobs,
    fail: (why: BackupTrouble | undefined) => (trouble = why),
    hold: (until: Promise<void>) => (wait = until),
  };
}

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

describe("B9 a lead takes a backup", () => {
  let server: TestServer;
  afterEach(() => server.close());
  const start = (more: Parameters<typeof startServer>[0] = {}) =>
    startServer({ hands: handDriven(START_MS), ...more });
  const backupsBy = ({ run }: Pick<Rig, "run">) => ({
    dataFolder: data,
    folder: backupsFolder(data, undefined),
    kitchenId: KITCHEN,
    run,
  });

  test("B9 sees the last one and how one is going, takes one at a time, and few in a minute; nobody else may", async () => {
    const made = handMade();
    server = await start({ backups: backupsBy(made) });
    const ida = await server.join("Ida");
    await setUp(server, ida.token);
    const wren = await server.join("Wren");
    const asked = (token?: string) => server.call("GET", "/api/backup", token === undefined ? {} : { token });
    const take = (token: string) => server.call("POST", "/api/backup", { token, body: {} });
    expect((await asked()).status).toBe(401);
    expect((await asked(wren.token)).status).toBe(403);
    expect((await take(wren.token)).status).toBe(403);
    expect((await asked(ida.token)).json()).toMatchObject({ is: "kept", count: 0, isOnDataDisk: true });
    expect(made.jobs).toEqual([]);

    let letGo = (): void => undefined;
    made.hold(new Promise((resolve) => (letGo = resolve)));
    expect((await take(ida.token)).json()).toMatchObject({ running: { stage: "checking", part: 0.25 } });
    expect((await take(ida.token)).json()).toMatchObject({
      reason: "busy",
      message: expect.stringMatching(/already/),
    });
    expect(made.jobs).toMatchObject([{ reason: "by-hand" }]);
    letGo();
    await expect
      .poll(async () => (await asked(ida.token)).json())
      .toMatchObject({ count: 1, holds: { events: 40, trays: 3 }, last: { reason: "by-hand", bytes: 4000 } });
    const statuses = [];
    for (let k = 0; k < 6; k += 1) statuses.push((await take(ida.token)).status);
    expect(statuses.at(-1)).toBe(429);
  });

  test("B9 why none could be made is said to health and to leads' phones, over the same heartbeat", async () => {
    const made = handMade();
    made.fail("read-only");
    server = await start({ backups: backupsBy(made) });
    const ida = await server.join("Ida");
    await setUp(server, ida.token);
    await server.call("POST", "/api/backup", { token: ida.token, body: {} });
    await expect
      .poll(async () => (await server.call("GET", "/api/health")).json())
      .toMatchObject({ status: "degraded", problems: [expect.stringContaining("cannot be written")] });
    const screen = await connect(server.port, ida.token);
    const beat = setInterval(() => server.advance(1000), 50);
    await screen.until(({ changes }) => changes.at(-1)?.problems?.[0]?.code === "backup-failed");
    clearInterval(beat);
    screen.close();
  });

  test("B9 a practice kitchen makes none, and says so", async () => {
    server = await start({ isPractice: true });
    const { token } = await server.join("Ida");
    expect((await server.call("GET", "/api/backup", { token })).json()).toEqual({
      is: "none",
      why: "practice",
    });
    const refused = await server.call("POST", "/api/backup", { token, body: {} });
    expect(refused.status).toBe(404);
    expect(refused.text).toContain("thrown away");
  });
});
