import { afterEach, describe, expect, test } from "vitest";
import type { Decided, EventLog } from "#server/log/event-log.ts";
import { readAll, StaleLog } from "#server/log/event-log.ts";
import { EMPTY_LOG_HASH, nextLogHash } from "#server/log/log-hash.ts";
import { memoryEventLog } from "#server/log/memory-event-log.ts";
import type { KitchenEvent } from "#shared/kitchen/model/event.ts";
import { EMPTY_KITCHEN } from "#shared/kitchen/events/empty-kitchen.ts";
import { asId } from "#shared/ids.ts";
import { START_MS } from "../support/server-timers.ts";
import { type OpenedStore, STORES } from "../support/stores.ts";

const removed = (trayId: string): KitchenEvent => ({
  type: "tray-removed",
  atMs: START_MS,
  by: "kitchen",
  actId: asId(`act-${trayId}`),
  trayId: asId(trayId),
});

const decided = (commandId: string, seq: number, ...trayIds: string[]): Decided => ({
  commandId,
  answer: { ok: true, seq },
  events: trayIds.map(removed),
});

const opened: OpenedStore[] = [];
afterEach(async () => {
  for (const { done } of opened.splice(0)) await done();
});

const ADAPTERS: readonly [string, () => Promise<EventLog>][] = [
  ["in memory", async () => memoryEventLog("epoch-1")],
  ...STORES.map(([name, openStore]): [string, () => Promise<EventLog>] => [
    name,
    async () => {
      const one = await openStore();
      opened.push(one);
      return one.store.log;
    },
  ]),
];

describe.each(ADAPTERS)("an event log, %s", (_name, open) => {
  test("starts empty, with an epoch", async () => {
    const log = await open();
    expect(log.epoch).toBe("epoch-1");
    expect(await log.latestSeq()).toBe(0);
    expect(await log.since(0, 10)).toEqual({ records: [], setAside: [], toSeq: 0 });
    expect(await log.loadSnapshot()).toEqual({ damaged: [] });
  });

  test("numbers events from 1 in the order of the batch, and gives them back unchanged", async () => {
    const log = await open();
    await log.append([decided("c1", 2, "a", "b"), decided("c2", 3, "c")], 0);
    await log.append([decided("c3", 4, "d")], 3);
    expect(await log.latestSeq()).toBe(4);
    const page = await log.since(1, 2);
    expect(page).toEqual({
      records: [
        { seq: 2, event: removed("b"), hash: await log.hashAt(2) },
        { seq: 3, event: removed("c"), hash: await log.hashAt(3) },
      ],
      setAside: [],
      toSeq: 3,
    });
    const all: number[] = [];
    for await (const { seq } of readAll(log, 3)) all.push(seq);
    expect(all).toEqual([1, 2, 3, 4]);
  });

  test("P1 keeps the answer to every command, refusals too, and nothing for others", async () => {
    const log = await open();
    const refusal = {
      commandId: "c2",
      answer: { ok: false, reason: "risk", fact: { code: "said", text: "It may bleed." } },
      events: [],
    } as const;
    await log.append([decided("c1", 1, "a"), refusal], 0);
    const answers = await log.answers(["c2", "c1", "c9"]);
    expect([...answers]).toEqual([
      ["c2", { answer: refusal.answer }],
      ["c1", { answer: { ok: true, seq: 1 } }],
    ]);
    const whose = { deviceId: "phone-1", sha256: "of its body" };
    await log.append([{ ...decided("c3", 2, "b"), ...whose }], 1);
    expect([...(await log.answers(["c3"]))]).toEqual([["c3", { answer: { ok: true, seq: 2 }, ...whose }]]);
    expect((await log.answers(["c9"])).size).toBe(0);
    expect(await log.latestSeq()).toBe(2);
  });

  test.each([
    ["a command decided before", [decided("c2", 2, "b"), decided("c1", 3, "c")], 1],
    ["a command twice in one batch", [decided("c2", 2, "b"), decided("c2", 3, "c")], 1],
    ["a batch that starts elsewhere than the log stands", [decided("c2", 3, "b")], 2],
  ])("P4 refuses all of a batch with %s", async (_what, batch, fromSeq) => {
    const log = await open();
    await log.append([decided("c1", 1, "a")], 0);
    await expect(log.append(batch, fromSeq)).rejects.toBeInstanceOf(StaleLog);
    expect(await log.latestSeq()).toBe(1);
    expect((await log.answers(["c2"])).size).toBe(0);
    await log.append([decided("c2", 2, "b")], 1);
    expect(await log.latestSeq()).toBe(2);
  });

  test("P13 refuses a batch that goes on from another course of events", async () => {
    const log = await open();
    const [hash] = await log.append([decided("c1", 1, "a")], 0);
    await expect(log.append([decided("c2", 2, "b")], 1, "another")).rejects.toBeInstanceOf(StaleLog);
    expect(await log.latestSeq()).toBe(1);
    await log.append([decided("c2", 2, "b")], 1, hash);
    expect(await log.latestSeq()).toBe(2);
  });

  test("gives back the newest snapshot", async () => {
    const log = await open();
    await log.append([decided("c1", 1, "a"), decided("c2", 2, "b")], 0);
    await log.saveSnapshot({ seq: 1, kitchen: EMPTY_KITCHEN });
    const newer = { seq: 2, kitchen: { ...EMPTY_KITCHEN, isSetUp: true } };
    await log.saveSnapshot(newer);
    expect(await log.loadSnapshot()).toEqual({ snapshot: newer, damaged: [] });
  });

  test("P12 keeps a running hash: the same for the same events, another from the first that differs on", async () => {
    const [log, other] = [await open(), await open()];
    const first = await log.append([decided("c1", 2, "a", "b"), decided("c2", 3, "c")], 0);
    expect(new Set(first).size).toBe(3);
    const then = await log.append([decided("c3", 4, "d")], 3);
    const told = await Promise.all([0, 1, 2, 3, 4].map((seq) => log.hashAt(seq)));
    expect(told).toEqual(["", ...first, ...then]);
    expect(await log.hashAt(5)).toBeUndefined();

    await other.append([decided("x1", 1, "a")], 0);
    await other.append([decided("x2", 4, "z", "c", "d")], 1);
    expect(await other.hashAt(1)).toBe(told[1]);
    for (const seq of [2, 3, 4]) expect(await other.hashAt(seq)).not.toBe(told[seq]);
  });

  test("P12 has the running hash of its stored text, whichever log keeps it", async () => {
    const log = await open();
    const hashes = await log.append([decided("c1", 2, "a", "b")], 0);
    const one = nextLogHash(EMPTY_LOG_HASH, JSON.stringify(removed("a")));
    expect(hashes).toEqual([one, nextLogHash(one, JSON.stringify(removed("b")))]);
  });
});
