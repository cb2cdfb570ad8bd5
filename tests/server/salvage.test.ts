import { copyFileSync, cpSync, mkdirSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { nanoid } from "nanoid";
import { afterAll, afterEach, beforeAll, beforeEach, describe, expect, test } from "vitest";
import { examine } from "#server/backup/examine.ts";
import { readHighWater } from "#server/log/high-water.ts";
import { nextLogHash } from "#server/log/log-hash.ts";
import { openKitchenDb } from "#server/log/kitchen-db.ts";
import { openSqlite } from "#server/log/sqlite.ts";
import { type Salvaged, salvage } from "#server/salvage/salvage.ts";
import { writeKitchen } from "../support/kitchen-files.ts";
import { randomFrom } from "../support/random.ts";
import { startServer } from "../support/server-app.ts";

const PAGE = 4096;
const EVENTS = 1500;
const EPOCH = "the kitchen's first";

/** Written once: a database that was salvaged is never changed by it. */
let original: string;
let pages: ReadonlyMap<number, readonly number[]>;
let originals: string[];
beforeAll(async () => {
  original = mkdtempSync(join(tmpdir(), "traytide-salvage-"));
  const { file } = await writeKitchen(original, EVENTS, EPOCH);
  addLongEvents(file);
  pages = pagesOfEvents(file);
  const db = openSqlite(file);
  originals = db
    .prepare<[], { event: string }>("SELECT event FROM events ORDER BY seq")
    .all()
    .map(({ event }) => event);
  db.close();
});
afterAll(() => rmSync(original, { recursive: true }));

let parent: string;
let file: string;
beforeEach(() => {
  parent = mkdtempSync(join(tmpdir(), "traytide-salvage-"));
  cpSync(original, join(parent, "data"), { recursive: true });
  file = join(parent, "data", "kitchen.db");
});
afterEach(() => rmSync(parent, { recursive: true, force: true }));

/** Some events run over to further pages, as designs with drawings do. */
function addLongEvents(file: string): void {
  const db = openKitchenDb(file);
  const { seq, hash } = db
    .prepare<[], { seq: number; hash: string }>("SELECT seq, hash FROM events ORDER BY seq DESC LIMIT 1")
    .get()!;
  expect(hash).not.toBe("");
  db.exec("DROP TRIGGER events_never_change");
  const read = db.prepare<[number], { event: string }>("SELECT event FROM events WHERE seq = ?");
  const write = db.prepare("UPDATE events SET event = ?, hash = ? WHERE seq = ?");
  let before = "";
  db.exec("BEGIN");
  for (let at = 1; at <= seq; at += 1) {
    const event = JSON.parse(read.get(at)!.event) as Record<string, unknown>;
    const json = JSON.stringify(at % 97 === 0 ? { ...event, note: "é".repeat(40 * at) } : event);
    before = nextLogHash(before, json);
    write.run(json, before, at);
  }
  db.exec("COMMIT");
  db.close();
}

/** On which pages each event lies, as SQLite's own `dbstat` tells: its leaf, and those it runs over to. */
function pagesOfEvents(file: string): Map<number, number[]> {
  const db = openSqlite(file);
  const rows = db
    .prepare<[], { pageno: number; path: string; pagetype: string; ncell: number }>(
      "SELECT pageno, path, pagetype, ncell FROM dbstat WHERE name = 'events' ORDER BY path",
    )
    .all();
  db.close();
  const found = new Map<number, number[]>();
  let seq = 0;
  for (const leaf of rows.filter(({ pagetype }) => pagetype === "leaf")) {
    for (let cell = 0; cell < leaf.ncell; cell += 1) {
      seq += 1;
      const over = `${leaf.path}${cell.toString(16).padStart(3, "0")}+`;
      found.set(seq, [
        leaf.pageno,
        ...rows.filter(({ path }) => path.startsWith(over)).map(({ pageno }) => pageno),
      ]);
    }
  }
  return found;
}

/** Overwrites pages with noise. */
function damage(file: string, damaged: Iterable<number>, random: () => number): void {
  const bytes = readFileSync(file);
  for (const page of damaged)
    for (let k = (page - 1) * PAGE; k < page * PAGE; k += 1) bytes[k] = Math.floor(random() * 256);
  writeFileSync(file, bytes);
}

const leftOutOf = ({ leftOut }: Salvaged): number[] =>
  leftOut.flatMap(({ fromSeq, toSeq }) => Array.from({ length: toSeq - fromSeq + 1 }, (_, k) => fromSeq + k));
const lostBy = (damaged: ReadonlySet<number>): number[] =>
  [...pages].filter(([, on]) => on.some((page) => damaged.has(page))).map(([seq]) => seq);

/** What is kept is each event that was on no damaged page, as it was, in its order; the new log is whole. */
function expectKept(into: string, lost: readonly number[], added: readonly string[] = []): void {
  const db = openSqlite(join(into, "kitchen.db"));
  const kept = db.prepare<[], { event: string }>("SELECT event FROM events ORDER BY seq").all();
  db.close();
  const isLost = new Set(lost);
  const expected = [...originals.filter((_, k) => !isLost.has(k + 1)), ...added];
  expect(kept.map(({ event }) => event)).toEqual(expected);
  expect(examine(join(into, "kitchen.db")).faults).toEqual([]);
}

describe("B7 a damaged database is read page by page into a new one", () => {
  const SEEDS = Array.from({ length: 6 }, (_, k) => k + 1);
  test.each(SEEDS)(
    "B7 seed %d: every event on whole pages is kept, the others are named, and a server starts from it",
    async (seed) => {
      const random = randomFrom(seed);
      const count = readFileSync(file).length / PAGE;
      const damaged = new Set(
        Array.from({ length: 1 + Math.floor(random() * 12) }, () => 1 + Math.floor(random() * count)),
      );
      if (seed % 3 === 0) damaged.add(1);
      damage(file, damaged, random);
      const into = join(parent, "new");
      const salvaged = salvage(file, into, nanoid)!;
      const lost = lostBy(damaged);
      expect(leftOutOf(salvaged)).toEqual(lost);
      expect(salvaged).toMatchObject({ events: originals.length - lost.length, lastSeq: originals.length });
      expectKept(into, lost);
      expect(readHighWater(into)?.seq).toBe(salvaged.events);
      const db = openKitchenDb(join(into, "kitchen.db"));
      const server = await startServer({ db });
      expect((await server.call("GET", "/api/health")).json()).toMatchObject({
        status: "ok",
        seq: salvaged.events,
      });
      await server.close();
      db.close();
    },
  );

  test("B7 answers, devices, codes and the kitchen's name for itself come along, answers by the new numbers", () => {
    // A leaf in the middle of the log.
    const [page] = pages.get(700)!;
    const lost = lostBy(new Set([page!]));
    damage(file, [page!], randomFrom(5));
    const into = join(parent, "new");
    const salvaged = salvage(file, into, nanoid)!;
    expect(leftOutOf(salvaged)).toEqual(lost);
    expect(salvaged).toMatchObject({ devices: 1, answersLeft: lost.length });
    const { held } = examine(join(into, "kitchen.db"));
    expect(held).toMatchObject({
      kitchenId: EPOCH,
      answers: originals.length - lost.length,
      devices: 1,
    });
    expect(held?.epoch).not.toBe(EPOCH);
    const db = openSqlite(join(into, "kitchen.db"));
    const answer = db.prepare<[string], { answer: string }>(
      "SELECT answer FROM commands WHERE command_id = ?",
    );
    expect(JSON.parse(answer.get("command-1500")!.answer)).toEqual({ ok: true, seq: 1500 - lost.length });
    expect(JSON.parse(answer.get(`command-${lost[0]! - 1}`)!.answer)).toEqual({
      ok: true,
      seq: lost[0]! - 1,
    });
    expect(answer.get(`command-${lost[0]!}`)).toBeUndefined();
    db.close();
  });

  test("B7 what was committed and lies in the write-ahead log only is kept", () => {
    const db = openKitchenDb(file);
    const added: string[] = [];
    const insert = db.prepare("INSERT INTO events (seq, type, event, hash) VALUES (?, ?, ?, ?)");
    let hash = db
      .prepare<[number], { hash: string }>("SELECT hash FROM events WHERE seq = ?")
      .get(EVENTS)!.hash;
    for (let seq = EVENTS + 1; seq <= EVENTS + 40; seq += 1) {
      const event = originals[seq - EVENTS + 900]!;
      hash = nextLogHash(hash, event);
      insert.run(seq, (JSON.parse(event) as { type: string }).type, event, hash);
      added.push(event);
    }
    const crashed = join(parent, "crashed");
    mkdirSync(crashed);
    for (const end of ["", "-wal"]) copyFileSync(`${file}${end}`, join(crashed, `kitchen.db${end}`));
    db.close();
    const [page] = pages.get(300)!;
    damage(join(crashed, "kitchen.db"), [1, page!], randomFrom(8));
    const into = join(parent, "new");
    const salvaged = salvage(join(crashed, "kitchen.db"), into, nanoid)!;
    expect(leftOutOf(salvaged)).toEqual(lostBy(new Set([page!])));
    expect(salvaged.lastSeq).toBe(EVENTS + 40);
    expectKept(into, lostBy(new Set([page!])), added);
  });

  test("B7 an event that was altered is left out, one whose hash was is kept", () => {
    const bytes = readFileSync(file);
    const altered = bytes.indexOf('"finding":"skinned"');
    bytes.write("firmiss", altered + 11);
    const hash = openSqlite(file);
    const { hash: of } = hash.prepare<[], { hash: string }>("SELECT hash FROM events WHERE seq = 900").get()!;
    hash.close();
    bytes.write(of.startsWith("0") ? "1" : "0", bytes.indexOf(of));
    writeFileSync(file, bytes);
    const into = join(parent, "new");
    const salvaged = salvage(file, into, nanoid)!;
    expect(salvaged.leftOut).toEqual([
      { fromSeq: expect.any(Number), toSeq: expect.any(Number), why: "altered" },
    ]);
    const [lost] = leftOutOf(salvaged);
    expect(originals[lost! - 1]).toContain('"finding":"skinned"');
    expectKept(into, [lost!]);
  });

  test("B7 events after the last that can be read are named by how far the log is known to have come", () => {
    const [page] = pages.get(EVENTS)!;
    damage(file, [page!], randomFrom(3));
    const salvaged = salvage(file, join(parent, "new"), nanoid)!;
    expect(salvaged.lastSeq).toBe(EVENTS);
    expect(leftOutOf(salvaged)).toEqual(lostBy(new Set([page!])));
  });

  test("B7 noise alone makes nothing", () => {
    damage(
      file,
      Array.from({ length: readFileSync(file).length / PAGE }, (_, k) => k + 1),
      randomFrom(2),
    );
    expect(salvage(file, join(parent, "new"), nanoid)).toBeUndefined();
  });
});
