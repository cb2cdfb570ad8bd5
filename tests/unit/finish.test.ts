import { type Band, mapBand } from "#shared/drying/uncertainty/band.ts";
import { TOO_DAMP } from "#tests/support/too-damp.ts";
import { describe, expect, it } from "vitest";
import type { FilmForecast, TrayForecast } from "#shared/kitchen/model/forecast.ts";
import { orderForecast, trayForecast, turnsOf } from "#shared/kitchen/plan/finish.ts";
import type { Spans } from "#shared/kitchen/forecast/films.ts";
import { aKitchen, HOUR, MIN, type Scene, T0 } from "../support/scene.ts";

const minutes = (earliestMin: number, likelyMin: number, latestMin: number) => ({
  earliestMs: earliestMin * MIN,
  likelyMs: likelyMin * MIN,
  latestMs: latestMin * MIN,
});
/** Every film skins in 10–30 min and is dry through in 100–300 min. */
const spans: Spans = { skin: minutes(10, 20, 30), dryThrough: minutes(100, 200, 300) };
const spansOf = (): Spans => spans;

const after = (startMs: number, span: ReturnType<typeof minutes>): Band =>
  mapBand(span, (ms) => startMs + ms);
const filmFrom = (startMs: number): FilmForecast => ({
  skin: after(startMs, minutes(10, 20, 30)),
  dryThrough: after(startMs, minutes(100, 200, 300)),
  basis: "measured",
});

function outlook(
  scene: Scene,
  trayId: string,
  films: Record<string, FilmForecast>,
  more: object = {},
): TrayForecast {
  const found = trayForecast({
    kitchen: scene.kitchen,
    tray: scene.tray(trayId),
    films,
    spansOf,
    nowMs: scene.nowMs,
    ...more,
  });
  if (found === undefined) throw new Error("no outlook");
  return found;
}

describe("a tray's finish", () => {
  it("of one layer not begun: flooding time, then dry through", () => {
    const { finish, next } = outlook(aKitchen(), "t2", {});
    expect(finish).toEqual(after(T0 + 10 * MIN, minutes(100, 200, 300)));
    expect(next).toMatchObject({ layer: 0, ...spans });
  });

  it("hands that come later put it off by as much", () => {
    const { finish } = outlook(aKitchen(), "t2", {}, { turnAtMs: T0 + 30 * MIN });
    expect(finish).toEqual(after(T0 + 40 * MIN, minutes(100, 200, 300)));
  });

  it("follows the chain: wet on wet at once, another colour after the skin, a dot after dry through", () => {
    // Lantern: outline 10 min, body wet on wet 10 min, border after both skins 10 min, dot after the body is dry through.
    const chain = (skinMin: number, dryMin: number): number => {
      const [outline, body] = [10, 20];
      const border = Math.max(outline, body) + skinMin + 10;
      const dot = Math.max(border + skinMin, body + dryMin) + 10;
      return T0 + (Math.max(border, dot) + dryMin) * MIN;
    };
    expect(outlook(aKitchen(), "t1", {}).finish).toEqual({
      earliestMs: chain(10, 100),
      likelyMs: chain(20, 200),
      latestMs: chain(30, 300),
    });
  });

  it("counts films already laid from their own clocks, and never starts a layer in the past", () => {
    const scene = aKitchen();
    scene.act("flooded", { trayId: "t1" });
    scene.later(10 * MIN).act("flooded", { trayId: "t1" });
    scene.later(5 * HOUR);
    const films = { "t1/0": filmFrom(T0), "t1/1": filmFrom(T0 + 10 * MIN) };
    const { finish, next } = outlook(scene, "t1", films);
    // Likely: both skins are long there, border now; the body is dry through at T0 + 210 min, so the dot waits for the border only.
    const border = scene.nowMs + 10 * MIN;
    expect(finish).toMatchObject({ likelyMs: border + 20 * MIN + 10 * MIN + 200 * MIN });
    expect(next?.layer).toBe(2);
  });

  it("K31 a layer whose turn comes after closing is laid when the kitchen opens", () => {
    // 19:40 at the scene's place: outline 10 min, body wet on wet by 20:00. Its border waits for the skin, past closing, so
    // for 06:00; it is the last to dry through but for the dot, which waits for the border's skin.
    const scene = aKitchen();
    scene.later(10 * HOUR + 40 * MIN);
    const opens = T0 + 21 * HOUR;
    expect(outlook(scene, "t1", {}).finish).toEqual({
      earliestMs: opens + (10 + 10 + 10 + 100) * MIN,
      likelyMs: opens + (10 + 20 + 10 + 200) * MIN,
      latestMs: opens + (10 + 30 + 10 + 300) * MIN,
    });
  });

  it("K32 a layer that would not be laid by closing is begun when the kitchen opens", () => {
    const laidAt = (lateMin: number): unknown => {
      const { finish } = outlook(aKitchen().later(11 * HOUR - lateMin * MIN), "t2", {});
      return "never" in finish ? finish : (finish.likelyMs - 200 * MIN - T0) / MIN;
    };
    expect([10, 9].map(laidAt)).toEqual([11 * 60, 21 * 60 + 10]);
  });

  it("a tray all laid is done when its last film is dry through", () => {
    const scene = aKitchen();
    scene.act("flooded", { trayId: "t2" });
    const { finish, next } = outlook(scene, "t2", { "t2/0": filmFrom(T0) });
    expect(finish).toEqual(after(T0, minutes(100, 200, 300)));
    expect(next).toBeUndefined();
  });

  it("is unknown while a film has no forecast, and never where a film never dries", () => {
    const scene = aKitchen();
    scene.act("flooded", { trayId: "t2" });
    const base = { kitchen: scene.kitchen, tray: scene.tray("t2"), spansOf, nowMs: scene.nowMs };
    expect(trayForecast({ ...base, films: {} })).toBeUndefined();
    const films = { "t2/0": { ...filmFrom(T0), dryThrough: { never: TOO_DAMP } } };
    expect(trayForecast({ ...base, films })?.finish).toEqual({ never: TOO_DAMP });
  });

  it("I3 I6 a small section next is told how soon to heat-set, and how many to flood before that", () => {
    const scene = aKitchen();
    scene.act("flooded", { trayId: "t1" });
    scene.act("flooded", { trayId: "t1" });
    const films = { "t1/0": filmFrom(T0), "t1/1": filmFrom(T0) };
    // Border: 9 mm, so most sink; 0.3 of 20 min is 6 min; 12 cookies in 10 min and 2 min of heat each are 2 in 6 min.
    // An oven sets all at once, so only flooding, 50 s a cookie, uses up the 6 min: 7.
    expect(outlook(scene, "t1", films).next?.sink).toEqual({
      risk: "most",
      setWithinMin: 6,
      floodBeforeSetting: 2,
      floodBeforeOven: 7,
    });
    scene.act("tool-out-of-service", { toolId: "hot-1", reason: "frayed cord" });
    expect(outlook(scene, "t1", films).next?.sink).toEqual({
      risk: "most",
      setWithinMin: 6,
      floodBeforeSetting: 7,
    });
  });
});

describe("hands", () => {
  it("come to queued trays in the order of pick-ups, then numbers, as many at a time as there are decorators", () => {
    const scene = aKitchen().as("ida", "lead");
    scene.act("put-order", { order: { id: "soon", name: "Soon", pickUpAtMs: T0 + 20 * HOUR, cookies: 10 } });
    scene.act("add-trays", {
      trays: [{ id: "t9", number: 99, designId: "moon", orderId: "soon", count: 10, placeId: "rack-a" }],
    });
    // Ida, Wren and Sol: three at once, ten minutes each.
    expect([...turnsOf(scene.kitchen, T0)]).toEqual([
      ["t9", T0],
      ["t2", T0],
      ["t3", T0],
      ["t1", T0 + 10 * MIN],
    ]);
    scene.act("set-kitchen", { settings: { hands: 1 } });
    expect([...turnsOf(scene.kitchen, T0).values()]).toEqual([0, 10, 20, 30].map((min) => T0 + min * MIN));
    // Closing at 20:00, opening at 06:00: what is not laid by 20:00 is begun at 06:00, and the next one after it.
    expect([...turnsOf(scene.kitchen, T0 + 10 * HOUR + 45 * MIN).values()]).toEqual(
      [10 * 60 + 45, 10 * 60 + 55, 21 * 60 + 10, 21 * 60 + 20].map((min) => T0 + min * MIN),
    );
    scene.act("set-kitchen", { settings: { hands: null } });
    expect(turnsOf(scene.kitchen, T0).get("t3")).toBe(T0);
  });

  it("K33 a bench screen is no pair of hands, unless an old log does not say that it is one", () => {
    const scene = aKitchen();
    const bench = { id: "bench", name: "Bench 1", role: "decorator" };
    scene.as("kitchen", "lead").role = "kitchen";
    scene.act("add-person", { person: { ...bench, isBench: true } });
    scene.as("ida", "lead").act("add-trays", {
      trays: [{ id: "t9", number: 90, designId: "moon", orderId: "walk", count: 6, placeId: "rack-a" }],
    });
    expect(turnsOf(scene.kitchen, T0).get("t9")).toBe(T0 + 10 * MIN);
    scene.as("kitchen", "lead").role = "kitchen";
    scene.act("add-person", { person: bench });
    expect(turnsOf(scene.kitchen, T0).get("t9")).toBe(T0);
  });
});

describe("an order", () => {
  const order = (scene: Scene) => scene.kitchen.orders["walk"]!;
  const finishing = (likelyMs: number, spreadMs: number): TrayForecast => ({
    finish: { earliestMs: likelyMs - spreadMs, likelyMs, latestMs: likelyMs + spreadMs },
  });

  it("finishes with its last tray at each percentile; spare is what packing leaves before pick-up", () => {
    const scene = aKitchen();
    const trays = {
      t1: finishing(T0 + 10 * HOUR, HOUR),
      t2: finishing(T0 + 9 * HOUR, 4 * HOUR),
      t3: finishing(T0 + 2 * HOUR, HOUR),
    };
    // Pick-up at 30 h, packing 20 min. What is dry at the latest after closing, at 22:00, is packed from 06:00 on.
    expect(orderForecast(scene.kitchen, order(scene), trays, T0)).toEqual({
      finish: { earliestMs: T0 + 9 * HOUR, likelyMs: T0 + 10 * HOUR, latestMs: T0 + 13 * HOUR },
      spareMin: 20 * 60 - 20,
      spareWorstMin: 9 * 60 - 20,
    });
  });

  it("K31 dry in the night is packed once the kitchen opens", () => {
    const scene = aKitchen();
    const trays = { t1: finishing(T0 + 14 * HOUR, HOUR), t2: finishing(T0, 0), t3: finishing(T0, 0) };
    const early = { ...order(scene), pickUpAtMs: T0 + 21 * HOUR + 10 * MIN };
    expect(orderForecast(scene.kitchen, early, trays, T0)).toMatchObject({
      finish: { likelyMs: T0 + 14 * HOUR },
      spareMin: -10,
      spareWorstMin: -10,
    });
  });

  it("K32 packing that is not done by closing goes on at the next opening: nobody stays for it", () => {
    const scene = aKitchen().as("ida", "lead");
    scene.act("set-kitchen", { settings: { packingMin: 120 } });
    const dry = { t1: finishing(T0, 0), t2: finishing(T0, 0), t3: finishing(T0, 0) };
    const at = (pickUpAtMs: number) =>
      orderForecast(scene.kitchen, { ...order(scene), pickUpAtMs }, dry, T0 + 10 * HOUR + 54 * MIN);
    // 19:54 to 20:00, then 06:00 to 07:54; pick-up at 22:00, or at 08:00.
    expect(at(T0 + 13 * HOUR)).toMatchObject({ spareMin: -(9 * 60 + 54) });
    expect(at(T0 + 23 * HOUR)).toMatchObject({ spareMin: 6 });
  });

  it("short is negative; trays long dry can be packed from now", () => {
    const scene = aKitchen();
    const late = { t1: finishing(T0 + 31 * HOUR, HOUR), t2: finishing(T0, 0), t3: finishing(T0, 0) };
    expect(orderForecast(scene.kitchen, order(scene), late, T0)).toMatchObject({
      spareMin: -80,
      spareWorstMin: -140,
    });
    const dry = { t1: finishing(T0, 0), t2: finishing(T0, 0), t3: finishing(T0, 0) };
    expect(orderForecast(scene.kitchen, order(scene), dry, T0 + 29 * HOUR)).toMatchObject({ spareMin: 40 });
  });

  it("is never where one of its trays is, and unknown while one has no outlook or there is none", () => {
    const scene = aKitchen();
    const known = { t1: finishing(T0, 0), t2: finishing(T0, 0) };
    expect(orderForecast(scene.kitchen, order(scene), known, T0)).toBeUndefined();
    const damp = { ...known, t3: { finish: { never: TOO_DAMP } } };
    expect(orderForecast(scene.kitchen, order(scene), damp, T0)).toEqual({ finish: { never: TOO_DAMP } });
    expect(orderForecast({ ...scene.kitchen, trays: {} }, order(scene), known, T0)).toBeUndefined();
  });

  it("a tray beyond what was ordered is not waited for once that is packed", () => {
    const scene = aKitchen();
    const packed = { stage: "packed" as const, atMs: T0 + HOUR, by: "kitchen" as const };
    const { t2, t3 } = scene.kitchen.trays;
    const kitchen = { ...scene.kitchen, trays: { t2: { ...t2!, status: packed }, t3: t3! } };
    const trays = { t3: finishing(T0 + 40 * HOUR, 0) };
    const spareOf = (cookies: number) =>
      orderForecast(kitchen, { ...order(scene), cookies }, trays, T0 + 5 * HOUR)?.spareMin;
    expect(spareOf(10)).toBe(29 * 60);
    expect(spareOf(11)).toBeLessThan(0);
  });

  it("packed trays count by when they were packed, and need no packing", () => {
    const scene = aKitchen();
    const kitchen = {
      ...scene.kitchen,
      trays: {
        t2: {
          ...scene.tray("t2"),
          status: { stage: "packed" as const, atMs: T0 + HOUR, by: "kitchen" as const },
        },
      },
    };
    expect(orderForecast(kitchen, order(scene), {}, T0 + 5 * HOUR)).toMatchObject({ spareMin: 29 * 60 });
  });
});
