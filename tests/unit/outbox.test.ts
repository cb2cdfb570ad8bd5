import { said } from "#tests/support/said.ts";
import { expect, it } from "vitest";
import { createOutbox } from "#shared/client/sync/outbox.ts";
import type { Outbox, OutboxItem, OutboxStore } from "#shared/client/sync/outbox.ts";
import type { Command } from "#shared/kitchen/model/command.ts";
import type { CommandId, PersonId, TrayId } from "#shared/ids.ts";
import type { CommandAnswer } from "#shared/protocol/command.ts";
import { HandServer, HandSocket, HandTimer, settled } from "#tests/support/sockets.ts";
import { HOUR, MIN, T0, aKitchen, id } from "#tests/support/scene.ts";

const WREN = id<PersonId>("wren");
const flooded = (commandId: string, trayId = "t1", atMs = T0 + MIN): Command => ({
  type: "flooded",
  commandId: id<CommandId>(commandId),
  trayId: id<TrayId>(trayId),
  atMs,
});

/** A store that outlives a page, and may fail. */
class HandStore implements OutboxStore {
  items = new Map<string, OutboxItem>();
  fails = false;
  async load() {
    if (this.fails) throw new Error("no storage");
    // IndexedDB answers in the order of its keys, not of the taps.
    return [...this.items.values()].toSorted((a, b) => (a.command.commandId < b.command.commandId ? -1 : 1));
  }
  async put(item: OutboxItem) {
    if (this.fails) throw new Error("no storage");
    this.items.set(item.command.commandId, item);
  }
  async drop(commandId: string) {
    this.items.delete(commandId);
  }
}

interface Rig {
  timer: HandTimer;
  server: HandServer;
  socket: HandSocket;
  store: HandStore;
  outbox: Outbox;
}

function aPage(store = new HandStore(), server?: HandServer, timer = new HandTimer(T0 + 2 * MIN)): Rig {
  const scene = aKitchen();
  const served = server ?? new HandServer(() => timer.nowMs(), scene.kitchen);
  const socket = new HandSocket(served, WREN, timer);
  const outbox = createOutbox({
    store,
    ask: (command) => socket.command(command, 5000),
    isOpen: () => socket.isOpen(),
    askNowMs: async () => (await socket.clock(5000)).sentMs,
    newId: () => `new-${(newIds += 1)}`,
    timer,
    onChange: () => undefined,
  });
  socket.opened({
    onOpen: () => outbox.send(),
    onClose: () => undefined,
    onRefused: () => undefined,
    onWaits: () => undefined,
    onOutdated: () => undefined,
    onSnapshot: () => outbox.askAgain(),
    onChange: ({ events, fromSeq, seq }) =>
      outbox.confirm(new Set(events.map((event) => event.actId)), fromSeq, seq),
  });
  return { timer, server: served, socket, store, outbox };
}

let newIds = 0;
const states = (outbox: Outbox) => outbox.items().map((item) => `${item.command.commandId} ${item.is}`);

it("C2 what is tapped without a connection waits, keeps its time, and is sent in order when it is back", async () => {
  const { outbox, socket, server, timer } = aPage();
  outbox.add(flooded("c1", "t1", T0 + MIN));
  outbox.add(flooded("c2", "t1", T0 + MIN + 5));
  outbox.add(flooded("c3", "t2", T0 + MIN + 9));
  await timer.pass(60_000);
  expect(states(outbox)).toEqual(["c1 waiting", "c2 waiting", "c3 waiting"]);
  expect(server.arrived).toEqual([]);
  socket.connect();
  await socket.flush();
  expect(server.committed.map(({ commandId, atMs }) => [commandId, atMs])).toEqual([
    ["c1", T0 + MIN],
    ["c2", T0 + MIN + 5],
    ["c3", T0 + MIN + 9],
  ]);
  expect(outbox.items()).toEqual([]);
});

it("C2 with a connection a tap is on its way, and on its way into the store, before anything is shown of it", () => {
  const order: string[] = [];
  const outbox = createOutbox({
    store: { load: async () => [], put: async () => void order.push("stored"), drop: async () => undefined },
    ask: (command) => {
      order.push(`sent ${command.commandId}`);
      return new Promise(() => undefined);
    },
    isOpen: () => true,
    askNowMs: async () => T0,
    newId: () => "new",
    timer: new HandTimer(T0),
    onChange: () => order.push("shown"),
  });
  outbox.add(flooded("c1"));
  expect(order).toEqual(["stored", "sent c1", "shown"]);
  // The second waits for the first one's answer.
  outbox.add(flooded("c2"));
  expect(order.slice(3)).toEqual(["stored", "shown"]);
});

it("C2 a lost answer sends the same command again, and it lands once", async () => {
  const { outbox, socket, server, timer } = aPage();
  socket.connect();
  socket.losesAnswers = 2;
  outbox.add(flooded("c1"));
  await socket.flushUp();
  socket.loseDown();
  for (let k = 0; k < 3; k += 1) {
    await timer.pass(6000);
    await socket.flush();
  }
  expect(server.arrived.map(({ commandId }) => commandId)).toEqual(["c1", "c1", "c1"]);
  expect(server.committed).toHaveLength(1);
  expect(server.kitchen.trays["t1"]?.films).toHaveLength(1);
  // Its answer came, and the changes that hold it were lost: it stays until they are caught up.
  expect(states(outbox)).toEqual(["c1 landed"]);
  outbox.confirm(new Set(), server.seq, server.seq);
  expect(outbox.items()).toEqual([]);
});

it("C2 the change that holds a command settles it, answer or none", async () => {
  const { outbox, socket, server, store, timer } = aPage();
  socket.connect();
  socket.losesAnswers = 1;
  outbox.add(flooded("c1"));
  await socket.flush();
  expect(outbox.items()).toEqual([]);
  expect(store.items.size).toBe(0);
  await timer.pass(10_000);
  await socket.flush();
  expect(server.arrived).toHaveLength(1);
});

it("C2 a cut in the middle loses nothing and keeps the order", async () => {
  const { outbox, socket, server } = aPage();
  socket.connect();
  outbox.add(flooded("c1", "t1"));
  outbox.add(flooded("c2", "t2"));
  await socket.flushUp();
  socket.cut();
  await settled();
  outbox.add(flooded("c3", "t3"));
  expect(states(outbox)).toEqual(["c1 waiting", "c2 waiting", "c3 waiting"]);
  socket.connect();
  await socket.flush();
  expect(server.committed.map(({ commandId }) => commandId)).toEqual(["c1", "c2", "c3"]);
});

it("C2 what waits survives a reload, in its order, before what is tapped after", async () => {
  const store = new HandStore();
  const first = aPage(store);
  first.outbox.add(flooded("z-first", "t1", T0 + MIN));
  first.outbox.add(flooded("a-second", "t1", T0 + MIN + 1));
  await settled();

  const second = aPage(store, first.server, first.timer);
  second.outbox.add(flooded("m-third", "t2", T0 + MIN + 2));
  await second.outbox.load();
  expect(states(second.outbox)).toEqual(["z-first waiting", "a-second waiting", "m-third waiting"]);

  const third = aPage(store, first.server, first.timer);
  await third.outbox.load();
  third.socket.connect();
  await third.socket.flush();
  expect(third.server.committed.map(({ commandId }) => commandId)).toEqual([
    "z-first",
    "a-second",
    "m-third",
  ]);
  expect(store.items.size).toBe(0);
});

it("C2 a page that died after the command landed sends it again, and it lands once", async () => {
  const store = new HandStore();
  const first = aPage(store);
  first.socket.connect();
  first.outbox.add(flooded("c1"));
  await first.socket.flushUp();
  expect(first.server.committed).toHaveLength(1);
  first.socket.cut();

  const second = aPage(store, first.server, first.timer);
  await second.outbox.load();
  second.socket.connect();
  await second.socket.flush();
  expect(second.server.arrived).toHaveLength(2);
  expect(second.server.committed).toHaveLength(1);
  second.outbox.confirm(new Set(), second.server.seq, second.server.seq);
  expect(second.outbox.items()).toEqual([]);
});

it("C2 a refused command stays in sight, reload or not, until its maker has read it", async () => {
  const store = new HandStore();
  const { outbox, socket, server } = aPage(store);
  socket.connect();
  outbox.add({ type: "pack", commandId: id("c1"), trayId: id("t1"), atMs: T0 + MIN });
  outbox.add(flooded("c2", "t2"));
  await socket.flush();
  expect(states(outbox)).toEqual(["c1 refused"]);
  expect(server.committed.map(({ commandId }) => commandId)).toEqual(["c2"]);

  const after = aPage(store, server);
  await after.outbox.load();
  const [item] = after.outbox.items();
  expect(item?.is === "refused" && said(item.refusal)).toMatch(/layer|flooded/i);
  after.socket.connect();
  await after.socket.flush();
  expect(server.arrived).toHaveLength(2);
  after.outbox.dismiss("c1");
  expect(after.outbox.items()).toEqual([]);
  expect(store.items.size).toBe(0);
});

it("C2 without storage it works until a reload, and says that it keeps nothing", async () => {
  const store = new HandStore();
  store.fails = true;
  const { outbox, socket, server } = aPage(store);
  await outbox.load();
  outbox.add(flooded("c1"));
  await settled();
  expect(outbox.keeps()).toBe(false);
  socket.connect();
  await socket.flush();
  expect(server.committed).toHaveLength(1);
});

it("C2 whatever gets lost on the way, every command lands exactly once and in order", async () => {
  // A plain linear congruential generator (Numerical Recipes' constants), so that a failure can be run again.
  for (let seed = 1; seed <= 60; seed += 1) {
    let state = seed;
    const chance = (share: number): boolean => {
      state = (Math.imul(state, 1_664_525) + 1_013_904_223) >>> 0;
      return state / 2 ** 32 < share;
    };
    let { outbox, socket, server, store, timer } = aPage();
    const wanted: string[] = [];
    for (let step = 0; step < 60; step += 1) {
      if (wanted.length < 15 && chance(0.4)) {
        const commandId = `c${wanted.length}`;
        wanted.push(commandId);
        outbox.add({
          type: "enter-reading",
          commandId: id(commandId),
          reading: { placeId: id("rack-a"), tempC: 20 + wanted.length / 10, rhPct: 50, source: "typed" },
        });
      }
      if (chance(0.3)) socket.connect();
      if (chance(0.15)) socket.cut();
      if (chance(0.2)) socket.losesAnswers += 1;
      if (chance(0.6)) await socket.flushUp();
      if (chance(0.2)) socket.loseDown();
      if (chance(0.6)) await socket.flushDown();
      if (chance(0.5)) await timer.pass(3000);
      if (chance(0.06)) {
        socket.cut();
        await settled();
        ({ outbox, socket } = aPage(store, server, timer));
        await outbox.load();
      }
    }
    socket.losesAnswers = 0;
    for (let k = 0; k < 12; k += 1) {
      socket.connect();
      await socket.flush();
      await timer.pass(6000);
    }
    await socket.flush();
    outbox.confirm(new Set(), server.seq, server.seq);
    expect(
      server.committed.map(({ commandId }) => commandId),
      `seed ${seed}`,
    ).toEqual(wanted);
    expect(outbox.items(), `seed ${seed}`).toEqual([]);
  }
});

it("C2 an answer for what is not waiting changes nothing", async () => {
  const answers: ((answer: CommandAnswer) => void)[] = [];
  const timer = new HandTimer(T0);
  const outbox = createOutbox({
    store: new HandStore(),
    ask: () => new Promise((resolve) => answers.push(resolve)),
    isOpen: () => true,
    askNowMs: async () => T0,
    newId: () => "new",
    timer,
    onChange: () => undefined,
  });
  outbox.add(flooded("c1"));
  await settled();
  outbox.confirm(new Set(["c1"]), 0, 1);
  answers[0]?.({ ok: false, reason: "wrong-stage", fact: { code: "said", text: "late" } });
  await settled();
  expect(outbox.items()).toEqual([]);
});

it("P13 a tap that was acknowledged, and is not in the log that was put back, goes again and lands", async () => {
  for (const isHeardAs of ["a snapshot", "a change over its number"] as const) {
    const { outbox, socket, server, store } = aPage();
    socket.connect();
    outbox.add(flooded("c1"));
    await socket.flushUp();
    // The answer is heard, the change is not.
    socket.loseChanges();
    await socket.flushDown();
    expect(states(outbox)).toEqual(["c1 landed"]);
    socket.cut();

    const scene = aKitchen();
    const back = new HandServer(server.nowMs, scene.kitchen);
    socket.server = back;
    socket.connect();
    if (isHeardAs === "a snapshot") outbox.askAgain();
    else outbox.confirm(new Set(["another"]), 0, server.seq + 3);
    expect([...store.items.values()].map((item) => item.is)).toEqual(["waiting"]);
    await socket.flush();
    expect(back.committed.map(({ commandId, atMs }) => [commandId, atMs])).toEqual([["c1", T0 + MIN]]);
    expect(outbox.items()).toEqual([]);
  }
});

it("C2 a tap that was acknowledged and changed nothing is asked for once more, and let go", async () => {
  const { outbox, socket, server } = aPage();
  socket.connect();
  outbox.add({ type: "assign-tray", commandId: id("c1"), trayId: id("t1"), to: null, atMs: T0 + MIN });
  server.submit = () => {
    server.arrived.push({} as never);
    return { ok: true, seq: 2 };
  };
  await socket.flush();
  expect(states(outbox)).toEqual(["c1 landed"]);
  outbox.confirm(new Set(), 1, 3);
  await socket.flush();
  expect(states(outbox)).toEqual(["c1 landed"]);
  outbox.confirm(new Set(), 3, 3);
  expect(outbox.items()).toEqual([]);
  expect(server.arrived).toHaveLength(2);
});

it("A28 taps timed by a clock ahead of the server's, which lost power and its time, land in their order and with their spans", async () => {
  const timer = new HandTimer(T0 + HOUR);
  // An hour behind the phone, whose taps were timed by the server as it was before.
  const server = new HandServer(() => timer.nowMs() - HOUR + 5 * MIN, aKitchen().kitchen);
  const { outbox, socket, store } = aPage(new HandStore(), server, timer);
  outbox.add(flooded("c1", "t2", T0 + HOUR - 4 * MIN));
  outbox.add(flooded("c2", "t3", T0 + HOUR - MIN));
  const back = { type: "take-back", trayId: id<TrayId>("t2"), actId: id<CommandId>("c1") } as const;
  outbox.add({ ...back, commandId: id<CommandId>("c3"), atMs: T0 + HOUR });
  socket.connect();
  await socket.flush();
  expect(server.committed.map(({ commandId, atMs }) => [commandId, atMs])).toEqual([
    [expect.stringMatching(/^new-/), T0 + MIN],
    ["c2", T0 + 4 * MIN],
    ["c3", T0 + 5 * MIN],
  ]);
  expect(outbox.items()).toEqual([]);
  expect(store.items.size).toBe(0);
});

it("A28 a tap too long ago is refused, not moved", async () => {
  const { outbox, socket } = aPage();
  outbox.add(flooded("old", "t1", T0 - 13 * HOUR));
  socket.connect();
  await socket.flush();
  expect(states(outbox)).toEqual(["old refused"]);
});
