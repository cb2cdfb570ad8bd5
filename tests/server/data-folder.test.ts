import { inLog } from "#server/words.ts";
import {
  chmodSync,
  copyFileSync,
  mkdtempSync,
  renameSync,
  rmSync,
  truncateSync,
  writeFileSync,
} from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterEach, beforeEach, describe, expect, test } from "vitest";
import { openingTrouble } from "#server/log/disk-trouble.ts";
import { lockFolder } from "#server/log/folder-lock.ts";
import { openSqlite } from "#server/log/sqlite.ts";
import { startServer } from "../support/server-app.ts";
import { setUp } from "../support/server-kitchen.ts";
import { runProcess, type ServerProcess, startProcess } from "../support/server-process.ts";

let parent: string;
let folder: string;
let server: ServerProcess | undefined;

beforeEach(() => {
  parent = mkdtempSync(join(tmpdir(), "traytide-test-"));
  folder = join(parent, "data");
});
afterEach(async () => {
  await server?.end("SIGKILL");
  server = undefined;
  rmSync(parent, { recursive: true, force: true });
});

async function start(): Promise<ServerProcess> {
  server = await startProcess(folder);
  return server;
}

const health = async (from: ServerProcess) => (await from.call("GET", "/api/health")).json();
const flooded = (n: number) => ({ type: "flooded", commandId: `f${n}`, trayId: `t${n}` });

/** The error an act ends with. */
function failure(act: () => unknown): unknown {
  try {
    act();
  } catch (error) {
    return error;
  }
  throw new Error("it did not fail");
}

describe("P25 a log that is lost or cut short is said", () => {
  test.each(["moved away", "replaced by another"])(
    "a data folder %s while open: nothing more is acknowledged, and health says so at once",
    async (what) => {
      const open = await start();
      const { token } = await open.join("Ida");
      await setUp(open, token, 3, Date.now());
      expect(await health(open)).toMatchObject({ status: "ok" });
      renameSync(folder, join(parent, "moved"));
      if (what === "replaced by another") {
        const other = await startProcess(folder);
        await other.end("SIGTERM");
      }
      expect(await health(open)).toMatchObject({
        status: "degraded",
        problems: [expect.stringContaining("Its data folder was deleted or replaced: put it back")],
      });
      expect((await open.command(token, flooded(1))).status).toBe(503);
      renameSync(join(parent, "moved"), join(parent, "again"));
      expect((await open.command(token, flooded(2))).status).toBe(503);
    },
    30_000,
  );

  test("an emptied database is not opened as an empty kitchen", async () => {
    const open = await start();
    await setUp(open, (await open.join("Ida")).token, 3, Date.now());
    await open.end("SIGTERM");
    const refused = /^The log in .* is empty, though it held \d+ events\. Put a copy/;
    truncateSync(join(folder, "kitchen.db"), 0);
    expect(await runProcess(folder)).toMatchObject({ code: 1, said: expect.stringMatching(refused) });
    rmSync(join(folder, "kitchen.db"));
    expect(await runProcess(folder)).toMatchObject({ code: 1, said: expect.stringMatching(refused) });
    rmSync(join(folder, "high-water.json"));
    expect(await health(await start())).toMatchObject({ status: "ok", trays: 0 });
  }, 30_000);

  test("a log shorter than it once was opens, and health and the console say what is missing", async () => {
    let open = await start();
    const { token } = await open.join("Ida");
    await setUp(open, token, 3, Date.now());
    await open.end("SIGTERM");
    copyFileSync(join(folder, "kitchen.db"), join(parent, "copy.db"));
    open = await start();
    const { seq: held } = await health(open);
    for (const n of [1, 2, 3]) expect((await open.command(token, flooded(n))).status).toBe(200);
    const { seq: known } = await health(open);
    await open.end("SIGTERM");
    copyFileSync(join(parent, "copy.db"), join(folder, "kitchen.db"));

    const missing = `The log ends at event ${Number(held)}, though ${Number(known)} were saved: the last are missing.`;
    for (let starts = 0; starts < 2; starts += 1) {
      open = await start();
      expect(open.said()).toContain(missing);
      expect(await health(open)).toMatchObject({
        status: "degraded",
        problems: [expect.stringContaining(missing)],
        seq: held,
      });
      await open.end("SIGTERM");
    }
    open = await start();
    expect((await open.command(token, { ...flooded(1), commandId: "anew" })).status).toBe(200);
    await open.end("SIGTERM");
    expect(await health(await start())).toMatchObject({ status: "ok" });
  }, 40_000);
});

const openingSaid = (error: unknown, of: string): string | undefined => {
  const say = openingTrouble(error, of);
  return say && inLog(say);
};

describe("P26 a full disk, a read-only folder and another server are told apart", () => {
  const FULL = /^The disk of the data folder \/data is full\./;
  const READ_ONLY = /^The data folder .* cannot be written\./;

  test("at the start, from what SQLite and the system say", () => {
    const file = join(parent, "test.db");
    const db = openSqlite(file);
    db.exec("CREATE TABLE line (text TEXT)");
    db.pragma(`max_page_count = ${Number(db.pragma("page_count"))}`);
    const full = failure(() => db.prepare("INSERT INTO line VALUES (?)").run("x".repeat(90_000)));
    expect(openingSaid(full, "/data")).toMatch(FULL);
    expect(openingSaid(new Error("Cannot open the log", { cause: full }), "/data")).toMatch(FULL);
    db.pragma("query_only = ON");
    expect(
      openingSaid(
        failure(() => db.exec("DELETE FROM line")),
        "/data",
      ),
    ).toMatch(READ_ONLY);
    db.close();
    expect(openingSaid(Object.assign(new Error(), { code: "ENOSPC" }), "/data")).toMatch(FULL);
    expect(openingSaid(Object.assign(new Error(), { code: "EROFS" }), "/data")).toMatch(READ_ONLY);

    const unlock = lockFolder(parent);
    expect(
      openingSaid(
        failure(() => lockFolder(parent)),
        parent,
      ),
    ).toMatch(/^Another Traytide server has the data folder .* open\./);
    unlock();
    writeFileSync(join(parent, "lock.db"), "Buy butter. ".repeat(100));
    expect(
      openingSaid(
        failure(() => lockFolder(parent)),
        parent,
      ),
    ).toBeUndefined();
  });

  test("a folder that this account may not write", async () => {
    chmodSync(parent, 0o555);
    // The superuser may write anywhere: then another account is the one that may not.
    const account = process.getuid?.() === 0 ? { uid: 65_534 } : {};
    const ended = await runProcess(folder, account);
    chmodSync(parent, 0o755);
    expect(ended).toMatchObject({ code: 1, said: expect.stringMatching(READ_ONLY) });
  }, 30_000);

  test("while running", async () => {
    const running = await startServer();
    try {
      const { token } = await running.join("Ida");
      await setUp(running, token);
      const problems = async () => (await running.call("GET", "/api/health")).json()["problems"];
      running.db.pragma("query_only = ON");
      expect((await running.command(token, flooded(1))).status).toBe(503);
      expect(await problems()).toEqual([expect.stringContaining("Its data folder cannot be written")]);
      running.db.pragma("query_only = OFF");
      running.db.pragma(`max_page_count = ${Number(running.db.pragma("page_count"))}`);
      // As many as one address may send at once.
      const icings = Array.from({ length: 250 }, (_, k) => ({
        type: "put-icing",
        commandId: `i${k}`,
        icing: { id: `i${k % 100}`, name: `Icing ${k}`, hex: "#8fc7c3" },
      }));
      const answers = await Promise.all(icings.map((icing) => running.command(token, icing)));
      expect(answers.some(({ status }) => status === 503)).toBe(true);
      expect(await problems()).toEqual([expect.stringContaining("Its disk is full")]);
    } finally {
      await running.close();
    }
  });
});
