import { afterEach, beforeEach, describe, expect, test } from "vitest";
import { evolve } from "#shared/kitchen/events/evolve.ts";
import type { ActiveAlert } from "#shared/kitchen/model/alert.ts";
import type { JoinAnswer } from "#shared/protocol/join.ts";
import { PROTOCOL_VERSION } from "#shared/protocol/version.ts";
import { HOT_AIR } from "../support/furnishings.ts";
import { startServer, type TestServer } from "../support/server-app.ts";
import { setUp } from "../support/server-kitchen.ts";
import { connect, type TestSocket } from "../support/server-socket.ts";
import { handDriven, START_MS } from "../support/server-timers.ts";

let server: TestServer;
let ida: JoinAnswer;
let wren: JoinAnswer;
const screens: TestSocket[] = [];

beforeEach(async () => {
  server = await startServer();
  ida = await server.join("Ida");
  wren = await server.join("Wren");
  await setUp(server, ida.token, 60);
});
afterEach(async () => {
  for (const screen of screens.splice(0)) screen.close();
  await server.close();
});

const screenOf = async ({ token }: JoinAnswer): Promise<TestSocket> => {
  const screen = await connect(server.port, token);
  screens.push(screen);
  return screen;
};

/** A screen that has been sent the board. */
async function readyScreen(who: JoinAnswer): Promise<TestSocket> {
  const screen = await screenOf(who);
  screen.canAlert(true);
  screen.hello({});
  await screen.until(({ snapshots }) => snapshots.length > 0);
  return screen;
}

const flooded = (tray: number, commandId = `f${tray}`) => ({
  commandId,
  type: "flooded",
  trayId: `t${tray}`,
});
const withEvents = ({ changes }: TestSocket) => changes.filter(({ events }) => events.length > 0);

describe("what a screen is sent", () => {
  test("the whole board after its hello", async () => {
    const screen = await readyScreen(wren);
    expect(screen.snapshots[0]).toMatchObject({
      epoch: server.app.service.epoch,
      seq: server.app.service.seq(),
      serverNowMs: START_MS,
      clock: { speed: 1 },
      practice: false,
    });
    expect(Object.keys(screen.snapshots[0]?.kitchen.trays ?? {})).toHaveLength(60);
  });

  test("the whole board when it says nothing for a moment", async () => {
    const screen = await screenOf(wren);
    expect(screen.snapshots).toEqual([]);
    server.advance(300);
    await screen.until(({ snapshots }) => snapshots.length === 1);
  });

  test("P6 what it missed, when it was away a moment", async () => {
    const first = await readyScreen(wren);
    const held = first.snapshots[0];
    first.close();
    await server.command(wren.token, flooded(1));
    await server.command(wren.token, flooded(2));

    const again = await screenOf(wren);
    again.hello({ epoch: held?.epoch, seq: held?.seq, hash: held?.hash });
    await again.until(({ changes }) => changes.length > 0);
    expect(again.snapshots).toEqual([]);
    expect(again.changes[0]).toMatchObject({ fromSeq: held?.seq, seq: server.app.service.seq() });
    const caughtUp = again.changes[0]?.events.reduce(evolve, held?.kitchen ?? server.app.service.kitchen());
    expect(JSON.stringify(caughtUp?.trays)).toBe(JSON.stringify(server.app.service.kitchen().trays));
  });

  test.each([
    ["of another log", { epoch: "another", seq: 3 }, true],
    ["from the future", { epoch: "", seq: 10_000 }, true],
    ["that is no number", { epoch: "", seq: 0.5 }, true],
    ["from before time", { epoch: "", seq: -1 }, true],
    ["of another course of events", { epoch: "", seq: 3, hash: "another" }, true],
    ["whose course of events it does not tell", { epoch: "", seq: 3, hash: undefined }, undefined],
  ])("P6 P13 the whole board when it held one %s", async (_what, held, isReplaced) => {
    const screen = await screenOf(wren);
    const { service } = server.app;
    screen.hello({
      hash: service.hash(),
      ...held,
      epoch: held.epoch === "" ? service.epoch : held.epoch,
    });
    await screen.until(({ snapshots }) => snapshots.length === 1);
    expect(screen.snapshots[0]?.isReplaced).toBe(isReplaced);
    expect(screen.changes.filter(({ events }) => events.length > 0)).toEqual([]);
  });

  test("P13 a screen that was away for long is sent the whole board, and not told that it was replaced", async () => {
    const { epoch, hash, seq } = server.app.service;
    const held = { epoch, seq: seq(), hash: hash() };
    for (let k = 0; k < 6; k += 1) {
      const readings = Array.from({ length: 100 }, (_, n) => ({
        commandId: `r${k}-${n}`,
        type: "enter-reading",
        reading: { placeId: "rack-a", tempC: 20 + n / 50, rhPct: 40 + k, source: "typed" },
      }));
      await Promise.all(readings.map((reading) => server.command(ida.token, reading)));
    }
    const screen = await screenOf(wren);
    screen.hello(held);
    await screen.until(({ snapshots }) => snapshots.length === 1);
    expect(screen.snapshots[0]).toMatchObject({ seq: seq(), hash: hash() });
    expect(screen.snapshots[0]?.isReplaced).toBeUndefined();
  });

  test("P6 whole forecasts with what it missed, so that rows which are gone go", async () => {
    const first = await readyScreen(wren);
    const { epoch, seq, hash } = first.snapshots[0] ?? {};
    const again = await screenOf(wren);
    again.hello({ epoch, seq, hash });
    await again.until(({ changes }) => changes.some(({ forecasts }) => forecasts !== undefined));
    const forecasts = again.changes.find((change) => change.forecasts !== undefined)?.forecasts;
    expect(forecasts).toMatchObject({ isWhole: true, trays: server.app.forecasts().trays });
  });

  test("P47 a heartbeat every second, where nothing happens", async () => {
    const screen = await readyScreen(wren);
    server.advance(50 + 1000);
    const seq = server.app.service.seq();
    await screen.until(({ changes }) => changes.some((change) => change.serverNowMs === START_MS + 1050));
    expect(screen.changes.at(-1)).toMatchObject({ fromSeq: seq, seq, events: [] });
  });

  test("P47 after a change the next heartbeat comes a second later, and not before", async () => {
    const screen = await readyScreen(wren);
    const toldAtMs = (): number[] => screen.changes.map(({ serverNowMs }) => serverNowMs - START_MS);
    // Who is here is told after 50 ms.
    server.advance(50);
    await screen.until(() => toldAtMs().includes(50));
    server.advance(1400);
    await server.command(wren.token, { commandId: "n1", type: "leave-note", text: "The fan rattles." });
    await screen.until(() => toldAtMs().includes(1450));
    server.advance(3000);
    await screen.until(() => toldAtMs().includes(4450));
    expect(toldAtMs()).toEqual([50, 1050, 1450, 2450, 3450, 4450]);
  });

  test("P3 commands of many screens at once come as one change, and each is acknowledged", async () => {
    const phones = await Promise.all(
      Array.from({ length: 5 }, async (_, k) => readyScreen(await server.join(`Hand ${k}`))),
    );
    const wall = await readyScreen(ida);
    const before = server.app.service.seq();
    const taps = phones.flatMap((phone, k) =>
      Array.from({ length: 10 }, (_, n) => phone.command(flooded(10 * k + n + 1))),
    );
    const answers = await Promise.all(taps);
    expect(answers.every((answer) => answer.ok)).toBe(true);
    const { seq, kitchen } = server.app.service;
    await wall.until(({ changes }) => changes.some((change) => change.seq === seq()));
    const changes = withEvents(wall);
    expect(changes.length).toBeLessThan(25);
    expect(changes[0]?.fromSeq).toBe(before);
    for (const [k, change] of changes.entries()) expect(change.fromSeq).toBe(changes[k - 1]?.seq ?? before);
    const replica = changes
      .flatMap(({ events }) => events)
      .reduce(evolve, wall.snapshots[0]?.kitchen ?? kitchen());
    expect(JSON.stringify(replica.trays)).toBe(JSON.stringify(kitchen().trays));
  });

  test("forecasts of a film just laid", async () => {
    const screen = await readyScreen(wren);
    await screen.command(flooded(1));
    await screen.until(({ changes }) =>
      changes.some(({ forecasts }) => forecasts?.films?.["t1/0"] !== undefined),
    );
    const skin = screen.changes.flatMap(({ forecasts }) => forecasts?.films?.["t1/0"]?.skin ?? [])[0];
    expect(skin).toHaveProperty("likelyMs");
  });

  test("alerts raised by the kitchen itself, though nobody tapped", async () => {
    const screen = await readyScreen(ida);
    const cabinet = {
      id: "oven",
      name: "Low oven",
      kind: "oven",
      airSpeedMs: 0.5,
      capacity: 2,
      setTempC: 65,
    };
    const tool = {
      id: "oven-1",
      name: "Low oven",
      kind: "oven",
      placeId: "oven",
      airC: 65,
      maxAirC: 80,
      capS: 360,
      coolDownMin: 30,
    };
    await screen.command({ commandId: "k1", type: "put-place", place: cabinet });
    await screen.command({ commandId: "k2", type: "put-tool", tool });
    await screen.command({ commandId: "k3", type: "tool-on", toolId: "oven-1" });
    server.jump(4 * 60_000);
    await screen.until((one) =>
      withEvents(one).some(({ events }) => events.some((event) => event.type === "alert-raised")),
    );
    expect(Object.values(server.app.service.kitchen().alerts)).toMatchObject([{ kind: "tool-left-on" }]);
  });
});

describe("a page of another version", () => {
  test.each([
    ["older", PROTOCOL_VERSION - 1],
    ["newer", PROTOCOL_VERSION + 1],
    ["no number", "x"],
  ])("P14 %s is turned away with the reason, before it is sent anything", async (_what, protocol) => {
    const attempt = connect(server.port, wren.token, {}, { protocol });
    await expect(attempt).rejects.toMatchObject({ message: "outdated", data: { reason: "protocol" } });
  });

  test("P14 none, as pages gave before: told the version by a snapshot, sent no change, its taps not taken", async () => {
    const screen = await connect(server.port, wren.token, {}, {});
    screens.push(screen);
    await screen.until(({ snapshots }) => snapshots.length === 1);
    expect(screen.snapshots[0]?.protocol).toBe(PROTOCOL_VERSION);
    const seq = server.app.service.seq();
    const answer = screen.socket.timeout(200).emitWithAck("command", flooded(1) as never);
    await expect(answer).rejects.toThrow();
    expect(server.app.service.seq()).toBe(seq);
    screen.hello({});
    const other = await readyScreen(ida);
    await other.command(flooded(2));
    server.advance(2000);
    await other.until(({ changes }) => changes.length > 2);
    expect([screen.snapshots.length, screen.changes]).toEqual([1, []]);
  });
});

describe("commands", () => {
  test("P1 the same id over the socket and over HTTP: the same answer, appended once", async () => {
    const screen = await readyScreen(wren);
    const answer = await screen.command(flooded(1));
    const seq = server.app.service.seq();
    expect(answer).toEqual({ ok: true, seq });
    expect(await screen.command(flooded(1))).toEqual(answer);
    expect((await server.command(wren.token, flooded(1))).json()).toEqual(answer);
    expect(server.app.service.seq()).toBe(seq);
  });

  test.each([
    [undefined, "body"],
    ["flooded", "body"],
    [{ type: "flooded", commandId: "x1" }, "trayId"],
    [{ ...flooded(1), atMs: -1 }, "atMs"],
  ])("P8 %j is malformed: the answer names %s, and the others notice nothing", async (bad, field) => {
    const screen = await readyScreen(wren);
    const other = await readyScreen(ida);
    const seq = server.app.service.seq();
    expect(await screen.command(bad as object)).toMatchObject({ ok: false, reason: "malformed", field });
    expect(server.app.service.seq()).toBe(seq);
    expect(await other.command(flooded(2))).toMatchObject({ ok: true });
  });

  test("a refusal says what it is about; a wall's command is refused", async () => {
    const screen = await readyScreen(wren);
    expect(await screen.command(flooded(99))).toMatchObject({
      ok: false,
      reason: "unknown",
      fact: { code: "no-such", thing: "tray", id: "t99" },
    });
    const wall = await readyScreen(await server.join("Main wall", "wall"));
    expect(await wall.command(flooded(1))).toMatchObject({ ok: false, reason: "not-allowed" });
  });

  test("what makes no sense at all is passed over, and the server lives", async () => {
    const screen = await readyScreen(wren);
    const raw = screen.socket as unknown as { emit: (...given: unknown[]) => void };
    for (const bad of [
      ["hello"],
      ["hello", "x"],
      ["hello", { seq: "1" }],
      ["canAlert"],
      ["canAlert", 1],
      ["clock"],
      ["clock", 7],
      ["command"],
      ["command", flooded(3), "not a function"],
      ["nothing", 1],
    ]) {
      raw.emit(...bad);
    }
    expect(await screen.command(flooded(1))).toMatchObject({ ok: true });
    expect(server.reports).toEqual([]);
  });

  test("P8 a message over 64 kB cuts that screen and no other", async () => {
    const screen = await readyScreen(wren);
    const other = await readyScreen(ida);
    screen.socket.emit("command", { ...flooded(1), note: "x".repeat(70_000) } as never, () => undefined);
    await screen.until(({ socket }) => !socket.connected);
    expect(await other.command(flooded(2))).toMatchObject({ ok: true });
  });

  test("a screen that sends far too much is not answered, and is again a little later", async () => {
    const screen = await readyScreen(wren);
    const answered: unknown[] = [];
    for (let k = 0; k < 400; k += 1) {
      screen.socket.emit("command", { commandId: `c${k}`, type: "fly" } as never, (answer) =>
        answered.push(answer),
      );
    }
    const other = await readyScreen(ida);
    expect(await other.command(flooded(1))).toMatchObject({ ok: true });
    expect(answered.length).toBeGreaterThan(100);
    expect(answered.length).toBeLessThan(400);
    server.jump(5000);
    expect(await screen.command(flooded(2))).toMatchObject({ ok: true });
  });

  test("P17 more sockets give a device no more: what it may send is counted for all of them", async () => {
    const own = [await readyScreen(wren), await readyScreen(wren), await readyScreen(wren)];
    let answered = 0;
    for (let k = 0; k < 450; k += 1)
      own[k % 3]!.socket.emit("command", { commandId: `c${k}`, type: "fly" } as never, () => (answered += 1));
    expect(await (await readyScreen(ida)).command(flooded(1))).toMatchObject({ ok: true });
    expect(answered).toBeGreaterThan(100);
    expect(answered).toBeLessThan(300);
  });

  test("P17 a device has four sockets at most: the oldest goes", async () => {
    const own: TestSocket[] = [];
    for (let k = 0; k < 5; k += 1) own.push(await readyScreen(wren));
    await own[0]!.until(({ socket }) => !socket.connected);
    expect(own.map(({ socket }) => socket.connected)).toEqual([false, true, true, true, true]);
  });

  test("P17 whoever holds heat is answered however much that phone sends, and a wall is told the board", async () => {
    await server.command(ida.token, { commandId: "tool", type: "put-tool", tool: HOT_AIR });
    await server.command(wren.token, { commandId: "on", type: "tool-on", toolId: HOT_AIR.id });
    const holder = await readyScreen(wren);
    for (let k = 0; k < 400; k += 1)
      holder.socket.emit("command", { commandId: `c${k}`, type: "fly" } as never, () => undefined);
    const off = { commandId: "off", type: "tool-off", toolId: HOT_AIR.id };
    expect(await holder.command(off)).toMatchObject({ ok: true });
    const wall = await readyScreen(await server.join("Wall", "wall"));
    for (let k = 0; k < 40; k += 1) wall.hello({});
    await wall.until(({ snapshots }) => snapshots.length === 41);
  });

  test("P4 when the log cannot be written there is no answer, so that the screen sends it again", async () => {
    await server.close();
    let fails = false;
    server = await startServer({
      log: (log) => ({
        ...log,
        append: async (...batch) => (fails ? Promise.reject(new Error("disk full")) : log.append(...batch)),
      }),
    });
    ida = await server.join("Ida");
    await setUp(server, ida.token);
    const screen = await readyScreen(ida);
    fails = true;
    const seq = server.app.service.seq();
    let answered = false;
    screen.socket.emit("command", flooded(1) as never, () => (answered = true));
    await expect.poll(() => server.reports.length).toBe(1);
    fails = false;
    expect(await screen.command(flooded(1))).toEqual({ ok: true, seq: seq + 1 });
    expect(answered).toBe(false);
    expect(withEvents(screen)).toHaveLength(1);
  });

  test("D6 whoever is let in after a restart finds the forecasts there", async () => {
    for (let tray = 1; tray <= 60; tray += 1) await server.command(ida.token, flooded(tray));
    const { db } = server;
    await server.close();
    server = await startServer({ db });
    expect(Object.keys(server.app.forecasts().films)).toHaveLength(60);
  });

  test("the clock is answered in real time", async () => {
    const screen = await readyScreen(wren);
    const times = await screen.socket.timeout(1000).emitWithAck("clock");
    expect(times).toEqual({ receivedMs: START_MS, sentMs: START_MS });
  });
});

describe("who is here", () => {
  const canAlertIn = ({ changes }: TestSocket) =>
    changes.findLast(({ presence }) => presence)?.presence?.devices[0]?.canAlert;

  const namesIn = ({ changes }: TestSocket) =>
    changes.findLast(({ presence }) => presence)?.presence?.devices.map(({ name }) => name);

  test("whether a screen can be heard is a message of its own, and brings no other board", async () => {
    const screen = await readyScreen(ida);
    for (const canAlert of [true, false, true]) {
      screen.canAlert(canAlert);
      // Answered once the message before it was handled.
      await screen.socket.timeout(1000).emitWithAck("clock");
      server.advance(100);
      await screen.until((one) => canAlertIn(one) === canAlert);
    }
    expect(screen.snapshots).toHaveLength(1);
  });

  test("is told when it changes", async () => {
    const screen = await readyScreen(ida);
    server.advance(100);
    await screen.until((one) => namesIn(one)?.length === 1);
    const other = await readyScreen(wren);
    server.advance(100);
    await screen.until((one) => namesIn(one)?.length === 2);
    expect(screen.changes.at(-1)?.presence?.devices).toMatchObject([
      { name: "Ida", role: "lead", canAlert: true },
      { name: "Wren", role: "decorator", deviceId: wren.deviceId },
    ]);
    other.close();
    await expect
      .poll(() => {
        server.advance(100);
        return namesIn(screen);
      })
      .toEqual(["Ida"]);
  });

  test.each([
    ["gone for over 10 s", true, true],
    ["still here", false, false],
  ])("A8 a heat-set nears its limit with its holder's phone %s", async (_what, isGone, isPhoneLost) => {
    await server.command(ida.token, { commandId: "k1", type: "put-tool", tool: HOT_AIR });
    const wall = await readyScreen(await server.join("Main wall", "wall"));
    const phone = await readyScreen(wren);
    await phone.command(flooded(1));
    expect(
      await phone.command({ commandId: "h1", type: "start-heat-set", trayId: "t1", toolId: "hot-1" }),
    ).toMatchObject({ ok: true });
    if (isGone) phone.close();
    const status = server.app.service.kitchen().trays["t1"]?.status;
    const stopByS =
      status?.stage === "heat-set" ? Math.min(status.heat.limits.stopByS, status.heat.limits.capS) : 0;
    // Every few seconds the phone that is here is heard, as it answers pings.
    for (let goneS = 0; goneS < stopByS * 0.9; goneS += 5) {
      server.jump(5000);
      if (!isGone) await phone.socket.timeout(1000).emitWithAck("clock");
    }
    const raised = () =>
      withEvents(wall)
        .flatMap(({ events }) => events)
        .flatMap((event) => (event.type === "alert-raised" ? event.alert : []));
    await wall.until(() => raised().some(({ kind }) => kind === "heat-near-stop"));
    expect(raised().find(({ kind }) => kind === "heat-near-stop")).toMatchObject({
      isPhoneLost,
      holderId: wren.personId,
      toolId: "hot-1",
    });
  });

  test("A10 A11 heat handed over to someone who is not back after a restart, however long ago they were here, is the wall's", async () => {
    await server.command(ida.token, { commandId: "k1", type: "put-tool", tool: HOT_AIR });
    const { db } = server;
    await server.close();
    server = await startServer({ db, hands: handDriven(START_MS + 20 * 3_600_000) });
    await server.command(ida.token, flooded(1));
    const start = { commandId: "h1", type: "start-heat-set", trayId: "t1", toolId: "hot-1" };
    expect((await server.command(ida.token, start)).status).toBe(200);
    const handOver = { commandId: "h2", type: "hand-over-tool", toolId: "hot-1", to: wren.personId };
    expect((await server.command(ida.token, handOver)).status).toBe(200);
    server.jump(11_000);
    await expect
      .poll(() =>
        Object.values(server.app.service.kitchen().alerts)
          .filter(({ toolId }) => toolId !== undefined)
          .map(({ kind, holderId }) => [kind, holderId]),
      )
      .toEqual([["heat-unwatched", wren.personId]]);
  });
});

test("A1 A14 P4 while the log cannot be written heat past its stop-by is told all the same, within a second", async () => {
  for (const command of [
    { commandId: "tool", type: "put-tool", tool: HOT_AIR },
    flooded(1),
    { commandId: "heat", type: "start-heat-set", trayId: "t1", toolId: HOT_AIR.id },
  ])
    expect((await server.command(ida.token, command)).status).toBe(200);
  const { status } = server.app.service.kitchen().trays["t1"] ?? {};
  if (status?.stage !== "heat-set") throw new Error("no heat-set");
  const stopMs = status.heat.lapFromMs + 1000 * status.heat.limits.stopByS;
  // As a full disk: what is there can be read, nothing can be written.
  server.db.pragma("query_only = ON");
  server.advance(61_000);
  const screen = await readyScreen(ida);
  const told = (): ActiveAlert[] =>
    (screen.changes.at(-1)?.unsaved ?? []).filter(({ class: is }) => is === "urgent");
  while (server.clock.nowMs() < stopMs) {
    server.advance(250);
    await new Promise(setImmediate);
  }
  server.advance(1000);
  await screen.until(() => told().length > 0);
  expect(told()[0]).toMatchObject({
    kind: "heat-running-long",
    trayId: "t1",
    recipients: { everyone: true },
  });
  expect(told()[0]?.raisedAtMs).toBeGreaterThanOrEqual(stopMs);
  expect(told()[0]?.raisedAtMs).toBeLessThanOrEqual(stopMs + 1000);
  const raisedAtMs = told()[0]?.raisedAtMs;
  const board = await server.call("GET", "/api/board", { token: ida.token });
  expect(board.json()["alerts"]).toContainEqual(expect.objectContaining({ kind: "heat-running-long" }));

  // It keeps its moment, so that it sounds again each 20 s; once the log can be written it stands as any other.
  const heard = screen.changes.length;
  server.advance(5000);
  await screen.until(({ changes }) => changes.length > heard + 4);
  expect(told()[0]?.raisedAtMs).toBe(raisedAtMs);
  server.db.pragma("query_only = OFF");
  server.advance(1000);
  await screen.until(({ changes }) => changes.at(-1)?.unsaved === undefined);
  const kinds = Object.values(server.app.service.kitchen().alerts).map(({ kind }) => kind);
  expect(kinds).toContain("heat-running-long");
});
