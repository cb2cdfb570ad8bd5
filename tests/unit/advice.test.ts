import { PLAN_IN_TURN } from "#tests/support/plan-in-turn.ts";
import { describe, expect, it } from "vitest";
import { type Advice, type AdviceFor, adviceSteps, type Help } from "#shared/kitchen/advice/advice.ts";
import { ForecasterBench } from "../support/forecaster-bench.ts";
import { DAY_AND_NIGHT, LANTERN } from "../support/furnishings.ts";
import { aKitchen, HOUR, MIN, T0 } from "../support/scene.ts";

/** The practice kitchen, open day and night, in damp still air: t2 and t3 flooded, t1 queued; pick-up that many hours off. */
function damp(pickUpH: number, rhPct = 62): ForecasterBench {
  const bench = new ForecasterBench(aKitchen());
  bench.scene.as("ida", "lead");
  bench.act("set-kitchen", { settings: { opening: DAY_AND_NIGHT } });
  bench.act("put-order", {
    order: { id: "walk", name: "Lantern Walk", pickUpAtMs: T0 + pickUpH * HOUR, cookies: 32 },
  });
  bench.read(rhPct);
  bench.act("flooded", { trayId: "t2" });
  bench.act("flooded", { trayId: "t3" });
  bench.settle();
  return bench;
}

function adviceOn(bench: ForecasterBench, subject: AdviceFor): Advice {
  const advice = bench.advice(subject);
  if (advice === undefined) throw new Error("no advice");
  return advice;
}

const moveOf = ({ help }: Advice) =>
  help.find((one): one is Extract<Help, { kind: "move" }> => one.kind === "move");

describe("what would help", () => {
  it("a late tray: the warm cabinet wins most, drier air helps, and each says what it wins", () => {
    const advice = adviceOn(damp(10), { trayId: "t2" });
    expect(advice.isLate).toBe(true);
    expect(advice.help[0]).toMatchObject({
      kind: "move",
      trayNumbers: [7],
      placeName: "Warm cabinet",
      meetsPickUp: true,
    });
    expect(advice.help.map(({ kind }) => kind)).toContain("drier air");
    for (const { gain, finish } of advice.help) {
      if ("never" in advice.finish || gain === undefined) throw new Error("bands");
      const { leastMin, likelyMin, mostMin } = gain;
      expect(likelyMin).toBeGreaterThanOrEqual(5);
      expect(Math.abs(advice.finish.likelyMs - finish.likelyMs - likelyMin * 60_000)).toBeLessThan(60_000);
      expect([leastMin, likelyMin, mostMin]).toEqual(
        [leastMin, likelyMin, mostMin].toSorted((a, b) => a - b),
      );
    }
  });

  it("D32 pick-up is met to the minute, as the words say: 20 s late is met, 40 s is not", () => {
    const bench = damp(10);
    const { finish } = adviceOn(bench, { trayId: "t2" });
    if ("never" in finish) throw new Error("bands");
    const { kitchen } = bench.scene;
    const lateBy = (lateMs: number): boolean => {
      const pickUpAtMs = finish.likelyMs + kitchen.settings.packingMin * 60_000 - lateMs;
      const walk = { ...kitchen.orders["walk"]!, pickUpAtMs };
      bench.scene.kitchen = { ...kitchen, orders: { ...kitchen.orders, walk } };
      return adviceOn(bench, { trayId: "t2" }).isLate;
    };
    expect([0, 20_000, 40_000].map(lateBy)).toEqual([false, false, true]);
  });

  it("keeps at most three, the best first, and one move among them", () => {
    const { help } = adviceOn(damp(10), { orderId: "walk" });
    expect(help.length).toBeLessThanOrEqual(3);
    const gains = help.map(({ gain }) => gain?.likelyMin ?? Infinity);
    expect(gains).toEqual(gains.toSorted((a, b) => b - a));
    expect(help.filter(({ kind }) => kind === "move").length).toBeLessThanOrEqual(1);
  });

  it("K19 a full place is not offered, and a place with little room takes as many as it holds", () => {
    const bench = damp(10);
    const { kitchen } = bench.scene;
    const with0 = { ...kitchen.places["cabinet"]!, capacity: 1 };
    bench.scene.kitchen = { ...kitchen, places: { ...kitchen.places, cabinet: with0 } };
    bench.act("move-tray", { trayId: "t3", placeId: "cabinet" });
    bench.settle();
    const { help } = adviceOn(bench, { trayId: "t2" });
    expect(help.filter(({ kind }) => kind === "move")).toHaveLength(1);
    expect(help[0]).toMatchObject({ kind: "move", trayNumbers: [7], placeName: "Fan rack" });
  });

  it("D32 trays to move are named in the order of their numbers, whichever finishes last", () => {
    const bench = new ForecasterBench(aKitchen());
    bench.scene.as("ida", "lead");
    bench.act("remove-place", { placeId: "cabinet" });
    bench.read(62);
    bench.act("flooded", { trayId: "t2" });
    bench.scene.later(HOUR);
    bench.act("flooded", { trayId: "t3" });
    bench.act("remove-tray", { trayId: "t1" });
    bench.settle();
    expect(moveOf(adviceOn(bench, { orderId: "walk" }))).toMatchObject({
      trayIds: ["t3", "t2"],
      trayNumbers: [7, 8],
      placeName: "Fan rack",
    });
  });

  it("thinner films are for layers still to be laid, heat for skins still to come", () => {
    const laid = adviceOn(damp(10), { trayId: "t2" }).help.map(({ kind }) => kind);
    expect(laid).not.toContain("thinner");
    expect(laid).not.toContain("heat-set");
    const queued = adviceOn(damp(20), { trayId: "t1" }).help.map(({ kind }) => kind);
    expect(queued.some((kind) => kind === "thinner" || kind === "heat-set")).toBe(true);
  });

  /** So many trays flooded in damp air, each to be bordered in another colour; no place to move them to. */
  function bordered(trays: number, more: (bench: ForecasterBench) => void = () => undefined): Advice {
    const bench = damp(30);
    for (const placeId of ["fan", "cabinet"]) bench.act("remove-place", { placeId });
    bench.act("put-design", {
      design: { ...LANTERN, id: "pair", name: "Pair", layers: LANTERN.layers.slice(1, 3) },
    });
    const tray = (k: number) => ({
      id: `n${k}`,
      number: 100 + k,
      designId: "pair",
      orderId: "many",
      count: 6,
      placeId: "rack-a",
    });
    bench.act("put-order", {
      order: { id: "many", name: "Many", pickUpAtMs: T0 + 20 * HOUR, cookies: 6 * trays },
    });
    bench.act("add-trays", { trays: Array.from({ length: trays }, (_, k) => tray(k)) });
    for (let k = 0; k < trays; k += 1) bench.act("flooded", { trayId: `n${k}` });
    more(bench);
    bench.settle();
    return adviceOn(bench, { orderId: "many" });
  }
  const gainOf = ({ help }: Advice, kind: string): number | undefined =>
    help.find((one) => one.kind === kind)?.gain?.likelyMin;

  it("D32 an oven that sets whole trays wins more than hot air that takes one cookie after another", () => {
    const withoutOven = (bench: ForecasterBench): void =>
      void bench.act("tool-out-of-service", { toolId: "oven-1", reason: "door" });
    const gain = (trays: number, more?: (bench: ForecasterBench) => void): number =>
      gainOf(bordered(trays, more), "heat-set") ?? 0;
    for (const trays of [10]) expect(gain(trays)).toBeGreaterThan(gain(trays, withoutOven));
  });

  it("D32 a warm cabinet that is out of service is not offered", () => {
    const bench = damp(10);
    bench.act("put-tool", {
      tool: {
        id: "cabinet-1",
        name: "Warm cabinet",
        kind: "warm-cabinet",
        placeId: "cabinet",
        airC: 38,
        maxAirC: 50,
        capS: 21_600,
        coolDownMin: 10,
      },
    });
    bench.act("tool-out-of-service", { toolId: "cabinet-1", reason: "its fan stands" });
    bench.settle();
    expect(adviceOn(bench, { trayId: "t2" }).help[0]).toMatchObject({
      kind: "move",
      trayNumbers: [7],
      placeName: "Fan rack",
    });
  });

  it("dry air is not dried further", () => {
    expect(adviceOn(damp(5, 45), { trayId: "t2" }).help.map(({ kind }) => kind)).not.toContain("drier air");
  });

  it("D32 air gone by cannot be dried: ten hours after the one reading, only what is still to come is won", () => {
    const bench = damp(30);
    bench.scene.later(10 * HOUR);
    bench.forecaster.refresh();
    bench.settle();
    const { nowMs } = bench.scene;
    const { finish: before, help } = adviceOn(bench, { trayId: "t2" });
    const dried = help.find(({ kind }) => kind === "drier air");
    if (dried === undefined || "never" in before) throw new Error("bands");
    // What had come by now comes as it did; what had not cannot have come before now.
    for (const point of ["earliestMs", "likelyMs", "latestMs"] as const) {
      if (before[point] > nowMs) expect(dried.finish[point]).toBeGreaterThanOrEqual(nowMs);
      else expect(Math.abs(dried.finish[point] - before[point])).toBeLessThan(5 * 60_000);
    }
    expect(dried.gain?.likelyMin).toBeGreaterThan(60);
    expect(dried.gain?.likelyMin).toBeLessThan(240);
  });

  it("air that never dries: what helps has no minutes to count, it has an end at all", () => {
    const bench = damp(24, 88);
    const advice = adviceOn(bench, { trayId: "t2" });
    expect(advice.finish).toMatchObject({ never: { code: "no-drying" } });
    expect(advice.isLate).toBe(true);
    expect(advice.help.length).toBeGreaterThan(0);
    for (const help of advice.help) {
      expect(help.gain).toBeUndefined();
      expect(help.finish).not.toHaveProperty("never");
    }
  });

  it("an order with time to spare is not late", () => {
    expect(adviceOn(damp(72), { orderId: "walk" }).isLate).toBe(false);
  });

  it("is unknown for what is not there, or has no forecast yet", () => {
    const bench = damp(10);
    expect(bench.advice({ trayId: "t99" })).toBeUndefined();
    expect(bench.advice({ orderId: "nobody" })).toBeUndefined();
    expect(bench.advice({ trayId: "t2" }, { ...bench.forecaster.current(), trays: {} })).toBeUndefined();
  });

  it("D32 K31 a move wins what was said, though closing makes trays that stand alike gain unalike", () => {
    // Two Lanterns with body and outline laid at 15:15 and 16:00, 50 % RH; the kitchen closes at 20:00, pick-up at 07:00.
    const bench = new ForecasterBench(aKitchen());
    const { scene } = bench;
    scene.as("ida", "lead");
    for (const trayId of ["t1", "t2", "t3"]) bench.act("remove-tray", { trayId });
    bench.act("put-order", { order: { id: "walk", name: "Walk", pickUpAtMs: T0 + 22 * HOUR, cookies: 24 } });
    const tray = (k: number) => ({ id: `x${k}`, number: 100 + k, designId: "lantern", orderId: "walk" });
    bench.act("add-trays", {
      trays: [0, 1].map((k) => ({ ...tray(k), count: 12, placeId: "rack-a" })),
    });
    bench.read(50);
    for (const [trayId, min] of [
      ["x0", 315],
      ["x0", 375],
      ["x1", 405],
      ["x1", 420],
    ] as const) {
      scene.nowMs = T0 + min * MIN;
      bench.act("flooded", { trayId });
    }
    bench.read(50);
    scene.nowMs = T0 + 488 * MIN;
    bench.read(50);
    bench.settle();
    const help = moveOf(adviceOn(bench, { orderId: "walk" }));
    if (help === undefined) throw new Error("no move");
    for (const trayId of help.trayIds) bench.act("move-tray", { trayId, placeId: help.placeId });
    bench.settle();
    const { finish, spareMin } = bench.forecaster.current().orders["walk"]!;
    if ("never" in finish) throw new Error("bands");
    expect(Math.abs(finish.likelyMs - help.finish.likelyMs) / MIN).toBeLessThan(10);
    expect(spareMin! >= 0).toBe(help.meetsPickUp);
  });

  it("can be worked out in steps, to the same end", () => {
    const { scene, forecaster } = damp(10);
    const { kitchen, nowMs } = scene;
    const ground = { kitchen, forecasts: forecaster.current(), learned: forecaster.learned(), nowMs };
    const steps = adviceSteps(ground, { orderId: "walk" }, PLAN_IN_TURN.outlook);
    let count = 0;
    let next = steps.next();
    for (; next.done !== true; next = steps.next()) count += 1;
    expect(count).toBeGreaterThan(5);
    expect(next.value).toEqual(adviceOn(damp(10), { orderId: "walk" }));
  });
});
