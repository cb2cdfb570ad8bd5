import { mkdirSync, mkdtempSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterEach, beforeEach, describe, expect, test } from "vitest";
import { backupsFolder } from "#server/backup/backup-folder.ts";
import { handMade, KITCHEN } from "../support/hand-made-backups.ts";
import { startServer, type TestServer } from "../support/server-app.ts";
import { setUp } from "../support/server-kitchen.ts";
import { connect } from "../support/server-socket.ts";
import { handDriven, START_MS } from "../support/server-timers.ts";

let parent: string;
let data: string;
beforeEach(() => {
  parent = mkdtempSync(join(tmpdir(), "traytide-backups-"));
  data = join(parent, "data");
  mkdirSync(data);
});
afterEach(() => rmSync(parent, { recursive: true, force: true }));

describe("B9 a lead takes a backup", () => {
  let server: TestServer;
  afterEach(() => server.close());
  const start = (more: Parameters<typeof startServer>[0] = {}) =>
    startServer({ hands: handDriven(START_MS), ...more });
  const backupsBy = ({ run }: Pick<ReturnType<typeof handMade>, "run">) => ({
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
