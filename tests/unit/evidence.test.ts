import { said } from "#tests/support/said.ts";
import { describe, expect, it } from "vitest";
import { beliefFor, learn } from "#shared/drying/uncertainty/learning.ts";
import type { EvidenceFact, KitchenEvent, ImpliedFactor } from "#shared/kitchen/model/event.ts";
import { evidenceOf, evidenceOfTray, teachingOf } from "#shared/kitchen/forecast/evidence.ts";
import { evolve } from "#shared/kitchen/events/evolve.ts";
import { EMPTY_KITCHEN } from "#shared/kitchen/events/empty-kitchen.ts";
import type { Kitchen } from "#shared/kitchen/model/state.ts";
import { workSoFar } from "#shared/drying/film/run.ts";
import type { CommandId, PersonId, TrayId } from "#shared/ids.ts";
import { decide } from "#shared/kitchen/commands/decide.ts";
import { withImpliedFactors } from "#shared/kitchen/forecast/implied-factors.ts";
import { aKitchen, band, HOUR, id, MIN, type Scene } from "../support/scene.ts";

let acts = 0;
/** An act on t1 at the scene's now, with weights as given: what the deciding side worked out is not in question here. */
function happened(scene: Scene, event: object): void {
  acts += 1;
  const stamp = { atMs: scene.nowMs, by: "wren", actId: `act-${acts}`, trayId: "t1" };
  scene.kitchen = evolve(scene.kitchen, { ...stamp, ...event } as unknown as KitchenEvent);
}

const touched = (scene: Scene, finding: string, weighed: Partial<ImpliedFactor>, layer = 0): void =>
  happened(scene, { type: "touch-tested", layer, finding, weighed: { layer, ...weighed } });

const flooded = (scene: Scene, layer: number, more: object = {}): void =>
  happened(scene, { type: "flooded", layer, weighed: [], ...more });

const factsOf = (scene: Scene, quantity: EvidenceFact["quantity"], layer = 0): EvidenceFact[] =>
  evidenceOfTray(scene.kitchen, scene.tray()).filter(
    (fact) => fact.quantity === quantity && fact.layer === layer,
  );

/** t1 with its first layer laid at T0. */
function laid(): Scene {
  const scene = aKitchen();
  flooded(scene, 0);
  return scene;
}

describe("what one film says", () => {
  it("an untouched film says nothing", () => {
    expect(evidenceOfTray(laid().kitchen, laid().tray())).toEqual([]);
  });

  it("still wet bounds skin and dry through from below; skinned bounds the skin from above", () => {
    const scene = laid().later(8 * MIN);
    touched(scene, "still wet", { skinLn: -0.4, dryThroughLn: -3 });
    scene.later(6 * MIN);
    touched(scene, "skinned", { skinLn: 0.2, dryThroughLn: -2.5 });
    expect(factsOf(scene, "skin")).toMatchObject([
      { lnLow: -0.4, lnHigh: 0.2, foundMin: { low: 8, high: 14 }, icing: "sea-glass", place: "rack-a" },
    ]);
    expect(factsOf(scene, "dryThrough")).toMatchObject([
      { lnLow: -2.5, lnHigh: null, foundMin: { low: 14, high: null } },
    ]);
  });

  it("firm bounds both from above; the tightest bound counts", () => {
    const scene = laid().later(10 * MIN);
    touched(scene, "skinned", { skinLn: 0.1, dryThroughLn: -2 });
    scene.later(600 * MIN);
    touched(scene, "firm", { skinLn: 3.2, dryThroughLn: 0.3 });
    expect(factsOf(scene, "skin")[0]).toMatchObject({ lnLow: null, lnHigh: 0.1 });
    expect(factsOf(scene, "dryThrough")[0]).toMatchObject({ lnLow: -2, lnHigh: 0.3 });
  });

  it("K25 a neighbour laid on a film that a finger had found wet says skinned by then, and that it was an act", () => {
    const scene = laid().later(14 * MIN);
    touched(scene, "still wet", { skinLn: 0.2 });
    scene.later(6 * MIN);
    flooded(scene, 1, { weighed: [{ layer: 0, skinLn: 0.5 }] });
    expect(factsOf(scene, "skin")).toMatchObject([{ lnLow: 0.2, lnHigh: 0.5, byAct: true }]);
    expect(teachingOf(scene.kitchen).filter(({ byAct }) => byAct)).toHaveLength(1);
  });

  it("K25 K26 D37 an act at the board's own word, on a film nobody touched or not lately, says nothing", () => {
    const scene = laid().later(20 * MIN);
    flooded(scene, 1, { weighed: [{ layer: 0, skinLn: 0.5 }] });
    expect(evidenceOfTray(scene.kitchen, scene.tray())).toEqual([]);
    const packed = laid().later(25 * MIN);
    touched(packed, "skinned", { skinLn: 0.1, dryThroughLn: -3 });
    packed.later(9 * HOUR);
    happened(packed, { type: "packed", weighed: [{ layer: 0, dryThroughLn: 0.4 }] });
    expect(factsOf(packed, "dryThrough")).toMatchObject([{ lnLow: -3, lnHigh: null }]);
  });

  it("K25 a neighbour laid too early, its risk accepted, is no evidence of a skin", () => {
    const scene = laid().later(4 * MIN);
    flooded(scene, 1, { weighed: [{ layer: 0, skinLn: -1.5 }], risk: "It may bleed." });
    expect(factsOf(scene, "skin")).toEqual([]);
  });

  it("K26 a tray packed too early, its risk accepted, is no evidence that it was dry", () => {
    const scene = aKitchen();
    scene.act("flooded", { trayId: "t2" });
    scene.later(60 * MIN).act("pack", { trayId: "t2", acceptRisk: true });
    expect(scene.tray("t2").status.stage).toBe("packed");
    expect(evidenceOfTray(scene.kitchen, scene.tray("t2"))).toEqual([]);
  });

  it("K11 a later finding that contradicts is believed, and the item says so", () => {
    const scene = laid().later(10 * MIN);
    touched(scene, "skinned", { skinLn: 0.1 });
    scene.later(5 * MIN);
    touched(scene, "still wet", { skinLn: 0.5 });
    expect(factsOf(scene, "skin")).toMatchObject([{ lnLow: 0.5, lnHigh: null, contradicted: true }]);
    scene.later(5 * MIN);
    touched(scene, "skinned", { skinLn: 0.8 });
    expect(factsOf(scene, "skin")).toMatchObject([{ lnLow: 0.5, lnHigh: 0.8, contradicted: true }]);
  });

  it("D38 a heat-set's end teaches its heat: nothing of the kitchen's air, and another kind of heat apart", () => {
    const scene = laid();
    flooded(scene, 1);
    scene.later(MIN).heatAll("t1", MIN);
    const [fact] = factsOf(scene, "skin", 1);
    expect(fact).toMatchObject({ heat: "hot-air", lnLow: null, lnHigh: expect.any(Number) });
    expect(factsOf(scene, "dryThrough", 1)).toEqual([]);
    const learned = learn(teachingOf(scene.kitchen));
    const skinOf = (heat?: string) =>
      beliefFor(learned, { icing: "another", place: "rack-a", heat }).skin.meanLn;
    expect(skinOf()).toBe(0);
    expect(skinOf("hot-air")).toBeLessThan(0);
    expect(skinOf("oven")).toBe(0);
  });

  it("D38 what a chamber set is known by its heat, what was found hours later by the air", () => {
    const scene = aKitchen();
    for (const trayId of ["t2", "t3"]) scene.act("flooded", { trayId });
    scene.later(MIN).act("start-heat-set", { trayId: "t2", toolId: "oven-1" });
    scene.later(3 * MIN).act("end-heat-set", { trayId: "t2", result: "not yet" });
    const factOf = (quantity: EvidenceFact["quantity"]) =>
      evidenceOfTray(scene.kitchen, scene.tray("t2")).find((fact) => fact.quantity === quantity);
    expect(factOf("skin")).toMatchObject({ heat: "oven", lnLow: expect.any(Number), lnHigh: null });
    scene.later(8 * HOUR).act("touch-test", { trayId: "t2", finding: "firm" });
    expect(factOf("dryThrough")).not.toHaveProperty("heat");
  });

  it("D39 trays flooded from one bowl bear its name: a batch that stands, else what was laid of its colour within the hour", () => {
    const scene = aKitchen();
    const bowlOf = (trayId: string) => scene.tray(trayId).films[0]?.bowl;
    scene.act("flooded", { trayId: "t2" });
    scene.later(50 * MIN).act("flooded", { trayId: "t3" });
    expect(bowlOf("t3")).toEqual(bowlOf("t2"));
    expect(bowlOf("t2")).toBeDefined();
    const { icingId } = scene.kitchen.designs["moon"]!.layers[0]!;
    const again = aKitchen();
    again.act("flooded", { trayId: "t2" });
    again.later(70 * MIN).act("flooded", { trayId: "t3" });
    expect(again.tray("t3").films[0]?.bowl?.id).not.toBe(again.tray("t2").films[0]?.bowl?.id);
    const mixed = aKitchen();
    mixed.act("record-batch", {
      batch: {
        id: "b1",
        icingId,
        consistency: mixed.kitchen.designs["moon"]!.layers[0]!.consistency,
        mixedAtMs: mixed.nowMs,
        useByAtMs: mixed.nowMs + 8 * HOUR,
        closesS: 15,
      },
    });
    mixed.later(MIN).act("flooded", { trayId: "t2" });
    expect(mixed.tray("t2").films[0]?.bowl).toEqual({ id: "b1", closesS: 15 });
    mixed.later(30 * MIN).act("touch-test", { trayId: "t2", finding: "skinned" });
    const [fact] = evidenceOfTray(mixed.kitchen, mixed.tray("t2"));
    expect(fact).toMatchObject({ bowl: "b1", secondsLn: Math.log(15 / 18) });
    mixed.act("take-back", { trayId: "t2", actId: mixed.tray("t2").history.at(-1)!.act.actId });
    expect(evidenceOf(mixed.kitchen)).toEqual([]);
  });

  it("D40 a finding's age is in days of work before the newest one", () => {
    const scene = aKitchen();
    scene.act("flooded", { trayId: "t2" });
    scene.later(30 * MIN).act("touch-test", { trayId: "t2", finding: "skinned" });
    scene.later(7 * 24 * HOUR).act("flooded", { trayId: "t3" });
    scene.later(30 * MIN).act("touch-test", { trayId: "t3", finding: "skinned" });
    const skins = teachingOf(scene.kitchen).filter(({ quantity }) => quantity === "skin");
    // Open six days a week.
    expect(skins.map(({ ageDays }) => ageDays)).toEqual([6, 0]);
    expect(skins.map(({ film }) => film)).toEqual(["t2/0", "t3/0"]);
  });

  it("keeps the place where the film lay longest, and the forecast first shown", () => {
    const scene = aKitchen();
    scene.act("flooded", { trayId: "t1" });
    scene.later(2 * MIN).act("move-tray", { trayId: "t1", placeId: "fan" });
    scene.forecast("t1", 0, { skin: band(scene.nowMs + 20 * MIN) });
    scene.later(9 * MIN).act("touch-test", { trayId: "t1", finding: "skinned" });
    expect(factsOf(scene, "skin")).toMatchObject([
      { place: "fan", shown: { earliestMin: 12, likelyMin: 22, latestMin: 32 } },
    ]);
    expect(factsOf(scene, "skin")[0]?.lnHigh).toBeTypeOf("number");
  });
});

it("D13 a finding taken back says nothing any more", () => {
  const scene = aKitchen();
  scene.act("flooded", { trayId: "t1" });
  const touch = scene.later(9 * MIN).act("touch-test", { trayId: "t1", finding: "skinned" });
  expect(factsOf(scene, "skin")).toHaveLength(1);
  scene.act("take-back", { trayId: "t1", actId: touch });
  expect(evidenceOf(scene.kitchen)).toEqual([]);
});

it("K3 D13 replaying the log teaches the same to the last digit, whatever was read since, what was taken back left out", () => {
  const scene = aKitchen().as("ida", "lead");
  const reads = (rhPct: number): string =>
    scene.act("enter-reading", { reading: { placeId: "rack-a", tempC: 22, rhPct, source: "typed" } });
  reads(50);
  for (const trayId of ["t1", "t2", "t3"]) scene.act("flooded", { trayId });
  scene.later(25 * MIN).act("touch-test", { trayId: "t2", finding: "still wet" });
  scene.later(15 * MIN).act("touch-test", { trayId: "t2", finding: "skinned" });
  const mistaken = scene.act("touch-test", { trayId: "t3", finding: "firm" });
  scene.later(MIN).act("touch-test", { trayId: "t1", finding: "skinned" });
  scene.act("take-back", { trayId: "t3", actId: mistaken });
  const learnedFrom = (kitchen: Kitchen) => learn(teachingOf(kitchen));
  const before = learnedFrom(scene.kitchen);
  reads(80);
  const log = JSON.parse(JSON.stringify(scene.events)) as KitchenEvent[];
  expect(learnedFrom(log.reduce(evolve, EMPTY_KITCHEN))).toEqual(before);
  expect(before.tests).toEqual({ skin: 2, dryThrough: 2 });
});

it("K24 what trays put away taught is kept, and an open end is infinite to the learning", () => {
  const scene = laid().later(10 * MIN);
  touched(scene, "skinned", { skinLn: 0.1 });
  const evidence = evidenceOfTray(scene.kitchen, scene.tray());
  happened(scene, { type: "trays-put-away", trayIds: ["t1"], evidence });
  expect(scene.kitchen.trays["t1"]).toBeUndefined();
  expect(evidenceOf(scene.kitchen)).toEqual(evidence);
  expect(teachingOf(scene.kitchen)).toMatchObject([{ lnLow: -Infinity, lnHigh: 0.1 }]);
  expect(teachingOf(scene.kitchen)[0]).not.toHaveProperty("film");
  expect(learn(teachingOf(scene.kitchen)).tests).toEqual({ skin: 1, dryThrough: 0 });
});

describe("K44 deciding solves no drying equations", () => {
  it("of a tray with four films that is packed: what it implies is added afterwards, once", () => {
    const scene = aKitchen();
    for (let layer = 0; layer < 4; layer += 1)
      scene.later(HOUR).act("flooded", { trayId: "t1", acceptRisk: true });
    for (let layer = 0; layer < 4; layer += 1)
      scene.later(HOUR).act("touch-test", { trayId: "t1", layer, finding: "firm" });
    const { kitchen, forecasts, nowMs } = scene;
    const context = { nowMs, by: id<PersonId>("wren"), role: "decorator" as const, forecasts };
    const command = { type: "pack" as const, commandId: id<CommandId>("p1"), trayId: id<TrayId>("t1") };
    const worked = workSoFar();
    const decision = decide(kitchen, command, context);
    expect(workSoFar()).toBe(worked);
    if (!decision.ok) throw new Error(said(decision.refusal));
    expect(decision.value).toMatchObject([
      { type: "packed", weighed: [0, 1, 2, 3].map((layer) => ({ layer })) },
    ]);
    const [packed] = decision.value.map((event) => withImpliedFactors(kitchen, event));
    expect(workSoFar()).toBeGreaterThan(worked);
    expect(
      packed?.type === "packed" && packed.weighed.every(({ dryThroughLn }) => dryThroughLn !== undefined),
    ).toBe(true);
  });
});
