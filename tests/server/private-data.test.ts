import { inLog, type Report } from "#server/words.ts";
import { chmodSync, mkdirSync, mkdtempSync, rmSync, statSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterEach, beforeEach, describe, expect, test } from "vitest";
import { openKitchenDb } from "#server/log/kitchen-db.ts";
import { sqliteValues } from "#server/log/sqlite-values.ts";
import { openLeadCode } from "#server/live/lead-code.ts";
import { openPrivateFolder } from "#server/log/private-folder.ts";

let root: string;
let umask: number;
const lines: string[] = [];
const report: Report = (say) => void lines.push(inLog(say));
const rights = (path: string): string => (statSync(path).mode & 0o777).toString(8);

beforeEach(() => {
  umask = process.umask();
  process.umask(0o022);
  root = mkdtempSync(join(tmpdir(), "traytide-test-"));
  lines.length = 0;
});
afterEach(() => {
  process.umask(umask);
  rmSync(root, { recursive: true, force: true });
});

describe("P22 the data folder", () => {
  test("is made for this account alone, and so is what is written into it", () => {
    const folder = join(root, "a/data");
    openPrivateFolder(folder, report);
    const db = openKitchenDb(join(folder, "kitchen.db"));
    expect(rights(folder)).toBe("700");
    for (const name of ["kitchen.db", "kitchen.db-wal"]) expect(rights(join(folder, name))).toBe("600");
    db.close();
    expect(lines).toEqual([]);
  });

  test("one that was open is closed, with the files in it", () => {
    const folder = join(root, "data");
    mkdirSync(folder, { mode: 0o755 });
    for (const name of ["kitchen.db", "kitchen.db-wal", "lock.db"]) writeFileSync(join(folder, name), "");
    openPrivateFolder(folder, report);
    expect(rights(folder)).toBe("700");
    for (const name of ["kitchen.db", "kitchen.db-wal", "lock.db"])
      expect(rights(join(folder, name))).toBe("600");
  });

  test("a folder of other things, or one that all accounts share, is left as it is, and that is said", () => {
    const [others, shared] = [join(root, "others"), join(root, "shared")];
    for (const folder of [others, shared]) mkdirSync(folder);
    writeFileSync(join(others, "letter.txt"), "");
    writeFileSync(join(shared, "kitchen.db"), "");
    chmodSync(shared, 0o1777);
    for (const folder of [others, shared]) openPrivateFolder(folder, report);
    expect([rights(others), rights(shared), rights(join(others, "letter.txt"))]).toEqual([
      "755",
      "777",
      "644",
    ]);
    expect(rights(join(shared, "kitchen.db"))).toBe("600");
    expect(lines.map((line) => line.includes("is open to other accounts"))).toEqual([true, true]);
  });
});

describe("P22 the lead code", () => {
  const codes = ["FIRST23456", "SECOND2345"];
  const open = (db: ReturnType<typeof openKitchenDb>, isRenewed = false) =>
    openLeadCode(sqliteValues(db), () => codes[isRenewed ? 1 : 0]!, { isRenewed });
  const stored = (db: ReturnType<typeof openKitchenDb>): string =>
    JSON.stringify(db.prepare<[], { value: string }>("SELECT value FROM meta").all());

  test("is shown once, kept only as a hash, and known by it from then on", async () => {
    const db = openKitchenDb(":memory:");
    const first = await open(db);
    expect(first.shown).toBe("FIRST23456");
    expect(stored(db)).toBe("[]");
    await first.keep();
    expect(stored(db)).not.toContain("FIRST");
    const later = await open(db);
    expect(later.shown).toBeUndefined();
    expect(await later.is("first-2345 6")).toBe(true);
    for (const wrong of ["", "FIRST23457", stored(db)]) expect(await later.is(wrong)).toBe(false);
  });

  test("is another once renewed", async () => {
    const db = openKitchenDb(":memory:");
    await (await open(db)).keep();
    const renewed = await open(db, true);
    expect(renewed.shown).toBe("SECOND2345");
    await renewed.keep();
    const later = await open(db);
    expect([await later.is("FIRST23456"), await later.is("SECOND2345")]).toEqual([false, true]);
  });

  test("S1 of servers that start at once the first to keep its own counts, and each knows of a renewed one", async () => {
    const db = openKitchenDb(":memory:");
    const [one, two] = [
      await open(db),
      await openLeadCode(sqliteValues(db), () => "OTHER23456", { isRenewed: false }),
    ];
    expect([await one.keep(), await two.keep()]).toEqual([true, false]);
    expect([await two.is("FIRST23456"), await two.is("OTHER23456")]).toEqual([true, false]);
    await (await open(db, true)).keep();
    expect([await two.is("FIRST23456"), await two.is("SECOND2345")]).toEqual([false, true]);
  });

  test("of an older kitchen goes on counting, and is no longer kept as it is", async () => {
    const db = openKitchenDb(":memory:");
    await sqliteValues(db).put({ "lead code": "OLDER23456" });
    const code = await open(db);
    expect(code.shown).toBeUndefined();
    await code.keep();
    expect(stored(db)).not.toContain("OLDER");
    expect(await (await open(db)).is("OLDER23456")).toBe(true);
  });
});
