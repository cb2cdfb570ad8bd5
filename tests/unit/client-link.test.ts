import { expect, it } from "vitest";
import { createLink } from "#shared/client/sync/link.ts";
import type { Link, LinkPorts } from "#shared/client/sync/link.ts";
import type { PersonId } from "#shared/ids.ts";
import { HandServer, HandSocket, HandTimer } from "#tests/support/sockets.ts";
import { MIN, T0, aKitchen, id } from "#tests/support/scene.ts";

const WREN = id<PersonId>("wren");

interface Rig {
  timer: HandTimer;
  server: HandServer;
  socket: HandSocket;
  link: Link;
  wake: () => void;
  reloads: () => number;
}

function aLink(ports: Partial<LinkPorts> = {}, given: { server?: HandServer; timer?: HandTimer } = {}): Rig {
  const timer = given.timer ?? new HandTimer(T0);
  const server = given.server ?? new HandServer(() => timer.nowMs(), aKitchen().kitchen);
  const socket = new HandSocket(server, WREN, timer);
  const wakers = new Set<() => void>();
  let reloads = 0;
  const link = createLink({
    open: socket.opened,
    timer,
    onWake: (run) => {
      wakers.add(run);
      return () => void wakers.delete(run);
    },
    reload: () => {
      reloads += 1;
      return reloads === 1;
    },
    onChange: () => undefined,
    ...ports,
  });
  return {
    timer,
    server,
    socket,
    link,
    wake: () => {
      for (const run of wakers) run();
    },
    reloads: () => reloads,
  };
}

it("C4 it is live once a snapshot is heard, and not before", async () => {
  const { link, socket } = aLink();
  expect(link.connection().is).toBe("connecting");
  socket.connect();
  expect(link.connection().is).toBe("connecting");
  await socket.flush();
  expect(link.connection().is).toBe("live");
  expect(link.confirmed()?.kitchen.trays["t1"]?.number).toBe(18);
});

it("C4 more than 5 s without a word is told, though the socket seems open", async () => {
  const { link, socket, server, timer } = aLink();
  socket.connect();
  await socket.flush();
  for (let k = 0; k < 5; k += 1) {
    await timer.pass(1000);
    server.tell(server.change());
    await socket.flush();
  }
  expect(link.connection().is).toBe("live");
  const heardAtMs = link.heardAtMs();
  await timer.pass(5000);
  expect(link.connection().is).toBe("live");
  await timer.pass(1000);
  expect(socket.isOpen()).toBe(true);
  expect(link.connection().is).toBe("lost");
  expect(link.heardAtMs()).toBe(heardAtMs);
  server.tell(server.change());
  await socket.flush();
  expect(link.connection().is).toBe("live");
});

it("A28 while the server's time goes at half its pace, as it was set back, no act is ahead of it by what would be refused", async () => {
  const timer = new HandTimer(T0);
  const server = new HandServer(() => T0 + (timer.nowMs() - T0) / 2, aKitchen().kitchen);
  const { link, socket } = aLink({}, { server, timer });
  socket.connect();
  await socket.flush();
  for (let s = 0; s < 120; s += 1) {
    await timer.pass(500);
    expect(link.kitchenNow().nowMs - server.nowMs()).toBeLessThan(3000);
    await timer.pass(500);
    server.tell(server.change());
    await socket.flush();
  }
});

it("C3 when the server's clock is set the link asks it again", async () => {
  let setMs = 0;
  const timer = new HandTimer(T0);
  const server = new HandServer(() => timer.nowMs() + setMs, aKitchen().kitchen);
  const { link, socket } = aLink({}, { server, timer });
  socket.connect();
  await socket.flush();
  const apart = (): number => link.kitchenNow().nowMs - server.nowMs();
  setMs = -30 * MIN;
  expect(apart()).toBe(30 * MIN);
  await timer.pass(1000);
  server.tell(server.change());
  await socket.flush();
  expect(Math.abs(apart())).toBeLessThan(1000);
});

it("C4 a cut is told at once", async () => {
  const { link, socket } = aLink();
  socket.connect();
  await socket.flush();
  socket.cut();
  expect(link.connection().is).toBe("lost");
});

it("P6 a gap asks once to be caught up, and does not count as heard", async () => {
  const { link, socket, server, timer } = aLink();
  socket.connect();
  await socket.flush();
  await timer.pass(4000);
  server.seq += 3;
  const heardAtMs = link.heardAtMs();
  server.tell(server.change());
  server.tell(server.change());
  await socket.flushDown();
  expect(socket.hellos).toHaveLength(2);
  expect(socket.hellos[1]).toMatchObject({ epoch: "epoch-1" });
  expect(link.heardAtMs()).toBe(heardAtMs);
  await socket.flush();
  expect(link.confirmed()?.seq).toBe(server.seq);
  expect(link.connection().is).toBe("live");
});

it("P6 another log: nothing held is kept, and what had landed in the old one is asked for again", async () => {
  let snapshots = 0;
  const { link, socket, server } = aLink({ onSnapshot: () => void (snapshots += 1) });
  socket.connect();
  await socket.flush();
  socket.cut();
  server.epoch = "epoch-2";
  server.seq = 1;
  socket.connect();
  await socket.flush();
  expect(link.confirmed()?.epoch).toBe("epoch-2");
  expect(snapshots).toBe(2);
});

it("P12 the hello tells the running hash of what is held, as the server gave it", async () => {
  const { socket, server } = aLink();
  socket.connect();
  await socket.flush();
  server.append([]);
  await socket.flush();
  socket.cut();
  socket.connect();
  expect(socket.hellos.at(-1)).toEqual({
    epoch: "epoch-1",
    seq: server.seq,
    hash: server.hashAt(server.seq),
  });
});

it("whether this screen can be heard is said on each connection and when it changes, without a hello", async () => {
  const { link, socket } = aLink();
  link.sayCanAlert(true);
  expect(socket.canAlerts).toEqual([]);
  socket.connect();
  await socket.flush();
  const hellos = socket.hellos.length;
  link.sayCanAlert(true);
  link.sayCanAlert(false);
  expect([socket.canAlerts, socket.hellos.length]).toEqual([[true, false], hellos]);
  socket.cut();
  socket.connect();
  expect(socket.canAlerts).toEqual([true, false, false]);
});

it("P13 a log that was put back is told until it was read, and not of a practice kitchen", async () => {
  const { link, socket, server } = aLink();
  socket.connect();
  await socket.flush();
  const snapshot = server.snapshot();
  server.snapshot = () => ({ ...snapshot, isReplaced: true, practice: true });
  socket.reopen();
  await socket.flush();
  expect(link.wasReplaced()).toBe(false);
  server.snapshot = () => ({ ...snapshot, isReplaced: true });
  socket.reopen();
  await socket.flush();
  expect(link.wasReplaced()).toBe(true);
  server.snapshot = () => snapshot;
  socket.reopen();
  await socket.flush();
  expect(link.wasReplaced()).toBe(true);
  link.dismissReplaced();
  expect(link.wasReplaced()).toBe(false);
});

it("P14 a server of another protocol makes the page load anew once, then says so, and is not shown", async () => {
  const { link, socket, server, reloads } = aLink();
  const snapshot = server.snapshot();
  server.snapshot = () => ({ ...snapshot, protocol: 99 as never });
  socket.connect();
  await socket.flush();
  expect([reloads(), link.connection().is]).toEqual([1, "connecting"]);
  socket.reopen();
  await socket.flush();
  expect(link.connection()).toEqual({ is: "outdated" });
  expect(link.confirmed()).toBeUndefined();
});

it("P14 turned away for its version: loaded anew once, then it says so; it asks again each minute, no oftener", async () => {
  const { link, socket, timer, wake, reloads } = aLink();
  socket.connect();
  await socket.flush();
  socket.turnAway();
  expect([reloads(), link.connection().is]).toEqual([1, "live"]);
  socket.turnAway();
  expect(link.connection()).toEqual({ is: "outdated" });
  await timer.pass(30_000);
  wake();
  expect(link.connection()).toEqual({ is: "outdated" });
  expect(socket.reopened).toBe(0);
  await timer.pass(30_000);
  expect(socket.reopened).toBe(1);
});

it("P34 a device that waits to be let in says so, asks every 2 s, and shows the board once it is in", async () => {
  const { link, socket, timer } = aLink();
  socket.makeWait();
  expect(link.connection()).toEqual({ is: "waiting" });
  await timer.pass(1000);
  expect(socket.reopened).toBe(0);
  await timer.pass(3000);
  expect(socket.reopened).toBe(2);
  expect(link.confirmed()).toBeUndefined();
  socket.connect();
  await socket.flush();
  expect(link.connection()).toEqual({ is: "live" });
  await timer.pass(10_000);
  expect(socket.reopened).toBe(2);
});

it("P15 an event of an unknown kind never throws: a snapshot is asked for, once in 3 s", async () => {
  const { link, socket, server, timer } = aLink();
  socket.connect();
  await socket.flush();
  await timer.pass(4000);
  const unknown = { type: "tray-flown", atMs: T0, by: WREN, actId: "x", trayId: "t1" } as never;
  const hellos = socket.hellos.length;
  for (let k = 0; k < 5; k += 1) {
    server.tell(server.change({ events: [unknown], fromSeq: server.seq, seq: server.seq + 1 }));
    await socket.flushDown();
  }
  // Without what is held: the changes since would bring the same event again.
  expect(socket.hellos.slice(hellos)).toEqual([{}]);
  server.seq += 1;
  await socket.flush();
  expect(link.confirmed()?.seq).toBe(server.seq);
  expect(link.connection().is).toBe("live");
});

it("C4 a refused token is said, and waking does not hide it", async () => {
  const { link, socket, wake } = aLink();
  socket.refuse();
  expect(link.connection()).toEqual({ is: "refused" });
  wake();
  expect(socket.reopened).toBe(0);
});

it("C4 waking reconnects a connection that has gone quiet, and leaves one that is fresh", async () => {
  const { socket, timer, wake } = aLink();
  socket.connect();
  await socket.flush();
  wake();
  expect(socket.reopened).toBe(0);
  await timer.pass(3000);
  wake();
  expect(socket.reopened).toBe(1);
});

it("C3 kitchen time comes from the server's clock, whatever this device's says", async () => {
  const timer = new HandTimer(T0);
  const server = new HandServer(() => timer.nowMs() + 90 * MIN, aKitchen().kitchen);
  const { link, socket } = aLink({}, { server, timer });
  socket.connect();
  await socket.flush();
  expect(link.kitchenNow()).toEqual({ nowMs: T0 + 90 * MIN, doubtMs: 0 });
  await timer.pass(10 * MIN);
  expect(link.kitchenNow().nowMs).toBe(T0 + 100 * MIN);
});

it("C3 the clock is asked again every 10 min: a server set right meanwhile is followed", async () => {
  const timer = new HandTimer(T0);
  let aheadMs = 0;
  const server = new HandServer(() => timer.nowMs() + aheadMs, aKitchen().kitchen);
  const { link, socket } = aLink({}, { server, timer });
  socket.connect();
  await socket.flush();
  aheadMs = 2000;
  await timer.pass(9 * MIN);
  await socket.flush();
  expect(link.kitchenNow().nowMs).toBe(timer.nowMs());
  await timer.pass(MIN);
  await socket.flush();
  expect(link.kitchenNow().nowMs).toBe(timer.nowMs() + 2000);
});

it("C4 a board kept by an earlier page is shown, and never as live", async () => {
  const first = aLink();
  first.socket.connect();
  await first.socket.flush();
  const held = first.link.toKeep();
  const timer = new HandTimer(T0 + 30 * MIN);
  const { link } = aLink({ held }, { timer });
  expect(link.confirmed()?.kitchen.trays["t1"]?.number).toBe(18);
  expect(link.connection().is).toBe("connecting");
  await timer.pass(1000);
  expect(link.connection().is).toBe("lost");
  expect(link.heardAtMs()).toBe(T0);
});
