import { mkdtempSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterEach, beforeEach, describe, expect, test } from "vitest";
import { openKitchenDb } from "#server/log/kitchen-db.ts";
import { setUp } from "../support/server-kitchen.ts";
import { runProcess, type ServerProcess, startProcess } from "../support/server-process.ts";

const TRAYS = 90;
const PHONES = 6;

let folder: string;
const running: ServerProcess[] = [];

beforeEach(() => {
  folder = mkdtempSync(join(tmpdir(), "traytide-test-"));
});
afterEach(async () => {
  for (const server of running.splice(0)) await server.end("SIGKILL");
  rmSync(folder, { recursive: true, force: true });
});

async function start(...args: string[]): Promise<ServerProcess> {
  const server = await startProcess(folder, { args });
  running.push(server);
  return server;
}

interface Line {
  type: string;
  actId: string;
}

async function events(server: ServerProcess, token: string): Promise<Line[]> {
  const { text } = await server.call("GET", "/api/export/events.jsonl", { token });
  return text
    .trimEnd()
    .split("\n")
    .map((line) => JSON.parse(line) as Line);
}

describe("the server as a process", () => {
  test("P5 killed between taps, it has lost nothing it acknowledged, and what is sent again lands once", async () => {
    let server = await start();
    const lead = (await server.join("Ida")).token;
    await setUp(server, lead, TRAYS, Date.now());
    const left = Array.from({ length: TRAYS }, (_, k) => ({
      commandId: `f${k + 1}`,
      type: "flooded",
      trayId: `t${k + 1}`,
    }));
    const acknowledged = new Set<string>();

    for (const killAfter of [7, 31, 58]) {
      let isDown = false;
      const phone = async (): Promise<void> => {
        for (let tap = left.shift(); tap !== undefined; tap = left.shift()) {
          const sent = await server.command(lead, tap).catch((error: unknown) => ({ error }));
          if ("error" in sent) {
            expect(isDown).toBe(true);
            left.push(tap);
            return;
          }
          expect(sent.json()).toMatchObject({ ok: true });
          acknowledged.add(tap.commandId);
          if (acknowledged.size < killAfter || isDown) continue;
          isDown = true;
          server.child.kill("SIGKILL");
        }
      };
      await Promise.all(Array.from({ length: PHONES }, phone));
      expect(isDown).toBe(true);
      expect((await server.end("SIGKILL")).signal).toBe("SIGKILL");

      server = await start();
      const acts = (await events(server, lead))
        .filter(({ type }) => type === "flooded")
        .map(({ actId }) => actId);
      for (const id of acknowledged) expect(acts).toContain(id);
      expect(new Set(acts).size).toBe(acts.length);
    }

    for (const tap of left) expect((await server.command(lead, tap)).json()).toMatchObject({ ok: true });
    const acts = (await events(server, lead))
      .filter(({ type }) => type === "flooded")
      .map(({ actId }) => actId);
    expect(acts.toSorted()).toEqual(Array.from({ length: TRAYS }, (_, k) => `f${k + 1}`).toSorted());
  }, 120_000);

  test("P9 a second server on the same data folder is refused in words, and the first goes on", async () => {
    const server = await start();
    const second = await runProcess(folder);
    expect(second.code).toBe(1);
    expect(second.said).toMatch(/^Another Traytide server has the data folder .* open\./);
    expect((await server.call("GET", "/api/health")).status).toBe(200);
    await server.end("SIGKILL");
    await start();
  }, 60_000);

  test.each(["SIGTERM", "SIGINT"] as const)(
    "%s ends it in under 2 s, with a snapshot saved and exit code 0",
    async (signal) => {
      const server = await start();
      const { token } = await server.join("Ida");
      await setUp(server, token, 3, Date.now());
      const { seq } = (await server.call("GET", "/api/health")).json();
      const startMs = performance.now();
      const ended = await server.end(signal);
      expect(performance.now() - startMs).toBeLessThan(2000);
      expect(ended).toMatchObject({ code: 0, signal: null });
      const db = openKitchenDb(join(folder, "kitchen.db"));
      expect(db.prepare("SELECT max(seq) AS seq FROM snapshots").get()).toEqual({ seq });
      db.close();
    },
    60_000,
  );

  test("it prints its addresses, the join code and a QR code, and serves both screens", async () => {
    const server = await start();
    expect(server.said()).toMatch(/Phones\s+http:\/\/\S+\/phone\/\n/);
    expect(server.said()).toMatch(/Join code\s+TEST42\n/);
    expect(server.said()).toMatch(/▀▀▀▀▀▀▀|█▀▀▀▀▀█/);
    for (const path of ["/", "/display/", "/phone/", "/phone/t/14"]) {
      const page = await server.call("GET", path);
      expect(page.status).toBe(200);
      expect(page.text).toMatch(/^<!doctype html>/i);
    }
    expect((await server.call("GET", "/t/14")).headers["location"]).toBe("/phone/#/t/14");
    expect((await server.call("GET", "/t/0")).status).toBe(404);
    expect((await server.call("GET", "/phone")).headers["location"]).toBe("/phone/");

    const script =
      /href="(\/assets\/phone-first-[^"]+)"/.exec((await server.call("GET", "/phone/")).text)?.[1] ?? "";
    const asset = await server.call("GET", script, { headers: { "accept-encoding": "gzip" } });
    expect(asset.headers).toMatchObject({
      "cache-control": "public, max-age=31536000, immutable",
      "content-encoding": "gzip",
    });
    expect((await server.call("GET", "/phone/")).headers["cache-control"]).toBe("no-cache");
    expect((await server.call("GET", "/phone/nothing.js")).status).toBe(404);
  }, 60_000);

  test("a database whose pages are damaged is told of in words, and left as it is", async () => {
    const server = await start();
    await setUp(server, (await server.join("Ida")).token, 3, Date.now());
    await server.end("SIGTERM");
    const file = join(folder, "kitchen.db");
    const whole = readFileSync(file);
    writeFileSync(file, Buffer.concat([whole.subarray(0, 4096), Buffer.alloc(whole.length - 4096, 0xff)]));
    const ended = await runProcess(folder);
    expect(ended.code).toBe(1);
    expect(ended.said).toMatch(
      /^kitchen\.db in the data folder is damaged on disk, .* Put a copy of it back/,
    );
  }, 60_000);

  test("a busy port and a speed out of range are refused in words", async () => {
    const server = await start();
    const other = mkdtempSync(join(tmpdir(), "traytide-test-"));
    const busy = await runProcess(other, { env: { PORT: String(server.port) } });
    expect(busy).toMatchObject({ code: 1 });
    expect(busy.said).toMatch(new RegExp(`^Port ${server.port} is in use already`));
    const fast = await runProcess(other, { args: ["--practice", "--speed", "9000"] });
    expect(fast).toMatchObject({ code: 1, said: '--speed must be a number from 1 to 600: it is "9000".\n' });
    rmSync(other, { recursive: true });
  }, 60_000);
});
