import { spawn } from "node:child_process";
import { copyFileSync, mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { fileURLToPath } from "node:url";
import { afterEach, beforeEach, describe, expect, test } from "vitest";
import { writeHighWater } from "#server/log/high-water.ts";
import { openSqlite } from "#server/log/sqlite.ts";
import { writeKitchen } from "../support/kitchen-files.ts";
import { setUp } from "../support/server-kitchen.ts";
import { type ServerProcess, startProcess } from "../support/server-process.ts";

const root = fileURLToPath(new URL("../..", import.meta.url));

let parent: string;
let data: string;
let server: ServerProcess | undefined;
beforeEach(() => {
  parent = mkdtempSync(join(tmpdir(), "traytide-commands-"));
  data = join(parent, "data");
});
afterEach(async () => {
  await server?.end("SIGKILL");
  server = undefined;
  rmSync(parent, { recursive: true, force: true });
});

interface Ran {
  code: number | null;
  out: string;
  err: string;
}

/** `npm run COMMAND -- …`, as package.json runs it. */
function run(command: "backup" | "restore" | "verify", args: readonly string[] = [], env = {}): Promise<Ran> {
  const scripts = JSON.parse(readFileSync(join(root, "package.json"), "utf8")) as {
    scripts: Record<string, string>;
  };
  const [, ...script] = scripts.scripts[command]!.split(" ");
  return new Promise((resolve) => {
    const child = spawn(process.execPath, [...script, ...args], {
      cwd: root,
      env: { ...process.env, LC_ALL: "C", TRAYTIDE_DATA: data, INIT_CWD: parent, ...env },
    });
    let [out, err] = ["", ""];
    child.stdout.on("data", (chunk: Buffer) => (out += chunk.toString("utf8")));
    child.stderr.on("data", (chunk: Buffer) => (err += chunk.toString("utf8")));
    child.on("close", (code) => resolve({ code, out, err }));
  });
}

const backupsIn = (folder: string): string[] => readdirSync(folder).filter((name) => name.endsWith(".db"));

describe("the commands", () => {
  test("B1 B5 backup, verify and restore beside a running server: what was made is said, and only a stopped one is replaced", async () => {
    server = await startProcess(data);
    const { token } = await server.join("Ida");
    await setUp(server, token, 4, Date.now());
    const made = await run("backup");
    expect(made).toMatchObject({ code: 0, err: "" });
    const [, file = ""] = /^Backup made: (.*\.db)$/m.exec(made.out) ?? [];
    const { seq } = (await server.call("GET", "/api/health")).json();
    const said = made.out.replaceAll(/ +/g, " ");
    for (const line of [
      "Kitchen Tidepool Bakes",
      `Events ${String(seq)}`,
      "Trays 4 on the board",
      "Devices 1",
      "SHA-256 ",
    ])
      expect(said).toContain(line);
    expect(said).toMatch(/Newest event 20\d\d-\d\d-\d\d \d\d:\d\d:\d\d UTC\n/);
    expect((await server.call("GET", "/api/backup", { token })).json()).toMatchObject({
      count: 1,
      last: { file, reason: "by-hand" },
      holds: { events: seq, trays: 4 },
    });
    expect(await run("verify")).toMatchObject({ code: 0, out: expect.stringMatching(/is whole: its pages/) });
    expect(await run("restore", [file])).toMatchObject({
      code: 1,
      err: expect.stringMatching(/^Another Traytide server has the data folder .* open\./),
    });
    expect((await server.command(token, { type: "flooded", commandId: "f1", trayId: "t1" })).status).toBe(
      200,
    );
    await server.end("SIGTERM");
    expect(await run("restore", [file])).toMatchObject({
      code: 0,
      out: expect.stringMatching(/is now the kitchen in/),
    });
    server = await startProcess(data);
    expect((await server.call("GET", "/api/health")).json()).toMatchObject({ status: "ok", seq });
    expect((await server.call("GET", "/api/board", { token })).json()).toMatchObject({ seq });
  }, 60_000);

  test("B2 before an upgrade one backup is made, whose tables are those of before, and no more until the next", async () => {
    await writeKitchen(data, 60);
    const openedBy = (sql: string): void => {
      const db = openSqlite(join(data, "kitchen.db"));
      db.exec(sql);
      db.close();
    };
    const starts = async (): Promise<string[]> => {
      server = await startProcess(data);
      await server.end("SIGTERM");
      return backupsIn(join(data, "backups"));
    };
    openedBy(
      "ALTER TABLE commands DROP COLUMN body_sha256; ALTER TABLE commands DROP COLUMN device_id; PRAGMA user_version = 2",
    );
    const first = await starts();
    expect(first).toEqual([expect.stringMatching(/-upgrade\.db$/)]);
    const db = openSqlite(join(data, "backups", first[0]!));
    expect(db.pragma("user_version")).toBe(2);
    db.close();
    expect(await starts()).toEqual(first);
    openedBy("UPDATE meta SET value = 'a build of before' WHERE key = 'opened by'");
    expect(await starts()).toHaveLength(2);
    expect(await starts()).toHaveLength(2);
    // Of a folder that is not there: said, and the kitchen opens all the same.
    openedBy("UPDATE meta SET value = 'a build of before' WHERE key = 'opened by'");
    server = await startProcess(data, { env: { TRAYTIDE_BACKUPS: join(parent, "unplugged") } });
    expect(server.said()).toMatch(/The backups' folder .*unplugged is not there/);
    await expect
      .poll(async () => (await server!.call("GET", "/api/health")).json())
      .toMatchObject({
        seq: 60,
        problems: expect.arrayContaining([expect.stringMatching(/^No backup can be made/)]),
      });
    // And the older one can be put back, and is brought up to date as it is opened.
    await server.end("SIGTERM");
    expect((await run("restore", [join(data, "backups", first[0]!)])).code).toBe(0);
    server = await startProcess(data);
    expect((await server.call("GET", "/api/health")).json()).toMatchObject({ seq: 60 });
  }, 90_000);

  test("B10 verify names what is wrong, and salvage reads what is readable into a folder that starts", async () => {
    const { file, epoch, seq } = await writeKitchen(data, 900);
    writeHighWater(data, { epoch, seq: seq + 3 });
    const cut = await run("verify");
    expect(cut).toMatchObject({
      code: 1,
      out: expect.stringContaining(`ends at event ${seq}, though ${seq + 3} were saved`),
    });
    const db = openSqlite(file);
    db.exec("INSERT INTO snapshots (seq, app, sha256, kitchen) VALUES (5, 'test', 'wrong', '{}')");
    db.exec("DROP TRIGGER events_never_go; DELETE FROM events WHERE seq IN (300, 301)");
    db.close();
    const { out } = await run("verify");
    expect(out).toContain("The snapshot at event 5");
    expect(out).toContain("Events 300 to 301 of");
    const bytes = readFileSync(file);
    bytes.fill(0x5a, 20 * 4096, 23 * 4096);
    writeFileSync(file, bytes);
    const damaged = await run("verify");
    expect(damaged).toMatchObject({
      code: 1,
      out: expect.stringMatching(/is damaged: .*\n.*--salvage NEWFOLDER/s),
    });
    const salvaged = await run("verify", ["data", "--salvage", "new"]);
    expect(salvaged.code).toBe(0);
    expect(salvaged.out).toMatch(/Made .*new: \d+ of 903 events/);
    expect(salvaged.out).toMatch(/Left out: events \d+ to \d+, on damaged pages\./);
    expect(salvaged.out).toContain("Left out: events 901 to 903, on damaged pages.");
    expect(await run("verify", ["data", "--salvage", "new"])).toMatchObject({
      code: 1,
      err: expect.stringMatching(/holds something already/),
    });
    expect((await run("verify", ["new"])).code).toBe(0);
    server = await startProcess(join(parent, "new"));
    expect((await server.call("GET", "/api/health")).json()).toMatchObject({ status: "ok" });
  }, 60_000);

  test("B5 each says in a sentence what it cannot do, in the console's language, and how it is called", async () => {
    expect(await run("backup")).toMatchObject({
      code: 1,
      err: `There is no kitchen in ${data} to back up.\n`,
    });
    const { file } = await writeKitchen(data, 20);
    expect(await run("backup", ["unplugged"], { LC_ALL: "es" })).toMatchObject({
      code: 1,
      err: `No se encuentra la carpeta de copias ${join(parent, "unplugged")}: conecte su disco o cree la carpeta.\n`,
    });
    copyFileSync(file, join(parent, "copy.db"));
    expect(await run("restore", ["copy.db"])).toMatchObject({
      code: 1,
      err: expect.stringMatching(/but no backup/),
    });
    expect(await run("restore")).toMatchObject({
      code: 2,
      err: expect.stringMatching(/npm run restore -- FILE/),
    });
    expect(await run("verify", ["--mend"])).toMatchObject({
      code: 2,
      err: expect.stringMatching(/There is no option --mend/),
    });
    expect(await run("verify", ["a", "b"])).toMatchObject({
      code: 2,
      err: expect.stringMatching(/"b" is more/),
    });
    expect(await run("verify", ["none"])).toMatchObject({
      code: 1,
      out: expect.stringMatching(/There is no file/),
    });
  }, 60_000);
});
