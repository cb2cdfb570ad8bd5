import { inLog } from "#server/words.ts";
import { mkdtempSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { nanoid } from "nanoid";
import { afterEach, beforeEach, describe, expect, test } from "vitest";
import { lockFolder } from "#server/log/folder-lock.ts";
import { EMPTY_LOG_HASH, nextLogHash } from "#server/log/log-hash.ts";
import { type KitchenDb, openKitchenDb } from "#server/log/kitchen-db.ts";
import { type KitchenService, openKitchenService } from "#server/live/kitchen-service.ts";
import { replay } from "#server/live/replay.ts";
import { sqliteEventLog } from "#server/log/sqlite-event-log.ts";
import { asId } from "#shared/ids.ts";
import type { Command } from "#shared/kitchen/model/command.ts";
import type { KitchenEvent } from "#shared/kitchen/model/event.ts";
import { NO_FORECASTS } from "#shared/kitchen/model/forecast.ts";
import { busyWeeks } from "../support/server-big-log.ts";
import { setUpCommands } from "../support/server-kitchen.ts";
import { START_MS } from "../support/server-timers.ts";

let folder: string;
let file: string;
const opened: KitchenDb[] = [];

beforeEach(() => {
  folder = mkdtempSync(join(tmpdir(), "traytide-test-"));
  file = join(folder, "kitchen.db");
});
afterEach(() => {
  for (const db of opened.splice(0)) db.close();
  rmSync(folder, { recursive: true });
});

const openDb = (): KitchenDb => {
  const db = openKitchenDb(file);
  opened.push(db);
  return db;
};

interface Reopened {
  service: KitchenService;
  reports: string[];
}

async function openService(db: KitchenDb, app = "test"): Promise<Reopened> {
  const reports: string[] = [];
  const service = await openKitchenService({
    log: sqliteEventLog(db, app, nanoid),
    nowMs: () => START_MS,
    forecasts: () => NO_FORECASTS,
    lostPeople: () => new Set(),
    nextTurn: setImmediate,
    report: (say) => void reports.push(inLog(say)),
  });
  return { service, reports };
}

/** A set-up kitchen of three trays whose first is flooded, in the file. */
async function fillLog(): Promise<KitchenService> {
  const { service } = await openService(openDb());
  const lead = { by: asId<never>("ida"), role: "lead" } as const;
  const flooded = { type: "flooded", commandId: "f1", trayId: "t1" };
  for (const command of [...setUpCommands(), flooded]) await service.submit(command as Command, lead);
  return service;
}

const latestOf = (db: KitchenDb, table: "events" | "snapshots"): number =>
  db.prepare<[], { seq: number }>(`SELECT max(seq) AS seq FROM ${table}`).get()?.seq ?? 0;

function insert(db: KitchenDb, events: Iterable<KitchenEvent>): void {
  const add = db.prepare("INSERT INTO events (seq, type, event) VALUES (?, ?, ?)");
  db.transaction(() => {
    let seq = 0;
    for (const event of events) add.run(++seq, event.type, JSON.stringify(event));
  })();
}

describe("the log on disk", () => {
  test("P5 commits are synced: write-ahead log, synchronous=FULL", () => {
    const db = openDb();
    expect(db.pragma("journal_mode")).toBe("wal");
    // 2 is FULL: https://www.sqlite.org/pragma.html#pragma_synchronous
    expect(db.pragma("synchronous")).toBe(2);
  });

  test("events can be neither changed, nor removed, nor written over", async () => {
    await fillLog();
    const db = openDb();
    const before = db.prepare("SELECT * FROM events").all();
    expect(before.length).toBeGreaterThan(5);
    expect(() => db.exec("UPDATE events SET event = '{}' WHERE seq = 1")).toThrow("append-only");
    expect(() => db.exec("DELETE FROM events WHERE seq = 1")).toThrow("append-only");
    expect(() => db.exec("INSERT OR REPLACE INTO events VALUES (1, 'x', '{}', '')")).toThrow("append-only");
    expect(db.prepare("SELECT * FROM events").all()).toEqual(before);
  });

  test("the epoch is made once", () => {
    const epoch = sqliteEventLog(openDb(), "test", nanoid).epoch;
    expect(sqliteEventLog(openDb(), "test", nanoid).epoch).toBe(epoch);
  });

  test("tables of a newer Traytide, and a file that is no database, are refused in words", () => {
    openDb().pragma("user_version = 99");
    expect(() => openKitchenDb(file)).toThrow(/newer Traytide/);
    const notes = join(folder, "notes.db");
    writeFileSync(notes, "Buy butter. ".repeat(100));
    expect(() => openKitchenDb(notes)).toThrow(/Cannot open the log .*notes\.db: file is not a database/);
  });

  test("P9 one server a folder", () => {
    const unlock = lockFolder(folder);
    expect(() => lockFolder(folder)).toThrow(/Another Traytide server has the data folder .* open/);
    unlock();
    lockFolder(folder)();
  });
});

describe("a log that is damaged", () => {
  const DAMAGE: readonly [string, string, RegExp][] = [
    ["a torn last record", `{"type":"flooded","atMs":17`, /torn/],
    [
      "an event of an unknown type",
      `{"type":"tray-flown","atMs":${START_MS},"by":"kitchen","actId":"x"}`,
      /type/,
    ],
    [
      "an event with a field out of range",
      `{"type":"tray-removed","atMs":1,"by":"kitchen","actId":"x","trayId":"t2"}`,
      /atMs/,
    ],
  ];

  test.each(DAMAGE)(
    "P10 %s is set aside and named, and nothing else is lost",
    async (_what, record, reason) => {
      const kitchen = (await fillLog()).kitchen();
      const db = openDb();
      const seq = latestOf(db, "events") + 1;
      db.prepare("INSERT INTO events (seq, type, event) VALUES (?, 'flooded', ?)").run(seq, record);

      const { service, reports } = await openService(openDb());
      expect(service.kitchen()).toEqual(kitchen);
      expect(service.seq()).toBe(seq);
      expect(reports).toHaveLength(1);
      expect(reports[0]).toMatch(new RegExp(`^Event ${seq} \\(flooded\\) cannot be read and is set aside: `));
      expect(reports[0]).toMatch(reason);
      expect(db.prepare("SELECT seq, type, event FROM set_aside").all()).toEqual([
        { seq, type: "flooded", event: record },
      ]);

      const lead = { by: asId<never>("ida"), role: "lead" } as const;
      const next = await service.submit({ type: "flooded", commandId: asId("f2"), trayId: asId("t2") }, lead);
      expect(next).toMatchObject({ ok: true });
      const again = await openService(openDb());
      expect(again.service.kitchen()).toEqual(service.kitchen());
      expect(again.service.recentSince(0)).toBeUndefined();
    },
  );

  test("P10 a damaged snapshot is passed over, and the events are folded again", async () => {
    const service = await fillLog();
    await service.close();
    const db = openDb();
    db.exec("UPDATE snapshots SET kitchen = replace(kitchen, 'Moon', 'Noon')");
    const { service: again, reports } = await openService(openDb());
    expect(again.kitchen()).toEqual(service.kitchen());
    expect(reports).toEqual([
      `The snapshot at event ${service.seq()} is damaged: it is skipped, the events are not.`,
    ]);
  });

  test("P10 snapshots whose pages are damaged on disk are passed over, and the events are folded again", async () => {
    const service = await fillLog();
    await service.close();
    const db = openDb();
    const root = db
      .prepare<[], { rootpage: number }>("SELECT rootpage FROM sqlite_master WHERE name = 'snapshots'")
      .get()?.rootpage;
    const pageSize = Number(db.pragma("page_size"));
    for (const one of opened.splice(0)) one.close();
    const bytes = readFileSync(file);
    bytes.fill(0xff, (root! - 1) * pageSize, root! * pageSize);
    writeFileSync(file, bytes);

    const { service: again, reports } = await openService(openDb());
    expect(again.kitchen()).toEqual(service.kitchen());
    expect(reports).toEqual([
      "The snapshots cannot be read (database disk image is malformed): they are skipped, the events are not.",
    ]);
  });

  test("a snapshot of another build is passed over, since the state may have another shape", async () => {
    const service = await fillLog();
    await service.close();
    openDb().exec(`UPDATE snapshots SET kitchen = '{"not":"a kitchen"}'`);
    const { service: again, reports } = await openService(openDb(), "another build");
    expect(again.kitchen()).toEqual(service.kitchen());
    expect(reports).toEqual([]);
  });
});

/** The tables of a database as the first version made them. */
function backToFirstTables(db: KitchenDb): void {
  const [trigger] = db
    .prepare<[], { sql: string }>("SELECT sql FROM sqlite_master WHERE name = 'events_never_change'")
    .all();
  db.exec("DROP TRIGGER events_never_change; ALTER TABLE events DROP COLUMN hash");
  for (const column of ["device_id", "body_sha256"]) db.exec(`ALTER TABLE commands DROP COLUMN ${column}`);
  db.exec(trigger?.sql ?? "");
  db.pragma("user_version = 1");
}

/** The processor's time, which other work on the machine does not stretch; the least of three. */
async function cpuMs(act: () => Promise<void>): Promise<number> {
  const took: number[] = [];
  for (let run = 0; run < 3; run += 1) {
    const before = process.cpuUsage();
    await act();
    const { user, system } = process.cpuUsage(before);
    took.push((user + system) / 1000);
  }
  return Math.min(...took);
}

describe("a database of an earlier version", () => {
  test("P12 gets the running hash of every event, torn ones too, and stays append-only", async () => {
    const db = openDb();
    insert(db, busyWeeks(2500));
    db.prepare("INSERT INTO events (seq, type, event) VALUES (2501, 'flooded', '{\"type\":\"flo')").run();
    const rows = () => db.prepare<[], object>("SELECT seq, type, event FROM events ORDER BY seq").all();
    const before = rows();
    backToFirstTables(db);

    const again = openDb();
    expect(rows()).toEqual(before);
    const log = sqliteEventLog(again, "test", nanoid);
    const hashes = again.prepare<[], { hash: string }>("SELECT hash FROM events ORDER BY seq").all();
    let hash = EMPTY_LOG_HASH;
    for (const [k, { event }] of (before as { event: string }[]).entries()) {
      hash = nextLogHash(hash, event);
      expect(hashes[k]?.hash).toBe(hash);
    }
    expect(await log.hashAt(before.length)).toBe(hash);
    expect(() => again.exec("UPDATE events SET type = 'x'")).toThrow(/append-only/);
    expect(() => again.exec("DELETE FROM events")).toThrow(/append-only/);
    const { service } = await openService(again);
    expect(service.hash()).toBe(hash);
  });
});

describe("a long log", () => {
  test("200,000 events open in under 2 s, and to the state that all of them folded give", async () => {
    const db = openDb();
    insert(db, busyWeeks(200_000));
    const first = (await openService(openDb())).service;
    expect(first.seq()).toBe(200_000);
    await first.close();

    const startMs = performance.now();
    const again = (await openService(openDb())).service;
    const tookMs = performance.now() - startMs;
    expect(again.seq()).toBe(200_000);
    expect(again.kitchen()).toEqual(first.kitchen());
    expect(tookMs).toBeLessThan(2000);
  }, 60_000);

  test("events without a snapshot cost at most 12 times their JSON and their hash, however many trays there are", async () => {
    insert(openDb(), busyWeeks(20_000, 1000));
    const rows = openDb().prepare<[], { event: string }>("SELECT event FROM events").all();
    const floorMs = await cpuMs(async () => {
      let hash = EMPTY_LOG_HASH;
      for (const { event } of rows) {
        JSON.parse(event);
        hash = nextLogHash(hash, event);
      }
    });
    const log = sqliteEventLog(openDb(), "test", nanoid);
    const openedMs = await cpuMs(async () => {
      expect((await replay(log, () => undefined)).seq).toBe(20_000);
    });
    expect(openedMs / floorMs).toBeLessThan(12);
  });

  test("a snapshot is saved while running, every few thousand events", async () => {
    const { service } = await openService(openDb());
    const lead = { by: asId<never>("ida"), role: "lead" } as const;
    for (const command of setUpCommands()) await service.submit(command as Command, lead);
    const answers = Array.from({ length: 2100 }, (_, k) =>
      service.submit(
        {
          type: "enter-reading",
          commandId: asId(`r${k}`),
          reading: { placeId: asId("rack-a"), tempC: 22, rhPct: 40 + (k % 20), source: "typed" },
        },
        lead,
      ),
    );
    await Promise.all(answers);
    const saved = latestOf(openDb(), "snapshots");
    expect(saved).toBeGreaterThanOrEqual(2000);
    expect(saved).toBeLessThanOrEqual(service.seq());
  });
});
