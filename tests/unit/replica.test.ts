import { describe, expect, it } from "vitest";
import {
  fromSnapshot,
  kitchenOf,
  patched,
  applyChange,
  optimisticState,
} from "#shared/client/sync/replica.ts";
import { decide } from "#shared/kitchen/commands/decide.ts";
import type { ActiveAlert } from "#shared/kitchen/model/alert.ts";
import type { Command } from "#shared/kitchen/model/command.ts";
import type { Forecasts } from "#shared/kitchen/model/forecast.ts";
import { NO_FORECASTS } from "#shared/kitchen/model/forecast.ts";
import type { CommandId, PersonId, TrayId } from "#shared/ids.ts";
import { HandServer } from "#tests/support/sockets.ts";
import { MIN, T0, aKitchen, id } from "#tests/support/scene.ts";

const WREN = id<PersonId>("wren");
const flooded = (commandId: string, trayId: string, atMs: number): Command => ({
  type: "flooded",
  commandId: id<CommandId>(commandId),
  trayId: id<TrayId>(trayId),
  atMs,
});

const aServer = (nowMs = T0 + MIN): HandServer => {
  const scene = aKitchen();
  return new HandServer(() => nowMs, scene.kitchen);
};

describe("what the server could not write down", () => {
  const alert: ActiveAlert = {
    key: "k",
    kind: "heat-running-long",
    class: "urgent",
    trayId: id("t2"),
    trayNumber: 7,
    toolId: id("hot-1"),
    toolKind: "hot-air",
    sinceMs: T0,
    recipients: { wall: true, everyone: true, leads: false, people: [] },
    raisedAtMs: T0,
  };

  it("A14 stands on every screen until a change comes without it, and can be acknowledged there", () => {
    const server = aServer();
    const held = fromSnapshot(server.snapshot());
    const taken = applyChange(held, {
      ...server.change({ fromSeq: held.seq, seq: held.seq }),
      unsaved: [alert],
    });
    if (taken.is !== "taken") throw new Error(taken.is);
    expect(kitchenOf(taken.confirmed).alerts).toEqual({ k: alert });
    const seen: Command = { type: "acknowledge-alert", commandId: id<CommandId>("c1"), key: "k" };
    const view = optimisticState(taken.confirmed, [seen], { nowMs: T0, by: WREN, role: "decorator" }, decide);
    expect(view.alerts["k"]?.acknowledged?.by).toBe(WREN);
    const after = applyChange(taken.confirmed, server.change({ fromSeq: held.seq, seq: held.seq }));
    expect(after.is === "taken" && kitchenOf(after.confirmed)).toBe(taken.confirmed.kitchen);
    // What stood and is over goes, though that could not be written down either.
    const cleared = { ...taken.confirmed, kitchen: { ...server.kitchen, alerts: { k: alert } }, unsaved: [] };
    expect(kitchenOf(cleared).alerts).toEqual({});
  });
});

describe("changes", () => {
  it("C1 a change that starts where the replica stands is taken in", () => {
    const server = aServer();
    const held = fromSnapshot(server.snapshot());
    const heard: ReturnType<HandServer["change"]>[] = [];
    server.listen((change) => heard.push(change));
    server.submit(flooded("c1", "t1", T0), WREN);
    const taken = applyChange(held, heard[0]!);
    expect(taken.is === "taken" && taken.confirmed.seq).toBe(server.seq);
    expect(taken.is === "taken" && taken.confirmed.kitchen).toEqual(server.kitchen);
  });

  it("C1 a missed change is a gap, another log is a gap, an old one is known", () => {
    const server = aServer();
    const held = { ...fromSnapshot(server.snapshot()), seq: 5, hash: server.hashAt(5) };
    const change = (fromSeq: number, seq: number) => server.change({ fromSeq, seq });
    expect(applyChange(held, change(6, 7)).is).toBe("gap");
    expect(applyChange(held, change(4, 6)).is).toBe("gap");
    expect(applyChange(held, { ...change(5, 6), epoch: "another" }).is).toBe("gap");
    expect(applyChange(held, change(2, 4)).is).toBe("known");
    expect(applyChange(held, change(4, 5)).is).toBe("known");
    expect(applyChange(held, change(5, 5)).is).toBe("taken");
  });

  it("P13 a change on top of another course of events is a gap, though its number fits", () => {
    const server = aServer();
    const held = { ...fromSnapshot(server.snapshot()), seq: 5, hash: server.hashAt(5) };
    const change = server.change({ fromSeq: 5, seq: 6 });
    expect(applyChange(held, { ...change, fromHash: "another" }).is).toBe("gap");
    const taken = applyChange(held, change);
    expect(taken.is === "taken" && taken.confirmed.hash).toBe(server.hashAt(6));
  });

  it("P15 a change with an event of an unknown kind is unreadable, and changes nothing", () => {
    const server = aServer();
    const held = fromSnapshot(server.snapshot());
    const unknown = { type: "tray-flown", atMs: T0, by: WREN, actId: "x", trayId: "t1" } as never;
    const change = server.change({ events: [unknown], fromSeq: held.seq, seq: held.seq + 1 });
    expect(applyChange(held, change)).toEqual({ is: "unreadable" });
  });

  it("C1 whole forecasts replace those held: rows that the server dropped are gone", () => {
    const held = { ...NO_FORECASTS, atMs: T0, trays: { t1: {}, t2: {} }, change: { atMs: T0, text: "x" } };
    const whole = { atMs: T0 + MIN, films: {}, trays: { t2: {} }, orders: {}, places: {}, isWhole: true };
    const after = patched(held as never, whole as never);
    expect(after).toEqual({ ...NO_FORECASTS, atMs: T0 + MIN, trays: { t2: {} } });
  });

  it("C1 a forecast patch changes what it names, takes away what is null, and leaves the rest the very same", () => {
    const film = (likelyMs: number) => {
      const band = { earliestMs: likelyMs - 1, likelyMs, latestMs: likelyMs + 1 };
      return { skin: band, dryThrough: band, basis: "measured" as const };
    };
    const before: Forecasts = { ...NO_FORECASTS, films: { "t1/0": film(10), "t2/0": film(20) } };
    const after = patched(before, { atMs: 7, films: { "t1/0": film(11), "t2/0": null, "t3/0": film(30) } });
    expect(after.atMs).toBe(7);
    expect(Object.keys(after.films)).toEqual(["t1/0", "t3/0"]);
    expect(after.films["t1/0"]).toEqual(film(11));
    expect(after.places).toBe(before.places);
  });
});

describe("the view", () => {
  const context = { nowMs: T0 + MIN, by: WREN, role: "decorator" as const };

  it("C1 waiting commands are replayed over the confirmed state in their order", () => {
    const held = fromSnapshot(aServer().snapshot());
    const view = optimisticState(
      held,
      [flooded("c1", "t1", T0), flooded("c2", "t1", T0 + 1)],
      context,
      decide,
    );
    expect(view.trays["t1"]?.films.map((film) => film.actId)).toEqual(["c1", "c2"]);
    expect(held.kitchen.trays["t1"]?.films).toEqual([]);
  });

  it("C1 an act the confirmed history has already is not done a second time", () => {
    const server = aServer();
    server.submit(flooded("c1", "t1", T0), WREN);
    const view = optimisticState(fromSnapshot(server.snapshot()), [flooded("c1", "t1", T0)], context, decide);
    expect(view.trays["t1"]?.films).toHaveLength(1);
  });

  it("C1 a waiting command that no longer fits changes nothing, and those after it still count", () => {
    const held = fromSnapshot(aServer().snapshot());
    const pack: Command = { type: "pack", commandId: id("c1"), trayId: id("t2"), atMs: T0 };
    const view = optimisticState(held, [pack, flooded("c2", "t1", T0)], context, decide);
    expect(view.trays["t2"]?.status.stage).toBe("queued");
    expect(view.trays["t1"]?.films).toHaveLength(1);
  });

  it("C1 what did not change is the very same object, so that only what changed is drawn anew", () => {
    const held = fromSnapshot(aServer().snapshot());
    const view = optimisticState(held, [flooded("c1", "t1", T0)], context, decide);
    expect(view.trays["t1"]).not.toBe(held.kitchen.trays["t1"]);
    expect(view.trays["t2"]).toBe(held.kitchen.trays["t2"]);
    expect(view.places).toBe(held.kitchen.places);
  });
});
