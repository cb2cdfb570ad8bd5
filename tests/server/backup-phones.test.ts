import { mkdirSync, mkdtempSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { nanoid } from "nanoid";
import { afterEach, beforeEach, describe, expect, test } from "vitest";
import { backupsFolder } from "#server/backup/backup-folder.ts";
import { makeBackup } from "#server/backup/make-backup.ts";
import { restore } from "#server/backup/restore.ts";
import { openKitchenDb } from "#server/log/kitchen-db.ts";
import { asId } from "#shared/ids.ts";
import type { JoinAnswer } from "#shared/protocol/join.ts";
import { openPhone } from "../support/crash/sync-phone.ts";
import { startServer, type TestServer } from "../support/server-app.ts";
import { setUp } from "../support/server-kitchen.ts";
import { handDriven, START_MS } from "../support/server-timers.ts";

let parent: string;
let data: string;
beforeEach(() => {
  parent = mkdtempSync(join(tmpdir(), "traytide-restore-"));
  data = join(parent, "data");
});
afterEach(() => rmSync(parent, { recursive: true, force: true }));

describe("B6 after a backup was put back", () => {
  let server: TestServer;
  const phones: (() => void)[] = [];
  afterEach(() => {
    for (const close of phones.splice(0)) close();
  });

  const start = async (port?: number) => {
    const db = openKitchenDb(join(data, "kitchen.db"));
    const hands = handDriven(START_MS + 60_000);
    server = await startServer({ db, hands, ...(port !== undefined && { port }) });
  };
  const stop = async (): Promise<void> => {
    await server.close();
    server.db.close();
  };

  /** A phone with an outbox, over a real socket; what waits in it outlives the server. */
  function phone(who: JoinAnswer) {
    const opened = openPhone(`http://127.0.0.1:${server.port}`, who, { newId: nanoid, haste: 1 });
    phones.push(opened.close);
    return opened;
  }

  test("B6 phones take the whole board, and a tap that waited meanwhile lands once, as does one whose event the backup lacks", async () => {
    mkdirSync(data);
    await start();
    const { port } = server;
    const ida = await server.join("Ida");
    await setUp(server, ida.token, 5);
    await stop();
    const folder = backupsFolder(data, undefined);
    const more = { reason: "by-hand", app: "test", nowMs: START_MS, isFolderSure: false } as const;
    const { file } = await makeBackup({ dataFolder: data, folder, ...more });
    await start(port);
    const { link, outbox } = phone(ida);
    await expect.poll(() => link.connection().is).toBe("live");
    const dent = (id: string, tray: number) => ({
      commandId: asId<never>(id),
      type: "report-problem" as const,
      trayId: asId<never>(`t${tray}`),
      problem: "dented" as const,
      count: 1,
    });
    // Acknowledged and heard, by another device: gone with the copy, and the board says so.
    expect((await server.command(ida.token, dent("gone", 1))).status).toBe(200);
    await expect.poll(() => link.confirmed()?.seq).toBe(server.app.service.seq());
    await stop();
    outbox.add(dent("waits", 2));
    outbox.add(dent("waits-too", 3));
    restore(file, data, { newId: nanoid, nowMs: START_MS });
    await start(port);
    await expect
      .poll(() => [link.confirmed()?.epoch, link.connection().is])
      .toEqual([server.app.service.epoch, "live"]);
    await expect.poll(() => outbox.items()).toEqual([]);
    const { trays } = server.app.service.kitchen();
    expect(["t1", "t2", "t3"].map((id) => trays[id]?.problems.length)).toEqual([0, 1, 1]);
    await expect.poll(() => link.confirmed()?.hash).toBe(server.app.service.hash());
    expect(link.confirmed()?.kitchen.trays).toEqual(JSON.parse(JSON.stringify(trays)));
    expect(link.wasReplaced()).toBe(true);
    await stop();
  }, 30_000);
});
