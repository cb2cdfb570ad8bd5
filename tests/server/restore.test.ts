import { copyFileSync, mkdtempSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterEach, beforeEach, expect, test } from "vitest";
import { type KitchenDb, openKitchenDb } from "#server/log/kitchen-db.ts";
import { createLink, type Held, type Link } from "#shared/client/sync/link.ts";
import { openLive } from "#shared/client/sync/socket.ts";
import type { JoinAnswer } from "#shared/protocol/join.ts";
import { startServer, type TestServer } from "../support/server-app.ts";
import { setUp } from "../support/server-kitchen.ts";
import { handDriven, START_MS } from "../support/server-timers.ts";

const TRAYS = 40;

let folder: string;
let server: TestServer;
let db: KitchenDb;
let ida: JoinAnswer;
const phones: Link[] = [];

const file = (): string => join(folder, "kitchen.db");
const start = async (port?: number): Promise<void> => {
  db = openKitchenDb(file());
  const hands = handDriven(START_MS + 60_000);
  server = await startServer({ db, hands, ...(port !== undefined && { port }) });
};
const stop = async (): Promise<void> => {
  await server.close();
  db.close();
};

beforeEach(async () => {
  folder = mkdtempSync(join(tmpdir(), "traytide-restore-"));
  await start();
  ida = await server.join("Ida");
  await setUp(server, ida.token, TRAYS);
});
afterEach(async () => {
  for (const link of phones.splice(0)) link.close();
  await stop();
  rmSync(folder, { recursive: true });
});

/** A phone's replica over a real socket, its clock the machine's; `held` is what an earlier page kept. */
function phone(who: JoinAnswer, held?: Held): Link {
  const link = createLink({
    open: openLive(`http://127.0.0.1:${server.port}`, () => who.token),
    timer: {
      nowMs: () => Date.now(),
      after: (delayMs, run) => {
        const id = setTimeout(run, delayMs);
        return () => clearTimeout(id);
      },
    },
    onWake: () => () => undefined,
    reload: () => false,
    onChange: () => undefined,
    held,
  });
  phones.push(link);
  return link;
}

const dent = (commandId: string, tray: number): object => ({
  commandId,
  type: "report-problem",
  trayId: `t${tray}`,
  problem: "dented",
  count: 1,
  note: commandId,
});

async function send(commands: readonly object[]): Promise<void> {
  for (const command of commands) {
    const answer = await server.command(ida.token, command);
    if (answer.status !== 200) throw new Error(answer.text);
  }
}

const heardAll = (link: Link): Promise<void> =>
  expect
    .poll(() => {
      const held = link.confirmed();
      return [held?.seq, held?.hash, link.connection().is];
    })
    .toEqual([server.app.service.seq(), server.app.service.hash(), "live"]);

const traysOf = (link: Link): string => JSON.stringify(link.confirmed()?.kitchen.trays);

test("P13 a copy put back: phones that saw later events, or kept them, come to what the server holds, and say so", async () => {
  const copy = join(folder, "copy.db");
  const { port } = server;
  await send([{ commandId: "warm-up", type: "start-flooding", trayId: "t1" }]);
  await stop();
  copyFileSync(file(), copy);
  await start(port);

  const open = phone(ida);
  await heardAll(open);
  await send(Array.from({ length: 45 }, (_, k) => dent(`lost-${k}`, (k % TRAYS) + 1)));
  await heardAll(open);
  const saw = server.app.service.seq();
  const kept = open.toKeep();

  await stop();
  rmSync(`${file()}-wal`, { force: true });
  rmSync(`${file()}-shm`, { force: true });
  copyFileSync(copy, file());
  await start(port);
  // As many other events and more: a phone that goes by the number alone takes what follows.
  await send(Array.from({ length: 50 }, (_, k) => dent(`other-${k}`, TRAYS - (k % TRAYS))));
  expect(server.app.service.seq()).toBeGreaterThan(saw);
  expect(server.app.service.epoch).toBe(kept?.confirmed.epoch);

  const reloaded = phone(ida, kept);
  for (const link of [open, reloaded]) {
    await heardAll(link);
    expect(traysOf(link)).toBe(JSON.stringify(server.app.service.kitchen().trays));
    expect(link.wasReplaced()).toBe(true);
  }
  // And what happens from then on reaches them as changes.
  await send([dent("after", 1)]);
  for (const link of [open, reloaded]) {
    await heardAll(link);
    expect(traysOf(link)).toBe(JSON.stringify(server.app.service.kitchen().trays));
    link.dismissReplaced();
    expect(link.wasReplaced()).toBe(false);
  }
});

test("P13 a server started again on the same log: phones go on, and nothing is said", async () => {
  const open = phone(ida);
  await heardAll(open);
  const { port } = server;
  await stop();
  await start(port);
  await send([dent("more", 1)]);
  await heardAll(open);
  expect(open.wasReplaced()).toBe(false);
});
