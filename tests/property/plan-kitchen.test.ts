import fc from "fast-check";
import { expect, test } from "vitest";
import { learn } from "#shared/drying/uncertainty/learning.ts";
import { crewOf } from "#shared/kitchen/plan/crew.ts";
import { openHours } from "#shared/kitchen/plan/hours.ts";
import { paceOf } from "#shared/kitchen/plan/pace.ts";
import type { DayPlan } from "#shared/kitchen/plan/plan.ts";
import { byName } from "#shared/collections.ts";
import { openFromMs } from "#shared/kitchen/model/opening-hours.ts";
import type { Spans } from "#shared/kitchen/forecast/films.ts";
import { aKitchen, band, HOUR, MIN, type Scene } from "#tests/support/scene.ts";
import { dayPlanSteps, minutes } from "#tests/support/plan-of.ts";
import { TOO_DAMP } from "#tests/support/too-damp.ts";

const upTo = (most: number) => fc.integer({ min: 0, max: most });
const day = fc.option(
  fc
    .tuple(upTo(22), fc.integer({ min: 1, max: 23 }))
    .map(([from, hours]) => ({ fromMin: from * 60, toMin: ((from + hours) * 60) % 1440 || 1440 })),
  { nil: null },
);
const week = fc.tuple(day, day, day, day, day, day, day);
const settings = fc.record({
  opening: week,
  hands: fc.option(fc.integer({ min: 1, max: 5 }), { nil: null }),
  floodingMin: fc.integer({ min: 1, max: 120 }),
  packingMin: upTo(240),
  icingChangeMin: upTo(60),
});

/** A kitchen at any moment of any week: trays begun or not, given or not, people with hours of their own, tools in service or not. */
const kitchens = fc.record({
  settings,
  people: fc.array(fc.option(week, { nil: null }), { minLength: 3, maxLength: 3 }),
  laterH: upTo(200),
  pickUpH: fc.integer({ min: -20, max: 100 }),
  laid: upTo(4),
  inHand: fc.boolean(),
  given: fc.array(upTo(3), { minLength: 3, maxLength: 3 }),
  isHotAirAway: fc.boolean(),
  more: upTo(8),
  dryMin: fc.integer({ min: 1, max: 5000 }),
  neverDries: fc.boolean(),
});
type Made = typeof kitchens extends fc.Arbitrary<infer T> ? T : never;

function sceneOf(made: Made): Scene {
  const scene = aKitchen().as("ida", "lead");
  const people = ["ida", "wren", "sol"];
  if (made.isHotAirAway) scene.act("tool-out-of-service", { toolId: "hot-1", reason: "away" });
  scene.act("set-kitchen", { settings: made.settings });
  for (const [k, hours] of made.people.entries()) scene.act("set-hours", { personId: people[k]!, hours });
  scene.act("add-trays", {
    trays: Array.from({ length: made.more + 1 }, (_, k) => ({
      id: `m${k}`,
      number: 60 + k,
      designId: k % 2 === 0 ? "moon" : "lantern",
      orderId: "walk",
      count: 1 + ((5 * k) % 17),
      placeId: "rack-a",
    })),
  });
  for (const [k, who] of made.given.entries())
    if (who < 3) scene.act("assign-tray", { trayId: `t${k + 1}`, to: people[who]! });
  scene.later(made.laterH * HOUR);
  for (let layer = 0; layer < made.laid; layer += 1) {
    scene.act("flooded", { trayId: "t1", acceptRisk: true });
    scene.forecast("t1", layer, {
      skin: band(scene.nowMs + HOUR),
      dryThrough: band(scene.nowMs + made.dryMin * MIN),
    });
  }
  if (made.inHand) {
    scene.act("start-flooding", { trayId: "t2" });
    scene.later(7 * MIN);
    scene.forecast("t2", 0, { skin: band(scene.nowMs + HOUR), dryThrough: band(scene.nowMs + 9 * HOUR) });
  }
  const pickUpAtMs = scene.nowMs + made.pickUpH * HOUR;
  scene.act("put-order", { order: { id: "walk", name: "Lantern Walk", pickUpAtMs, cookies: 32 } });
  return scene;
}

/** Opening hours are followed so far. */
const FOLLOWED_MS = 14 * 24 * HOUR;
/** Far more than any of these plans takes: a search that does not end would. */
const STEPS_MOST = 2000;

function planOf({ kitchen, nowMs, forecasts }: Scene, spansOf: () => Spans): DayPlan {
  const input = {
    kitchen,
    nowMs,
    films: forecasts.films,
    spansOf,
    pace: paceOf(kitchen),
    learned: learn([]),
  };
  const steps = dayPlanSteps(input);
  for (let taken = 0; taken < STEPS_MOST; taken += 1) {
    const step = steps.next();
    if (step.done === true) return step.value;
  }
  throw new Error("no end");
}

test("K45 K48 K54 whatever the kitchen, its plan has an end, and is one that its hands could keep", () => {
  fc.assert(
    fc.property(kitchens, (made) => {
      const scene = sceneOf(made);
      const { kitchen, nowMs } = scene;
      const span = minutes(0.6 * made.dryMin, made.dryMin, 1.7 * made.dryMin);
      const spans: Spans = made.neverDries
        ? { skin: span, dryThrough: { never: TOO_DAMP } }
        : { skin: span, dryThrough: span };
      const plan = planOf(scene, () => spans);
      const hands = crewOf(kitchen, openHours(kitchen.settings, nowMs), nowMs).length;
      const byHands = plan.acts.filter(({ act, place }) => act !== "heat" || place !== "oven");
      for (const one of plan.acts) {
        expect(Number.isFinite(one.startMs) && one.endMs >= one.startMs && one.startMs >= nowMs).toBe(true);
        // Begun while the kitchen is open, but for what is in hand already and what an oven or a pack goes on with.
        if (one.act === "flood" && one.startMs > nowMs && one.startMs < nowMs + FOLLOWED_MS)
          expect(openFromMs(kitchen.settings, one.startMs) - one.startMs).toBeLessThanOrEqual(MIN);
      }
      for (const own of byName(byHands, ({ who }) => who ?? "").values()) {
        if (own[0]?.who === undefined) continue;
        // Rounded to the minute each.
        for (const [k, { startMs }] of own.entries())
          if (k > 0) expect(startMs).toBeGreaterThanOrEqual(own[k - 1]!.endMs - MIN);
      }
      const marks = byHands.map(({ startMs }) => startMs);
      for (const at of marks) {
        const busy = byHands.filter(({ startMs, endMs }) => startMs <= at && endMs - MIN > at);
        expect(busy.length).toBeLessThanOrEqual(hands + Number(made.inHand));
      }
      for (const tray of Object.values(kitchen.trays)) {
        const layers = plan.acts.filter(({ trayId, act }) => trayId === tray.id && act === "flood");
        expect(layers.map(({ layer }) => layer)).toEqual(layers.map((_, k) => (layers[0]?.layer ?? 0) + k));
        if (!made.neverDries)
          expect(plan.acts.filter(({ trayId, act }) => trayId === tray.id && act === "pack")).toHaveLength(1);
      }
      const order = plan.orders["walk"]!;
      expect(order.chance).toBeGreaterThanOrEqual(0);
      expect(order.chance).toBeLessThanOrEqual(1);
      if (made.neverDries) expect(order.finish).toEqual({ never: TOO_DAMP });
      else {
        const { earliestMs, likelyMs, latestMs } = order.packed!;
        expect([earliestMs, likelyMs, latestMs]).toEqual(
          [earliestMs, likelyMs, latestMs].toSorted((a, b) => a - b),
        );
        expect(earliestMs).toBeGreaterThanOrEqual(nowMs);
        // Packed while the kitchen is open, up to the minute it closes: no moment between two openings.
        for (const ms of [earliestMs, likelyMs, latestMs].filter((one) => one < nowMs + FOLLOWED_MS))
          expect(openFromMs(kitchen.settings, ms - MIN) - ms).toBeLessThanOrEqual(0);
      }
    }),
    { numRuns: 60 },
  );
}, 60_000);
