import { inLog } from "#server/words.ts";
import { describe, expect, test } from "vitest";
import type { Actor } from "#server/live/actor.ts";
import type { Decided, EventLog } from "#server/log/event-log.ts";
import {
  type Committed,
  type KitchenService,
  NotSaved,
  openKitchenService,
} from "#server/live/kitchen-service.ts";
import { memoryEventLog } from "#server/log/memory-event-log.ts";
import type { Command } from "#shared/kitchen/model/command.ts";
import { EMPTY_KITCHEN } from "#shared/kitchen/events/empty-kitchen.ts";
import { NO_FORECASTS } from "#shared/kitchen/model/forecast.ts";
import type { Kitchen } from "#shared/kitchen/model/state.ts";
import { asId, type CommandId } from "#shared/ids.ts";
import { setUpCommands } from "../support/server-kitchen.ts";
import { START_MS } from "../support/server-timers.ts";

const LEAD: Actor = { by: asId("lead-1"), role: "lead" };
const WREN: Actor = { by: asId("wren"), role: "decorator" };

const flooded = (tray: number, commandId = `f${tray}`): Command => ({
  type: "flooded",
  commandId: asId(commandId),
  trayId: asId(`t${tray}`),
});

/** A service over a log that tells what was appended, and fails when told to. Turns are taken by hand. */
async function open(
  inner: EventLog = memoryEventLog("e"),
  lostPeople: () => ReadonlySet<string> = () => new Set(),
) {
  const appended: (readonly Decided[])[] = [];
  const failures: Error[] = [];
  const turns: (() => void)[] = [];
  const reports: string[] = [];
  const told: Committed[] = [];
  const order: string[] = [];
  const log: EventLog = {
    ...inner,
    append: async (batch, fromSeq) => {
      const failure = failures.shift();
      if (failure !== undefined) throw failure;
      const hashes = await inner.append(batch, fromSeq);
      appended.push(batch);
      order.push("appended");
      return hashes;
    },
  };
  const service = await openKitchenService({
    log,
    nowMs: () => START_MS,
    forecasts: () => NO_FORECASTS,
    lostPeople,
    nextTurn: (act) => void turns.push(act),
    report: (say) => void reports.push(inLog(say)),
  });
  service.onCommitted((committed) => {
    told.push(committed);
    order.push("published");
  });
  /** Lets what is under way finish, then takes the turns asked for. */
  const turn = async (): Promise<void> => {
    await new Promise((resolve) => setImmediate(resolve));
    for (const act of turns.splice(0)) act();
  };
  return { service, log, appended, failures, told, order, reports, turn };
}

type Opened = Awaited<ReturnType<typeof open>>;

async function openSetUp(): Promise<Opened> {
  const opened = await open();
  const all = setUpCommands(60).map((command) => opened.service.submit(command as Command, LEAD));
  await opened.turn();
  for (const answer of await Promise.all(all)) expect(answer).toMatchObject({ ok: true });
  await opened.turn();
  for (const list of [opened.appended, opened.told, opened.order]) list.length = 0;
  return opened;
}

const stageOf = (service: KitchenService, tray: number) => service.kitchen().trays[`t${tray}`]?.status.stage;

describe("the kitchen service", () => {
  test("P3 commands of one turn are one transaction and one change", async () => {
    const { service, appended, told, turn } = await openSetUp();
    const before = service.seq();
    const taps = Array.from({ length: 50 }, (_, k) => service.submit(flooded(k + 1), WREN));
    expect(service.seq()).toBe(before);
    await turn();
    const answers = await Promise.all(taps);
    await turn();
    expect(appended).toHaveLength(1);
    expect(appended[0]).toHaveLength(50);
    expect(told).toHaveLength(1);
    expect(told[0]?.fromSeq).toBe(before);
    expect(told[0]?.seq).toBe(service.seq());
    expect(told[0]?.events).toHaveLength(service.seq() - before);
    expect(answers.at(-1)).toEqual({ ok: true, seq: service.seq() });
  });

  test("P3 later commands of a turn are decided on what the earlier ones did", async () => {
    const { service, turn } = await openSetUp();
    const first = service.submit(flooded(1, "a"), WREN);
    const second = service.submit({ type: "pack", commandId: asId("b"), trayId: asId("t1") }, WREN);
    const third = service.submit(
      { type: "take-back", commandId: asId("c"), trayId: asId("t1"), actId: asId("a") },
      WREN,
    );
    await turn();
    expect(await first).toMatchObject({ ok: true });
    expect(await second).toMatchObject({ ok: false });
    expect(await third).toMatchObject({ ok: true });
    expect(stageOf(service, 1)).toBe("queued");
  });

  test("P4 acknowledges after the append, and publishes after that", async () => {
    const { service, order, turn } = await openSetUp();
    const tap = service.submit(flooded(1), WREN).then(() => order.push("acknowledged"));
    await turn();
    await tap;
    await service.close();
    expect(order).toEqual(["appended", "acknowledged", "published"]);
  });

  test("P4 a failed append: nothing acknowledged, nothing published, state as before; the same command lands later", async () => {
    const { service, failures, told, turn } = await openSetUp();
    const [kitchen, seq] = [service.kitchen(), service.seq()];
    failures.push(new Error("disk full"));
    const taps = [service.submit(flooded(1), WREN), service.submit(flooded(2), WREN)];
    await turn();
    for (const result of await Promise.allSettled(taps)) {
      expect(result.status).toBe("rejected");
      expect((result as PromiseRejectedResult).reason).toBeInstanceOf(NotSaved);
    }
    expect(told).toEqual([]);
    expect(service.kitchen()).toBe(kitchen);
    expect(service.seq()).toBe(seq);
    expect(service.isSaving()).toBe(false);

    const again = service.submit(flooded(1), WREN);
    await turn();
    expect(await again).toEqual({ ok: true, seq: service.seq() });
    expect(service.isSaving()).toBe(true);
    expect(stageOf(service, 1)).not.toBe("queued");
  });

  test("P2 a command sent again gets the stored answer and does nothing: in the same turn, and later; with another body it is refused", async () => {
    const { service, appended, turn } = await openSetUp();
    const [first, twin] = [service.submit(flooded(1, "x"), WREN), service.submit(flooded(1, "x"), WREN)];
    await turn();
    const answer = await first;
    expect(answer).toMatchObject({ ok: true });
    expect(await twin).toEqual(answer);
    const seq = service.seq();
    const later = service.submit(flooded(1, "x"), WREN);
    await turn();
    expect(await later).toEqual(answer);
    const other = service.submit(flooded(2, "x"), WREN);
    const elsewhere = service.submit(flooded(1, "x"), { ...WREN, deviceId: asId("another-phone") });
    await turn();
    for (const refused of [other, elsewhere])
      expect(await refused).toMatchObject({
        ok: false,
        fact: { code: "id-used" },
      });
    expect(service.seq()).toBe(seq);
    expect(stageOf(service, 2)).toBe("queued");
    expect(appended.flat()).toHaveLength(1);
  });

  test("P1 a refusal is stored too: it stays refused although it would be taken now", async () => {
    const { service, turn } = await openSetUp();
    const back: Command = { type: "take-back", commandId: asId("tb"), trayId: asId("t1"), actId: asId("f1") };
    const refused = service.submit(back, WREN);
    await turn();
    const answer = await refused;
    expect(answer).toMatchObject({ ok: false });
    const tap = service.submit(flooded(1), WREN);
    await turn();
    await tap;
    const again = service.submit(back, WREN);
    await turn();
    expect(await again).toEqual(answer);
    expect(stageOf(service, 1)).not.toBe("queued");
  });

  test("the kitchen's own command that yields nothing leaves no trace", async () => {
    const { service, appended, told, turn } = await openSetUp();
    const tended = service.system({ type: "reconcile-alerts", commandId: asId("tick-1") });
    await turn();
    expect(await tended).toEqual({ ok: true, seq: service.seq() });
    expect(appended).toEqual([]);
    expect(told).toEqual([]);
  });

  test("K30 a snapshot made before there were batches of icing is read as one with none", async () => {
    const log = memoryEventLog("e");
    const { batches: _none, ...old } = EMPTY_KITCHEN;
    await log.saveSnapshot({ seq: 0, kitchen: { ...old, isSetUp: true } as Kitchen });
    const { service } = await open(log);
    expect(service.kitchen()).toEqual({ ...EMPTY_KITCHEN, isSetUp: true });
  });

  test("K3 reopened from its log it is the same kitchen, with and without a snapshot", async () => {
    const { service, log, turn } = await openSetUp();
    const taps = Array.from({ length: 20 }, (_, k) => service.submit(flooded(k + 1), WREN));
    await turn();
    await Promise.all(taps);
    const kitchen = service.kitchen();
    const replayed = await open(log);
    expect(replayed.service.kitchen()).toEqual(kitchen);
    await service.close();
    expect((await log.loadSnapshot()).snapshot?.seq).toBe(service.seq());
    const reopened = await open(log);
    expect(reopened.service.kitchen()).toEqual(kitchen);
    expect(reopened.service.seq()).toBe(service.seq());
  });

  test("keeps the latest events at hand for screens that were away, across a restart too", async () => {
    const { service, log, turn } = await openSetUp();
    const since = service.seq();
    const taps = Array.from({ length: 5 }, (_, k) => service.submit(flooded(k + 1), WREN));
    await turn();
    await Promise.all(taps);
    const events = service.recentSince(since);
    expect(events).toHaveLength(service.seq() - since);
    await service.close();
    const reopened = (await open(log)).service;
    expect(reopened.recentSince(since)).toEqual(events);
    expect(reopened.recentSince(reopened.seq())).toEqual([]);
    expect(reopened.recentSince(reopened.seq() + 1)).toBeUndefined();
    expect(reopened.recentSince(since + 0.5)).toBeUndefined();
  });

  test("P43 its sender has the answer before anybody is told, and so before anything is forecast", async () => {
    const { service, order, turn } = await openSetUp();
    order.length = 0;
    const edge = async (): Promise<void> => {
      // As far from the service as the sockets' edge is, and further.
      const answer = await (async () => await service.submit(flooded(1), WREN))();
      await Promise.resolve();
      order.push(answer.ok ? "answered" : "refused");
    };
    const tap = edge();
    await turn();
    await tap;
    await turn();
    expect(order).toEqual(["appended", "answered", "published"]);
  });

  test("a listener that throws harms neither the others nor the answer", async () => {
    const { service, told, turn } = await openSetUp();
    service.onCommitted(() => {
      throw new Error("a bad listener");
    });
    const tap = service.submit(flooded(1), WREN);
    await turn();
    expect(await tap).toMatchObject({ ok: true });
    await turn();
    expect(told).toHaveLength(1);
  });

  test("closing finishes what waits and takes nothing more", async () => {
    const { service, turn } = await openSetUp();
    const tap = service.submit(flooded(1), WREN);
    const closed = service.close();
    await turn();
    await closed;
    expect(await tap).toMatchObject({ ok: true });
    await expect(service.submit(flooded(2), WREN)).rejects.toBeInstanceOf(NotSaved);
  });
});

const tend = (n: number): Command => ({ type: "reconcile-alerts", commandId: asId(`tend${n}`) });

describe("A27 looking for alarms", () => {
  test("a look that fails as a whole is reported once a spell, not each time", async () => {
    let isBroken = true;
    const { service, reports, turn } = await open(memoryEventLog("e"), () => {
      if (isBroken) throw new Error("no presence");
      return new Set();
    });
    const look = async (n: number): Promise<boolean> => {
      const looked = service.system(tend(n)).then(
        () => true,
        () => false,
      );
      await turn();
      return looked;
    };
    for (const n of [1, 2, 3]) expect(await look(n)).toBe(false);
    expect(reports).toHaveLength(1);
    isBroken = false;
    expect(await look(4)).toBe(true);
    isBroken = true;
    expect(await look(5)).toBe(false);
    expect(reports).toHaveLength(2);
  });
});

describe("K38 what an earlier version let in heals when it is read", () => {
  const inherited = ["constructor", "__proto__", "toString", "hasOwnProperty", "valueOf"];

  test.each(inherited)(
    "a log that holds an alert named %s as seen, and a snapshot made after it",
    async (key) => {
      const inner = memoryEventLog("e");
      const { service, turn } = await open(inner);
      const all = setUpCommands(2).map((command) => service.submit(command as Command, LEAD));
      await turn();
      await Promise.all(all);
      const stamp = { atMs: START_MS, by: WREN.by, actId: asId<CommandId>("seen") };
      await inner.append(
        [
          {
            commandId: "seen",
            answer: { ok: true, seq: service.seq() + 1 },
            events: [{ type: "alert-acknowledged", ...stamp, key }],
          },
        ],
        service.seq(),
      );
      const replayed = await open(inner);
      expect(Object.keys(replayed.service.kitchen().alerts)).toEqual([]);

      const poisoned = JSON.parse(
        `{"${key}": {"acknowledged": {"by": "wren", "atMs": ${START_MS}}}}`,
      ) as object;
      const kitchen = { ...replayed.service.kitchen(), alerts: poisoned } as Kitchen;
      const snapshot = { seq: replayed.service.seq(), kitchen };
      const {
        service: healed,
        reports,
        turn: turnHealed,
      } = await open({
        ...inner,
        loadSnapshot: async () => ({ snapshot, damaged: [] }),
      });
      expect(Object.keys(healed.kitchen().alerts)).toEqual([]);
      const looked = healed.system(tend(1));
      await turnHealed();
      expect(await looked).toMatchObject({ ok: true });
      expect(reports).toEqual([]);
      expect(Object.getPrototypeOf(healed.kitchen().alerts)).toBe(Object.prototype);
    },
  );
});
