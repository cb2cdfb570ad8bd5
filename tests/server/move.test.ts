import { existsSync, mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { nanoid } from "nanoid";
import { afterEach, beforeEach, describe, expect, test } from "vitest";
import { systemTimers } from "#server/live/clock.ts";
import { openDataFolder } from "#server/log/embedded-store.ts";
import { openKitchenDb } from "#server/log/kitchen-db.ts";
import type { KitchenStore } from "#server/log/store.ts";
import { moveKitchen, type Place, placeOf } from "#server/move/move.ts";
import { consoleWords, inLog, sayError } from "#server/words.ts";
import { asId, type DesignId } from "#shared/ids.ts";
import { ask, emptyDatabase } from "../support/postgres.ts";
import { openKitchen } from "../support/postgres-servers.ts";
import { startServer } from "../support/server-app.ts";
import { setUp } from "../support/server-kitchen.ts";

const MOON = asId<DesignId>("moon");
const JPEG = Buffer.from([0xff, 0xd8, 0xff, 1, 2, 3]);

let parent: string;
let url: string;
let token: string;
const said: string[] = [];

const folder = (name: string): Place => placeOf(join(parent, name));
const database = (kitchen = "north"): Place => placeOf(url, kitchen);
const move = (from: Place, to: Place) => moveKitchen(from, to, (say) => void said.push(inLog(say)));
const openFolder = (name: string): Promise<KitchenStore> =>
  openDataFolder(join(parent, name), {
    app: "test",
    newId: nanoid,
    timers: systemTimers,
    report: (say) => void said.push(inLog(say)),
  });

/** A kitchen in which things happened and were refused, one device was forgotten, and a design has a photo. */
beforeEach(async () => {
  parent = mkdtempSync(join(tmpdir(), "traytide-move-"));
  url = await emptyDatabase();
  const store = await openFolder("one");
  const server = await startServer({ store });
  ({ token } = await server.join("Ida"));
  const left = await server.join("Kip");
  await setUp(server, token, 8);
  for (let k = 1; k < 8; k += 1)
    await server.command(token, { commandId: `f${k}`, type: "flooded", trayId: `t${k}` });
  await server.command(token, { commandId: "no", type: "pack", trayId: "t1" });
  await server.call("POST", "/api/forget", { token, body: { deviceId: left.deviceId } });
  await store.photos.put(MOON, JPEG);
  await store.values.put({ "join code": "TIDE42" });
  await server.close();
  await store.close();
}, 60_000);
afterEach(() => rmSync(parent, { recursive: true, force: true }));

/** All of a kitchen that anybody could ask for. */
async function contents(store: KitchenStore): Promise<object> {
  try {
    const seq = await store.log.latestSeq();
    return {
      epoch: store.log.epoch,
      page: await store.log.since(0, seq + 1),
      answers: [...(await store.log.answers(["f1", "no", "setup-3"]))],
      device: await store.devices.byToken(token),
      devices: await store.devices.list(),
      code: await store.values.get("join code"),
      photo: (await store.photos.get(MOON))?.toString("hex"),
    };
  } finally {
    await store.close();
  }
}

/** What whoever moves a kitchen is told, in English; in Spanish it is something else. */
async function told(act: () => Promise<unknown>): Promise<string> {
  try {
    await act();
  } catch (error) {
    const [english = "", spanish = ""] = ["en", "es"].map((LANG) => sayError(error)(consoleWords({ LANG })));
    expect(spanish).not.toBe(english);
    return english;
  }
  throw new Error("it did not fail");
}

test("S5 a kitchen goes into PostgreSQL and back, and is the same by all its hashes", async () => {
  const before = await contents(await openFolder("one"));
  const there = await move(folder("one"), database());
  expect(await contents(await openKitchen(url, "north"))).toEqual(before);
  const back = await move(database(), folder("two"));
  expect(back).toEqual(there);
  expect(await contents(await openFolder("two"))).toEqual(before);
  expect(await contents(await openFolder("one"))).toEqual(before);
  expect(readdirSync(join(parent, "two")).filter((name) => name.startsWith("moving"))).toEqual([]);
  // A phone that joined before goes on with its token, and the next command lands.
  const store = await openKitchen(url, "north");
  const server = await startServer({ store });
  expect((await server.command(token, { commandId: "f8", type: "flooded", trayId: "t8" })).status).toBe(200);
  expect(
    (await server.command(token, { commandId: "f1", type: "flooded", trayId: "t1" })).json(),
  ).toMatchObject({
    ok: true,
  });
  await server.close();
  await store.close();
});

test("S5 a kitchen that servers have open in PostgreSQL can be copied as it stands, and not moved", async () => {
  await move(folder("one"), database());
  const store = await openKitchen(url, "north");
  const server = await startServer({ store });
  expect(await told(() => move(database(), folder("two")))).toMatch(/^A server has PostgreSQL .* open/);
  expect(existsSync(join(parent, "two"))).toBe(false);
  const copied = await moveKitchen(database(), folder("two"), () => undefined, { mayBeOpen: true });
  expect(copied.seq).toBe(server.app.service.seq());
  await server.close();
  await store.close();
});

describe("S5 what cannot be moved is said, and nothing is changed", () => {
  test("a kitchen is there already", async () => {
    await move(folder("one"), database());
    const two = await openFolder("two");
    await two.log.append([{ commandId: "c", answer: { ok: true, seq: 0 }, events: [] }], 0);
    await two.devices.add(
      { deviceId: "d", kind: "phone", personId: asId("p"), mayLead: true, seenMs: 1 },
      "another token",
    );
    const before = await contents(two);
    expect(await told(() => move(folder("one"), database()))).toMatch(/holds a kitchen already/);
    expect(await told(() => move(database(), folder("two")))).toMatch(/two holds a kitchen already/);
    expect(await contents(await openFolder("two"))).toEqual(before);
    expect(await told(() => move(folder("one"), folder("one")))).toMatch(/the same place/);
    // Another name in the same database is another kitchen.
    await move(folder("one"), database("south"));
  });

  test("there is none, or a server has it open", async () => {
    expect(await told(() => move(folder("nowhere"), database()))).toMatch(/There is no kitchen in .*nowhere/);
    expect(existsSync(join(parent, "nowhere"))).toBe(false);
    expect(await told(() => move(database("south"), folder("two")))).toMatch(
      /There is no kitchen in .*south/,
    );
    const open = await openFolder("one");
    expect(await told(() => move(folder("one"), database()))).toMatch(
      /Another Traytide server has the data folder/,
    );
    await open.close();
  });

  test.each([
    [
      "an event that is not as it was written",
      "UPDATE events SET event = event || ' ' WHERE seq = 5",
      /event 5 is missing, or not as/,
    ],
    ["an event that is missing", "DELETE FROM events WHERE seq = 7", /event 7 is missing/],
    ["a database of a newer version", "PRAGMA user_version = 99", /newer Traytide/],
  ])("%s", async (_what, sql, expected) => {
    const db = openKitchenDb(join(parent, "one/kitchen.db"));
    db.exec("DROP TRIGGER events_never_change; DROP TRIGGER events_never_go");
    db.exec(sql);
    db.close();
    expect(await told(() => move(folder("one"), database()))).toMatch(expected);
    expect(await told(() => move(folder("one"), folder("two")))).toMatch(expected);
    expect(existsSync(join(parent, "two"))).toBe(false);
    const found = await ask<{ n: string }>(url, "SELECT to_regclass('traytide.kitchens')::text AS n");
    if (found[0]?.n !== null) expect(await ask(url, "SELECT kitchen FROM traytide.kitchens")).toEqual([]);
  });

  test("a database that is damaged on disk", async () => {
    const file = join(parent, "one/kitchen.db");
    const bytes = readFileSync(file);
    bytes.fill(0x5a, 4096, bytes.length - 4096);
    writeFileSync(file, bytes);
    expect(await told(() => move(folder("one"), database()))).toMatch(
      /damaged|malformed|Cannot open the log/,
    );
    expect(existsSync(join(parent, "two"))).toBe(false);
  });
});
