import type { Band } from "#shared/drying/uncertainty/band.ts";
import { TOO_DAMP } from "#tests/support/too-damp.ts";
import fc from "fast-check";
import * as v from "valibot";
import { expect, it } from "vitest";
import { type DueAlert, dueAlerts } from "#shared/kitchen/alerts/due.ts";
import type { Forecasts } from "#shared/kitchen/model/forecast.ts";
import type { Kitchen } from "#shared/kitchen/model/state.ts";
import { heldForecasts } from "#server/forecast/held-forecasts.ts";
import { AlertFact } from "#shared/kitchen/model/alert.ts";
import { aliveTrays } from "#shared/kitchen/model/lookups.ts";
import { dueNow, tend } from "../support/alerting.ts";
import { aKitchen, HOUR, MIN, type Scene } from "../support/scene.ts";

const trayId = fc.constantFrom("t1", "t2", "t3");
const toolId = fc.constantFrom("hot-1", "oven-1");
const by = fc.constantFrom("wren", "sol", "ida");
const act = (type: string, fields: Record<string, fc.Arbitrary<unknown>> = {}) =>
  fc.record({ type: fc.constant(type), by, fields: fc.record(fields) });

/** A tap, sensible or not, and how long the hands took to it. */
const tap = fc.record({
  waitMs: fc.integer({ min: 0, max: 4 * MIN }),
  lost: fc.subarray(["wren", "sol", "ida"]),
  command: fc.oneof(
    { weight: 4, arbitrary: act("flooded", { trayId, acceptRisk: fc.constant(true) }) },
    { weight: 1, arbitrary: act("start-flooding", { trayId, acceptRisk: fc.constant(true) }) },
    { weight: 5, arbitrary: act("start-heat-set", { trayId, toolId }) },
    { weight: 4, arbitrary: act("next-cookie", { trayId }) },
    { weight: 3, arbitrary: act("heat-on", { trayId }) },
    { weight: 2, arbitrary: act("end-heat-set", { trayId, result: fc.constantFrom("set", "not yet") }) },
    {
      weight: 2,
      arbitrary: act("touch-test", { trayId, finding: fc.constantFrom("still wet", "skinned", "firm") }),
    },
    {
      weight: 1,
      arbitrary: act("move-tray", { trayId, placeId: fc.constantFrom("rack-a", "fan", "cabinet") }),
    },
    { weight: 1, arbitrary: act("pack", { trayId, acceptRisk: fc.constant(true) }) },
    { weight: 1, arbitrary: act("tool-on", { toolId }) },
    { weight: 1, arbitrary: act("tool-off", { toolId }) },
    { weight: 1, arbitrary: act("hand-over-tool", { toolId, to: by }) },
    {
      weight: 1,
      arbitrary: act("read-tool-temperature", { toolId, tempC: fc.integer({ min: 20, max: 400 }) }),
    },
    {
      weight: 1,
      arbitrary: act("enter-reading", {
        reading: fc.record({
          placeId: fc.constantFrom("rack-a", "oven"),
          tempC: fc.integer({ min: 18, max: 95 }),
          rhPct: fc.integer({ min: 20, max: 95 }),
          source: fc.constantFrom("sensor", "typed"),
        }),
      }),
    },
  ),
});

const bandAfter = (startMs: number): fc.Arbitrary<Band> =>
  fc.oneof(
    {
      weight: 8,
      arbitrary: fc.tuple(fc.nat(90), fc.nat(60), fc.nat(90)).map(([a, b, c]) => ({
        earliestMs: startMs + a * MIN,
        likelyMs: startMs + (a + b) * MIN,
        latestMs: startMs + (a + b + c) * MIN,
      })),
    },
    { weight: 1, arbitrary: fc.constant({ never: TOO_DAMP }) },
  );

/** Forecasts of whatever there is, some of them missing. */
function forecast(scene: Scene, seeds: readonly number[]): void {
  const drawn = <Value>(arbitrary: fc.Arbitrary<Value>, k: number): Value =>
    fc.sample(arbitrary, { numRuns: 1, seed: seeds[k % seeds.length]! + k })[0]!;
  for (const [k, tray] of aliveTrays(scene.kitchen).entries())
    for (const film of tray.films)
      scene.forecast(tray.id, film.layer, {
        skin: drawn(bandAfter(film.clockStartMs), 7 * k + film.layer),
        dryThrough: drawn(bandAfter(film.clockStartMs + HOUR), 7 * k + film.layer + 100),
      });
  const spareMin = drawn(fc.integer({ min: -90, max: 300 }), 3);
  const finish = drawn(bandAfter(scene.nowMs), 4);
  scene.forecasts = {
    ...scene.forecasts,
    orders: { walk: { finish, spareMin, spareWorstMin: spareMin - 60 } },
  };
}

function run(
  scene: Scene,
  { waitMs, lost, command }: typeof tap extends fc.Arbitrary<infer Tap> ? Tap : never,
): void {
  scene.later(waitMs).as(command.by, command.by === "ida" ? "lead" : "decorator");
  scene.lostPeople = new Set(lost);
  scene.ask(command.type as "reconcile-alerts", command.fields);
}

/** A loaded machine takes its time. */
const SLOW_MS = 60_000;
const taps = fc.array(tap, { minLength: 5, maxLength: 40 });
const seeds = fc.array(fc.nat(1_000_000), { minLength: 3, maxLength: 3 });

it(
  "A13 however the taps fall, no heat-set is past its cap without an urgent alert about it",
  () => {
    let pastCap = 0;
    fc.assert(
      fc.property(taps, seeds, (sequence, drawn) => {
        const scene = aKitchen();
        for (const one of sequence) {
          run(scene, one);
          forecast(scene, drawn);
          for (const { id, status } of aliveTrays(scene.kitchen)) {
            if (status.stage !== "heat-set" || status.heat.pausedSinceMs !== undefined) continue;
            if (scene.nowMs - status.heat.lapFromMs < 1000 * status.heat.limits.capS) continue;
            pastCap += 1;
            const urgent = dueNow(scene).filter((alert) => alert.trayId === id && alert.class === "urgent");
            expect(urgent).toHaveLength(1);
            expect(urgent[0]?.recipients).toMatchObject({ wall: true, everyone: true });
          }
        }
      }),
      { numRuns: 60 },
    );
    expect(pastCap).toBeGreaterThan(0);
  },
  SLOW_MS,
);

it(
  "A1 the same kitchen at the same moment gives the same alerts, well formed, each under a key of its own",
  () => {
    fc.assert(
      fc.property(taps, seeds, (sequence, drawn) => {
        const scene = aKitchen();
        for (const one of sequence) {
          run(scene, one);
          forecast(scene, drawn);
          const due = dueNow(scene);
          expect(dueNow(scene)).toEqual(due);
          expect(new Set(due.map(({ key }) => key)).size).toBe(due.length);
          for (const alert of due) expect(v.safeParse(AlertFact, alert).success).toBe(true);
          tend(scene);
          expect(tend(scene)).toEqual({ raised: [], cleared: [] });
        }
      }),
      { numRuns: 60 },
    );
  },
  SLOW_MS,
);

it(
  "A31 a look finds what one that knows of no earlier look does, whichever way the clock stepped",
  () => {
    let found = 0;
    fc.assert(
      fc.property(
        taps,
        seeds,
        fc.array(fc.integer({ min: -HOUR, max: 3 * HOUR })),
        (sequence, drawn, steps) => {
          const scene = aKitchen();
          // As the server holds them: rows written in place.
          const held = heldForecasts();
          for (const [k, one] of sequence.entries()) {
            run(scene, one);
            // Every other time: between, only the kitchen changes.
            if (k % 2 === 0) {
              const others = drawn.map((seed) => seed + k);
              forecast(scene, others);
              held.put({ ...scene.forecasts, change: null });
            }
            for (const byMs of [0, ...steps.slice(0, 4)]) {
              const look = (kitchen: Kitchen, forecasts: Forecasts): DueAlert[] =>
                dueAlerts(kitchen, forecasts, scene.nowMs + byMs, scene.lostPeople);
              const due = look(scene.kitchen, held.current());
              expect(due).toEqual(look(structuredClone(scene.kitchen), structuredClone(held.current())));
              found += due.length;
            }
            if (k % 3 === 0) tend(scene);
          }
        },
      ),
      { numRuns: 60 },
    );
    expect(found).toBeGreaterThan(1000);
  },
  SLOW_MS,
);

it(
  "A21 with nothing happening but time, no alert is raised a second time",
  () => {
    let raisedInAll = 0;
    fc.assert(
      fc.property(taps, seeds, (sequence, drawn) => {
        const scene = aKitchen();
        for (const one of sequence) run(scene, one);
        forecast(scene, drawn);
        const raised: string[] = [];
        for (let step = 0; step < 120; step += 1) raised.push(...tend(scene.later(MIN)).raised);
        expect(raised).toEqual([...new Set(raised)]);
        raisedInAll += raised.length;
      }),
      { numRuns: 30 },
    );
    expect(raisedInAll).toBeGreaterThan(40);
  },
  SLOW_MS,
);
