import { mkdtempSync, readdirSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterEach, beforeEach, expect, test } from "vitest";
import { openSqlite, type Sqlite } from "#server/log/sqlite.ts";

let folder: string;
let db: Sqlite;

beforeEach(() => {
  folder = mkdtempSync(join(tmpdir(), "traytide-test-"));
  db = openSqlite(join(folder, "test.db"), 50);
  db.exec("CREATE TABLE line (id INTEGER PRIMARY KEY, text TEXT) STRICT");
});
afterEach(() => {
  db.close();
  rmSync(folder, { recursive: true });
});

const add = (id: number, text: string | null) =>
  db.prepare("INSERT INTO line (id, text) VALUES (?, ?)").run(id, text);

test("rows hold their columns and nothing else", () => {
  expect(add(1, "one")).toEqual({ changes: 1 });
  add(2, null);
  const [one, two] = [
    { id: 1, text: "one" },
    { id: 2, text: null },
  ];
  expect(db.prepare("SELECT * FROM line WHERE id = ?").get(1)).toEqual(one);
  expect(db.prepare("SELECT * FROM line WHERE id = ?").get(3)).toBeUndefined();
  expect(db.prepare("SELECT * FROM line").all()).toEqual([one, two]);
  expect(db.prepare("SELECT ? AS x").get(null)).toEqual({ x: null });
  expect(db.prepare("SELECT ? AS x").get(1_790_000_000_123)).toEqual({ x: 1_790_000_000_123 });
});

test("a closed connection writes nothing more and leaves one whole file", () => {
  db.pragma("journal_mode = WAL");
  const insert = db.prepare("INSERT INTO line (text) VALUES (?)");
  insert.run("before");
  expect(readdirSync(folder).toSorted()).toEqual(["test.db", "test.db-shm", "test.db-wal"]);
  db.close();
  expect(readdirSync(folder)).toEqual(["test.db"]);
  expect(() => insert.run("after")).toThrow("the database is closed");
  db = openSqlite(db.file, 50);
  expect(db.prepare("SELECT text FROM line").all()).toEqual([{ text: "before" }]);
});

test("pragmas answer with their value", () => {
  expect(db.pragma("journal_mode = WAL")).toBe("wal");
  expect(db.pragma("user_version = 7")).toBeUndefined();
  expect(db.pragma("user_version")).toBe(7);
});

test.each([true, undefined, {}, new Date(0)])("%j cannot be stored, and the process goes on", (value) => {
  expect(() => add(1, value as never)).toThrow(/cannot be stored in a database/);
  expect(db.prepare("SELECT * FROM line").all()).toEqual([]);
});

test("a transaction that fails leaves nothing, and the next one works", () => {
  const both = db.transaction((...ids: number[]) => ids.forEach((id) => add(id, "x")));
  expect(() => both(1, 2, 1)).toThrow(expect.objectContaining({ code: "SQLITE_CONSTRAINT_PRIMARYKEY" }));
  expect(db.prepare("SELECT * FROM line").all()).toEqual([]);
  both(1, 2);
  expect(db.prepare("SELECT count(*) AS n FROM line").get()).toEqual({ n: 2 });
});

test("a full disk is told as that, though SQLite has rolled back by itself", () => {
  const pages = Number(db.pragma("page_count"));
  db.pragma(`max_page_count = ${pages}`);
  const write = db.transaction((text: string) => add(1, text));
  expect(() => write("x".repeat(100_000))).toThrow(expect.objectContaining({ code: "SQLITE_FULL" }));
  write("short");
});

test("another's lock, a file that cannot be made and nonsense have their codes", () => {
  const other = openSqlite(db.file, 50);
  other.exec("BEGIN EXCLUSIVE");
  expect(() => add(1, "x")).toThrow(expect.objectContaining({ code: "SQLITE_BUSY" }));
  other.exec("ROLLBACK");
  other.close();
  other.close();
  expect(() => other.exec("SELECT 1")).toThrow();
  add(1, "x");
  expect(() => openSqlite(join(folder, "nowhere", "x.db"))).toThrow(
    expect.objectContaining({ code: "SQLITE_CANTOPEN" }),
  );
  expect(() => db.prepare("SELEKT")).toThrow(expect.objectContaining({ code: "SQLITE_ERROR" }));
});
