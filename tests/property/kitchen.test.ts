import { said } from "#tests/support/said.ts";
import fc from "fast-check";
import { describe, expect, it } from "vitest";
import * as v from "valibot";
import { Command, COMMANDS } from "#shared/kitchen/model/command.ts";
import { KitchenEvent } from "#shared/kitchen/model/event.ts";
import { evolve } from "#shared/kitchen/events/evolve.ts";
import { foldFrom } from "#shared/kitchen/events/fold.ts";
import { EMPTY_KITCHEN } from "#shared/kitchen/events/empty-kitchen.ts";
import { aliveTrays, standsAt } from "#shared/kitchen/model/lookups.ts";
import type { Kitchen } from "#shared/kitchen/model/state.ts";
import { replayActs } from "#shared/kitchen/tray/fold.ts";
import { aKitchen, band, HOUR, MIN, type Scene, T0 } from "../support/scene.ts";

const pick = <const Words extends readonly string[]>(...words: Words): fc.Arbitrary<string> =>
  fc.constantFrom(...words);
const trayId = pick("t1", "t2", "t3", "t4", "nobody");
const placeId = pick("rack-a", "fan", "cabinet", "oven", "nowhere");
const toolId = pick("hot-1", "oven-1", "no-tool");
const person = pick("ida", "wren", "sol", "stranger");

/** Any command, sensible or odd: kinds and fields drawn so that most runs get far along a tray's way. */
const step = fc.oneof(
  { weight: 6, arbitrary: fc.record({ type: fc.constant("flooded"), trayId, acceptRisk: fc.boolean() }) },
  {
    weight: 3,
    arbitrary: fc.record({ type: fc.constant("start-flooding"), trayId, acceptRisk: fc.boolean() }),
  },
  {
    weight: 4,
    arbitrary: fc.record(
      { type: fc.constant("touch-test"), trayId, finding: pick("still wet", "skinned", "firm") },
      { requiredKeys: ["type", "trayId", "finding"] },
    ),
  },
  { weight: 2, arbitrary: fc.record({ type: fc.constant("move-tray"), trayId, placeId }) },
  { weight: 3, arbitrary: fc.record({ type: fc.constant("start-heat-set"), trayId, toolId }) },
  { weight: 3, arbitrary: fc.record({ type: fc.constant("next-cookie"), trayId }) },
  { weight: 2, arbitrary: fc.record({ type: fc.constant("heat-on"), trayId }) },
  {
    weight: 3,
    arbitrary: fc.record({
      type: fc.constant("end-heat-set"),
      trayId,
      result: pick("set", "not yet", "swollen or cracked"),
      spoiled: fc.integer({ min: 0, max: 14 }),
    }),
  },
  { weight: 2, arbitrary: fc.record({ type: fc.constant("pack"), trayId, acceptRisk: fc.boolean() }) },
  {
    weight: 1,
    arbitrary: fc.record({
      type: fc.constant("report-problem"),
      trayId,
      problem: pick("bled", "sunk"),
      count: fc.integer({ min: 1, max: 14 }),
    }),
  },
  { weight: 4, arbitrary: fc.record({ type: fc.constant("take-back"), trayId, nth: fc.nat(8) }) },
  {
    weight: 1,
    arbitrary: fc.record({
      type: fc.constant("assign-tray"),
      trayId,
      to: fc.oneof(person, fc.constant(null)),
    }),
  },
  {
    weight: 1,
    arbitrary: fc.record({
      type: pick("tool-on", "tool-off", "tool-still-in-use", "tool-back-in-service"),
      toolId,
    }),
  },
  {
    weight: 1,
    arbitrary: fc.record({
      type: fc.constant("tool-out-of-service"),
      toolId,
      reason: fc.constant("cord frayed"),
    }),
  },
  { weight: 1, arbitrary: fc.record({ type: fc.constant("hand-over-tool"), toolId, to: person }) },
  {
    weight: 1,
    arbitrary: fc.record({
      type: fc.constant("read-tool-temperature"),
      toolId,
      tempC: fc.integer({ min: -5, max: 600 }),
    }),
  },
  {
    weight: 1,
    arbitrary: fc.record({
      type: fc.constant("enter-reading"),
      reading: fc.record({
        placeId,
        tempC: fc.integer({ min: 10, max: 40 }),
        rhPct: fc.integer({ min: 10, max: 95 }),
        source: fc.constant("typed"),
      }),
    }),
  },
  {
    weight: 2,
    arbitrary: fc.record({
      type: fc.constant("record-batch"),
      batch: fc.record({
        id: pick("b1", "b2"),
        icingId: pick("storm", "no-icing"),
        consistency: pick("flood", "top-coat"),
        mixedAtMs: fc.integer({ min: T0 - 20 * 24 * HOUR, max: T0 + HOUR }),
        useByAtMs: fc.integer({ min: T0 - HOUR, max: T0 + 15 * 24 * HOUR }),
      }),
    }),
  },
  { weight: 1, arbitrary: fc.record({ type: fc.constant("finish-batch"), batchId: pick("b1", "b2") }) },
  { weight: 1, arbitrary: fc.record({ type: pick("reconcile-alerts", "archive") }) },
  { weight: 1, arbitrary: fc.record({ type: fc.constant("remove-tray"), trayId }) },
);
const run = fc.array(
  fc.record({
    step,
    who: fc.constantFrom("ida", "wren", "sol", "kitchen"),
    waitMs: fc.constantFrom(0, 500, 20_000, MIN, 10 * MIN, HOUR, 8 * HOUR),
    backMs: fc.constantFrom(0, 0, 0, MIN, 11 * HOUR),
  }),
  { maxLength: 40 },
);

type Steps = typeof run extends fc.Arbitrary<infer Value> ? Value : never;

function drive(
  steps: Steps,
  each: (scene: Scene, before: Kitchen, decision: ReturnType<Scene["send"]>) => void,
): Scene {
  const scene = aKitchen();
  scene.forecast("t1", 1, { skin: band(T0 + HOUR), dryThrough: band(T0 + 9 * HOUR) });
  for (const [index, { step: input, who, waitMs, backMs }] of steps.entries()) {
    scene.later(waitMs);
    scene.by = who as Scene["by"];
    scene.role = who === "kitchen" ? "kitchen" : who === "ida" ? "lead" : "decorator";
    const nth = "nth" in input ? scene.kitchen.trays[input.trayId]?.history[input.nth]?.act.actId : undefined;
    const asked = {
      ...input,
      ...("nth" in input ? { actId: nth ?? "never" } : {}),
      commandId: `c${index}`,
      atMs: scene.nowMs - backMs,
    };
    const command = v.parse(Command, asked);
    const before = scene.kitchen;
    each(scene, before, scene.send(command));
  }
  return scene;
}

function checkInvariants(kitchen: Kitchen): void {
  const alive = aliveTrays(kitchen);
  expect(new Set(alive.map(({ number }) => number)).size).toBe(alive.length);
  for (const tray of Object.values(kitchen.trays)) {
    const design = kitchen.designs[tray.designId]!;
    expect(tray.films.map(({ layer }) => layer)).toEqual(tray.films.map((_, index) => index));
    expect(tray.films.length).toBeLessThanOrEqual(design.layers.length);
    for (const [index, film] of tray.films.entries()) {
      expect(film.clockStartMs).toBeGreaterThanOrEqual(film.floodingFromMs);
      if (index > 0) expect(film.clockStartMs).toBeGreaterThanOrEqual(tray.films[index - 1]!.clockStartMs);
    }
    expect(replayActs(tray, tray.history, design)).toEqual(tray);
    if (tray.status.stage === "packed") expect(tray.films).toHaveLength(design.layers.length);
    if (tray.status.stage === "heat-set") expect(tray.status.heat.laps.length).toBeLessThan(tray.count);
    if (standsAt(tray).placeId === "oven") expect(tray.status.stage).toBe("heat-set");
  }
  const hot = Object.values(kitchen.trays).filter(
    ({ status }) => status.stage === "heat-set" && status.heat.toolKind === "hot-air",
  );
  expect(new Set(hot.map(({ status }) => (status.stage === "heat-set" ? status.heat.toolId : ""))).size).toBe(
    hot.length,
  );
  for (const tool of Object.values(kitchen.tools))
    if (hot.some(({ status }) => status.stage === "heat-set" && status.heat.toolId === tool.id))
      expect(tool.use.status).toBe("on");
}

describe("the kitchen, whatever is asked of it", () => {
  it("K2 K3 no command breaks an invariant, every refusal is a sentence that changes nothing, and replaying gives the same state", () => {
    fc.assert(
      fc.property(run, (steps) => {
        const scene = drive(steps, (now, before, decision) => {
          if (decision.ok) return;
          expect(now.kitchen).toBe(before);
          expect(said(decision.refusal)).toMatch(/^\S.{9,}[.?!)\w]$/s);
          expect(said(decision.refusal)).not.toMatch(/undefined|null|NaN|\[object/);
        });
        checkInvariants(scene.kitchen);
        const stored = scene.events.map((event) => v.parse(KitchenEvent, JSON.parse(JSON.stringify(event))));
        expect(stored.reduce(evolve, EMPTY_KITCHEN)).toEqual(scene.kitchen);
        const fold = foldFrom(EMPTY_KITCHEN);
        for (const event of stored) fold.add(event);
        expect(fold.kitchen()).toEqual(scene.kitchen);
      }),
      { numRuns: 150 },
    );
  });

  it("K16 taking back the newest act of a tray leaves its films, standing and places as they were", () => {
    fc.assert(
      fc.property(run, (steps) => {
        drive(steps, (scene, before, decision) => {
          const event = decision.ok ? decision.value[0] : undefined;
          if (
            event === undefined ||
            !("trayId" in event) ||
            event.type === "act-taken-back" ||
            event.type === "tray-removed"
          )
            return;
          const now = scene.kitchen;
          const [keep, role, by] = [scene.events.length, scene.role, scene.by];
          scene.role = "lead";
          scene.by = "ida" as Scene["by"];
          // A heat-set that ended a flooding is two acts: the later is taken back first.
          const acts = decision.ok ? decision.value.map(({ actId }) => actId).toReversed() : [];
          const undone = acts.map((actId) => scene.ask("take-back", { trayId: event.trayId, actId }));
          const refused = undone.find(({ ok }) => !ok);
          if (refused === undefined) {
            const { history: _now, hotUntilMs: hot = 0, ...after } = scene.kitchen.trays[event.trayId]!;
            const { history: _then, hotUntilMs: wasHot = 0, ...earlier } = before.trays[event.trayId]!;
            expect(after).toEqual(earlier);
            // It may have been in the heat meanwhile: what is hot is not said to be cold.
            expect(hot).toBeGreaterThanOrEqual(wasHot);
          } else expect(refused).toMatchObject({ refusal: { reason: "too-late" } });
          Object.assign(scene, { kitchen: now, role, by });
          scene.events.length = keep;
        });
      }),
      { numRuns: 60 },
    );
  });

  it("K1 every kind of command is named once", () => {
    const names = COMMANDS.map((command) => command.entries.type.literal);
    expect(new Set(names).size).toBe(names.length);
  });
});
