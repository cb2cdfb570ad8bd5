import { cpSync, mkdtempSync, readdirSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { nanoid } from "nanoid";
import { afterEach, expect, test } from "vitest";
import { restore } from "#server/backup/restore.ts";
import { asId } from "#shared/ids.ts";
import type { JoinAnswer } from "#shared/protocol/join.ts";
import { type Balancer, openBalancer } from "../support/balancer.ts";
import { holdsBoard, openPhone, type SyncPhone } from "../support/crash/sync-phone.ts";
import { setUp } from "../support/server-kitchen.ts";
import { type ServerProcess, startProcess } from "../support/server-process.ts";

const folders: string[] = [];
const servers: ServerProcess[] = [];
const screens: SyncPhone[] = [];
let name: Balancer | undefined;
afterEach(async () => {
  for (const screen of screens.splice(0)) screen.close();
  await Promise.all(servers.splice(0).map((server) => server.end("SIGKILL")));
  name?.close();
  for (const folder of folders.splice(0)) rmSync(folder, { recursive: true, force: true });
});

const newFolder = (): string => {
  const folder = mkdtempSync(join(tmpdir(), "traytide-spare-"));
  folders.push(folder);
  return folder;
};
async function start(folder: string): Promise<ServerProcess> {
  const server = await startProcess(folder);
  servers.push(server);
  return server;
}
let ids = 0;
function screen(who: JoinAnswer): SyncPhone {
  const origin = `http://127.0.0.1:${name!.port}`;
  const opened = openPhone(origin, who, { newId: () => `spare-${(ids += 1)}`, haste: 1 });
  screens.push(opened);
  return opened;
}
const tap = (phone: SyncPhone, tray: number): void =>
  void phone.act({ type: "flooded", trayId: asId(`t${tray}`) });

/** How the data comes to the spare machine's folder, and whether screens are told of an earlier copy. */
const ways = [
  {
    way: "a copy of the data folder",
    isReplaced: false,
    carry: (from: string, to: string) => cpSync(from, to, { recursive: true }),
  },
  {
    way: "a backup",
    isReplaced: true,
    carry: (from: string, to: string) => {
      const [file = ""] = readdirSync(join(from, "backups"));
      restore(join(from, "backups", file), to, { newId: nanoid, nowMs: Date.now() });
    },
  },
];

test.each(ways)(
  "P40 a kitchen moves to another machine at its name by $way: all is there, waiting taps land once",
  async ({ carry, isReplaced }) => {
    const folder = newFolder();
    const first = await start(folder);
    name = await openBalancer(first.port);
    const ida = await first.join("Ida");
    await setUp(first, ida.token, 6, Date.now());
    const asWall = { body: { code: "TEST42", name: "Wall", as: "wall" } };
    const wall = screen((await first.call("POST", "/api/join", asWall)).json() as unknown as JoinAnswer);
    const phone = screen(ida);
    await expect.poll(() => phone.link.connection().is).toBe("live");
    tap(phone, 1);
    await expect.poll(() => wall.link.confirmed()?.kitchen.trays["t1"]?.status.stage).toBe("full-dry");

    const asLead = { token: ida.token };
    await first.call("POST", "/api/backup", asLead);
    await expect
      .poll(async () => (await first.call("GET", "/api/backup", asLead)).json(), { timeout: 15_000 })
      .toHaveProperty("last");
    await first.end("SIGKILL");
    await expect.poll(() => phone.link.connection().is).toBe("lost");
    tap(phone, 2);
    tap(phone, 3);
    expect(phone.waiting()).toBe(2);

    const other = newFolder();
    carry(folder, other);
    rmSync(folder, { recursive: true });
    const spare = await start(other);
    expect(spare.port).not.toBe(first.port);
    name.pointTo(spare.port);

    await expect.poll(() => phone.outbox.items(), { timeout: 15_000 }).toEqual([]);
    const board = async () => (await spare.call("GET", "/api/board", { token: ida.token })).json();
    for (const one of [phone, wall]) {
      await expect.poll(async () => holdsBoard(one, await board())).toBe(true);
      expect(one.link.connection().is).toBe("live");
      expect(one.link.wasReplaced()).toBe(isReplaced);
    }
    const events = (await spare.call("GET", "/api/export/events.jsonl", { token: ida.token })).text
      .trimEnd()
      .split("\n")
      .map((line) => JSON.parse(line) as { type: string; trayId?: string });
    const flooded = events.filter(({ type }) => type === "flooded").map(({ trayId }) => trayId);
    expect(flooded).toEqual(["t1", "t2", "t3"]);
  },
  60_000,
);
