import { afterEach, beforeEach, describe, expect, test } from "vitest";
import { readAll } from "#server/log/event-log.ts";
import type { ActiveAlert } from "#shared/kitchen/model/alert.ts";
import type { JoinAnswer } from "#shared/protocol/join.ts";
import { HOT_AIR } from "../support/furnishings.ts";
import { ask, emptyDatabase, type RunningPostgres, startPostgres } from "../support/postgres.ts";
import { oneOfSeveral, type OneOfSeveral } from "../support/postgres-servers.ts";
import { setUp } from "../support/server-kitchen.ts";
import { connect, type TestSocket } from "../support/server-socket.ts";

const TRAYS = 6;
/** On a machine that is busy with something else too. */
const LATE_MS = 15_000;

let url: string;
let one: OneOfSeveral;
let two: OneOfSeveral;
let ida: JoinAnswer;
let postgres: RunningPostgres | undefined;
const screens: TestSocket[] = [];

async function startBoth(at: string): Promise<void> {
  url = at;
  [one, two] = [await oneOfSeveral(url, "north"), await oneOfSeveral(url, "north")];
  ida = await one.join("Ida");
  await setUp(one, ida.token, TRAYS);
  await agree();
}
afterEach(async () => {
  for (const screen of screens.splice(0)) screen.close();
  await Promise.all([one.close(), two.close()]);
  await postgres?.stop();
  postgres = undefined;
}, 60_000);

const headOf = ({ app: { service } }: OneOfSeveral): string =>
  `${service.epoch} ${service.seq()} ${service.hash()}`;
const agree = (): Promise<void> =>
  expect.poll(() => headOf(one) === headOf(two), { timeout: LATE_MS }).toBe(true);

async function screenOn(server: OneOfSeveral, who: JoinAnswer): Promise<TestSocket> {
  const screen = await connect(server.port, who.token);
  screens.push(screen);
  screen.canAlert(true);
  screen.hello({});
  await screen.until(({ snapshots }) => snapshots.length > 0);
  return screen;
}

const dent = (k: number, trayId = `t${(k % TRAYS) + 1}`) => ({
  commandId: `dent-${k}`,
  type: "report-problem",
  trayId,
  problem: "dented",
  count: 1,
  note: `${k}`,
});

/** What the log holds, read from the database. */
async function written(): Promise<{ type: string; actId?: string }[]> {
  const events: { type: string; actId?: string }[] = [];
  for await (const { event } of readAll(one.store.log)) events.push(event);
  return events;
}

describe("two servers of one kitchen", () => {
  beforeEach(async () => startBoth(await emptyDatabase()), 60_000);

  test("S1 commands on both at once: each is kept once, none is lost, and both hold the same", async () => {
    const commands = Array.from({ length: 120 }, (_, k) => dent(k));
    const answers = await Promise.all(
      commands.map((command, k) => (k % 2 === 0 ? one : two).command(ida.token, command)),
    );
    expect(answers.map(({ status }) => status)).toEqual(commands.map(() => 200));
    const acts = (await written()).flatMap(({ type, actId = "" }) =>
      type === "problem-reported" ? [actId] : [],
    );
    expect(acts.toSorted()).toEqual(commands.map(({ commandId }) => commandId).toSorted());
    await agree();
    expect(two.app.service.kitchen()).toEqual(one.app.service.kitchen());
    // What each was told is what the log says.
    const seqs = answers.map((answer) => answer.json()["seq"]);
    expect(Math.max(...seqs.map(Number))).toBe(one.app.service.seq());
  });

  test("P1 S1 one command sent to both at once, taken or refused, is decided once", async () => {
    const refused = { commandId: "no", type: "pack", trayId: "t1" };
    for (const command of [dent(1), refused]) {
      const before = one.app.service.seq();
      const answers = await Promise.all([one, two].map((server) => server.command(ida.token, command)));
      expect(answers[0]?.text).toBe(answers[1]?.text);
      await agree();
      expect(one.app.service.seq() - before).toBe(command === refused ? 0 : 1);
    }
    const other = { ...dent(1), count: 2 };
    expect((await two.command(ida.token, other)).status).toBe(409);
  });

  test("S1 a screen on each is told what the other decided, in order and without a gap", async () => {
    const wren = await two.join("Wren");
    const [left, right] = [await screenOn(one, ida), await screenOn(two, wren)];
    for (let k = 0; k < 10; k += 1) await (k % 2 === 0 ? one : two).command(ida.token, dent(k));
    for (const screen of [left, right]) {
      await screen.until(
        ({ changes }) => changes.at(-1)?.seq === Math.max(one.app.service.seq(), two.app.service.seq()),
      );
      let [seq, hash] = [screen.snapshots[0]?.seq, screen.snapshots[0]?.hash];
      for (const change of screen.changes.filter(({ events }) => events.length > 0)) {
        expect([change.fromSeq, change.fromHash]).toEqual([seq, hash]);
        [seq, hash] = [change.seq, change.hash];
      }
      expect(screen.snapshots).toHaveLength(1);
    }
  });

  test("S1 a screen that comes over from the other server is never taken back", async () => {
    const answer = await one.command(ida.token, dent(1));
    const held = { epoch: one.app.service.epoch, seq: one.app.service.seq(), hash: one.app.service.hash() };
    expect(answer.status).toBe(200);
    const screen = await connect(two.port, ida.token);
    screens.push(screen);
    screen.hello(held);
    await screen.until(({ changes }) => changes.length > 0);
    expect(screen.changes[0]).toMatchObject({ fromSeq: held.seq, fromHash: held.hash, events: [] });
    expect(screen.snapshots).toEqual([]);
  });

  test("A1 S1 heat past its stop-by raises one alert, whichever server looks first", async () => {
    for (const command of [
      { commandId: "tool", type: "put-tool", tool: HOT_AIR },
      { commandId: "f1", type: "flooded", trayId: "t1" },
      { commandId: "heat", type: "start-heat-set", trayId: "t1", toolId: HOT_AIR.id },
    ])
      expect((await one.command(ida.token, command)).status).toBe(200);
    await agree();
    for (let k = 0; k < 22; k += 1) {
      for (const server of [one, two]) server.advance(10_000);
      await new Promise(setImmediate);
    }
    const alerts = (): ActiveAlert[] => Object.values(two.app.service.kitchen().alerts);
    await expect
      .poll(() => alerts().map(({ kind }) => kind), { timeout: LATE_MS })
      .toContain("heat-running-long");
    await agree();
    const raised = ((await written()) as { alert?: ActiveAlert }[]).flatMap(({ alert }) => alert?.key ?? []);
    expect(raised).toContain("heat-running-long:heat:0");
    expect(raised).toHaveLength(new Set(raised).size);
  });

  test("S2 who is here is the same on both, and goes with a server that is gone", async () => {
    const wren = await two.join("Wren");
    await agree();
    const [left] = [await screenOn(one, ida), await screenOn(two, wren)];
    const names = (screen: TestSocket) =>
      [...screen.snapshots, ...screen.changes]
        .flatMap(({ presence }) => presence ?? [])
        .at(-1)
        ?.devices.map(({ name, canAlert }) => `${name} ${canAlert}`)
        .toSorted();
    const told = async (what: string[]) =>
      expect
        .poll(
          () => {
            one.advance(100);
            return names(left);
          },
          { timeout: LATE_MS },
        )
        .toEqual(what);
    await told(["Ida true", "Wren true"]);
    // As one that was killed leaves it: nobody says good-bye.
    await ask(url, "CREATE RULE stays AS ON DELETE TO traytide.presence DO INSTEAD NOTHING");
    await two.close();
    await told(["Ida true"]);
  });

  test("S2 whoever was removed by one server is cut off by the other, and their token is worthless there", async () => {
    const wren = await two.join("Wren");
    await agree();
    const screen = await screenOn(two, wren);
    const answer = await one.command(ida.token, {
      commandId: "bye",
      type: "remove-people",
      personIds: [wren.personId],
    });
    expect(answer.status).toBe(200);
    await screen.until(({ socket }) => !socket.connected);
    expect((await two.call("GET", "/api/board", { token: wren.token })).status).toBe(401);
  });

  test("P13 a database that was put back under running servers: they hold what it holds, and screens are told", async () => {
    const screen = await screenOn(two, ida);
    const seq = one.app.service.seq();
    await one.command(ida.token, dent(1));
    await agree();
    await ask(
      url,
      `BEGIN; ALTER TABLE traytide.events DISABLE TRIGGER USER;
       DELETE FROM traytide.events WHERE seq > ${seq}; ALTER TABLE traytide.events ENABLE TRIGGER USER;
       UPDATE traytide.kitchens SET seq = ${seq}, hash = (SELECT hash FROM traytide.events WHERE seq = ${seq}); COMMIT`,
    );
    await screen.until(({ snapshots }) => snapshots.length > 1);
    expect(screen.snapshots.at(-1)).toMatchObject({ seq, isReplaced: true });
    await agree();
    expect((await one.command(ida.token, dent(2))).status).toBe(200);
    await agree();
  });
});

test("S3 a database that dies and comes back: it is said, alarms go out, and all goes on by itself", async () => {
  postgres = await startPostgres();
  await startBoth(postgres.url);
  const heat = [
    { commandId: "tool", type: "put-tool", tool: HOT_AIR },
    { commandId: "f1", type: "flooded", trayId: "t1" },
    { commandId: "heat", type: "start-heat-set", trayId: "t1", toolId: HOT_AIR.id },
  ];
  for (const command of heat) expect((await one.command(ida.token, command)).status).toBe(200);
  await agree();
  const screen = await screenOn(one, ida);
  const health = async () => (await one.call("GET", "/api/health")).json();
  expect(await health()).toMatchObject({ status: "ok" });

  await postgres.kill();
  await expect.poll(health, { timeout: LATE_MS }).toMatchObject({
    problems: [expect.stringMatching(/cannot save.*Its database cannot be reached/)],
  });
  expect((await one.command(ida.token, dent(1))).status).toBe(503);
  // Whoever joined comes in all the same.
  const late = await screenOn(two, ida);
  for (let k = 0; k < 22; k += 1) {
    one.advance(10_000);
    await new Promise(setImmediate);
  }
  const kinds = () => (screen.changes.at(-1)?.unsaved ?? []).map(({ kind }) => kind);
  await expect.poll(kinds, { timeout: LATE_MS }).toContain("heat-running-long");
  expect(late.snapshots).toHaveLength(1);

  await postgres.restart();
  await expect.poll(health, { timeout: LATE_MS }).toMatchObject({ status: "ok" });
  expect((await one.command(ida.token, dent(1))).status).toBe(200);
  expect((await two.command(ida.token, dent(2))).status).toBe(200);
  await agree();
  expect(one.reports.filter((line) => /can be written again/.test(line))).toHaveLength(1);
}, 60_000);
