import { refusalOf as refusedAs, saidOf, worded } from "#tests/support/said.ts";
import { describe, expect, it } from "vitest";
import { parse } from "#shared/fields.ts";
import { english } from "#shared/words/en/index.ts";
import { batchesOf, nameOf, tooOld } from "#shared/kitchen/mixing/batches.ts";
import { Command } from "#shared/kitchen/model/command.ts";
import { EMPTY_KITCHEN, evolve } from "#shared/kitchen/events/evolve.ts";
import { MOST } from "#shared/limits.ts";
import { aKitchen, HOUR, id, MIN, type Scene, T0 } from "../support/scene.ts";

const DAY = 24 * HOUR;
const STORM = { icingId: id("storm"), consistency: "top-coat" } as const;
const batch = (more: object = {}): object => ({
  id: "b1",
  ...STORM,
  mixedAtMs: T0,
  useByAtMs: T0 + 5 * HOUR,
  massG: 400,
  ...more,
});
const refusalOf = (scene: Scene, more: object): { reason: string; message: string } => {
  const decision = scene.ask("record-batch", { batch: batch(more) });
  return refusedAs(decision);
};

describe("a batch of mixed icing", () => {
  it("K28 K3 stands with whoever recorded it until someone says it is used up; the log keeps both", () => {
    const scene = aKitchen();
    scene.act("record-batch", { batch: batch() });
    expect(scene.kitchen.batches).toEqual({ b1: { ...batch(), by: "wren" } });
    scene.as("sol").act("finish-batch", { batchId: "b1" });
    expect(scene.kitchen.batches).toEqual({});
    expect(scene.events.slice(-2)).toMatchObject([
      { type: "batch-mixed", by: "wren", batch: batch() },
      { type: "batch-finished", by: "sol", batchId: "b1" },
    ]);
    expect(scene.events.reduce(evolve, EMPTY_KITCHEN)).toEqual(scene.kitchen);
  });

  it("K28 one said to be used up by mistake is recorded again as it was, even near the end of its days", () => {
    const scene = aKitchen();
    const old = batch({ mixedAtMs: T0 - 14 * DAY, useByAtMs: T0 - 1 });
    scene.act("record-batch", { batch: old });
    scene.act("finish-batch", { batchId: "b1" });
    scene.act("record-batch", { batch: old });
    expect(scene.kitchen.batches["b1"]).toEqual({ ...old, by: "wren" });
  });

  it("K29 its use-by lies after mixing and at most 14 days later", () => {
    const scene = aKitchen();
    const words = "batch.useByAtMs must lie after mixing, and at most 14 days after it.";
    for (const useByAtMs of [T0 - 1, T0, T0 + 14 * DAY + 1])
      expect(refusalOf(scene, { useByAtMs })).toEqual({ reason: "out-of-range", message: words });
    scene.act("record-batch", { batch: batch({ useByAtMs: T0 + 1 }) });
    scene.act("record-batch", { batch: batch({ id: "b2", useByAtMs: T0 + 14 * DAY }) });
  });

  it("K28 K5 it was mixed within the last 15 days, and not in the future", () => {
    const scene = aKitchen();
    for (const mixedAtMs of [T0 + 5001, T0 - 15 * DAY - 1])
      expect(refusalOf(scene, { mixedAtMs, useByAtMs: mixedAtMs + HOUR })).toEqual({
        reason: "out-of-range",
        message: "batch.mixedAtMs must lie within the last 15 days.",
      });
    scene.act("record-batch", { batch: batch({ mixedAtMs: T0 + 5000 }) });
  });

  it.each([
    [{ massG: 0.9 }, "batch.massG must be 1 to 50000 g"],
    [{ massG: 50_001 }, "batch.massG must be 1 to 50000 g"],
    [{ consistency: "runny" }, "batch.consistency must be one of: outline, top-coat, flood, detail"],
    [{ useByAtMs: undefined }, "batch.useByAtMs is missing"],
  ])("K29 P8 %o is malformed, in words that name the field and its range", (more, words) => {
    const parsed = parse(Command, { type: "record-batch", commandId: "c1", batch: batch(more) });
    expect(!parsed.ok && saidOf(parsed.refusal)).toContain(words);
  });

  it("K28 may go without a mass; an unknown icing, an id twice and what is gone are refused", () => {
    const scene = aKitchen();
    const { massG: _none, ...bare } = batch() as { massG: number };
    scene.act("record-batch", { batch: bare });
    expect(refusalOf(scene, {}).reason).toBe("taken");
    expect(refusalOf(scene, { id: "b2", icingId: "puce" }).message).toContain("batch.icingId");
    expect(worded(scene.ask("finish-batch", { batchId: "b9" }))).toMatchObject({
      ok: false,
      refusal: { reason: "unknown", message: expect.stringContaining("used up") },
    });
  });

  it("K28 at most 200 stand at once", () => {
    const scene = aKitchen();
    for (let k = 0; k < MOST.batches; k += 1) scene.act("record-batch", { batch: batch({ id: `b${k}` }) });
    expect(refusalOf(scene, { id: "more" })).toMatchObject({
      reason: "no-room",
      message: expect.stringContaining("At most 200 batches"),
    });
    scene.act("finish-batch", { batchId: "b7" });
    scene.act("record-batch", { batch: batch({ id: "more" }) });
  });

  it("K4 leads and decorators record them, a wall and a sensor do not; only a lead sets the hours", () => {
    aKitchen().as("ida", "lead").act("record-batch", { batch: batch() });
    for (const role of ["wall", "sensor"] as const) {
      const scene = aKitchen().as("wren", role);
      expect(refusalOf(scene, {}).reason).toBe("not-allowed");
      expect(scene.ask("finish-batch", { batchId: "b1" })).toMatchObject({
        ok: false,
        refusal: { reason: "not-allowed" },
      });
    }
    const scene = aKitchen();
    expect(scene.kitchen.settings.icingUseH).toBeNull();
    expect(scene.ask("set-kitchen", { settings: { icingUseH: 6 } }).ok).toBe(false);
    scene.as("ida", "lead").act("set-kitchen", { settings: { icingUseH: 6 } });
    scene.act("set-kitchen", { settings: { name: "Loft" } });
    expect(scene.kitchen.settings.icingUseH).toBe(6);
    scene.act("set-kitchen", { settings: { icingUseH: null } });
    expect(scene.kitchen.settings.icingUseH).toBeNull();
    for (const icingUseH of [0.5, 337]) {
      const parsed = parse(Command, { type: "set-kitchen", commandId: "c1", settings: { icingUseH } });
      expect(worded(parsed)).toMatchObject({
        ok: false,
        refusal: { message: "settings.icingUseH must be 1 to 336 h" },
      });
    }
  });

  it("K28 K22 is put away once it is more than a day past its use-by, others stay; nothing to do leaves no event", () => {
    const scene = aKitchen();
    scene.act("record-batch", { batch: batch() });
    scene.act("record-batch", { batch: batch({ id: "b2", useByAtMs: T0 + 6 * HOUR }) });
    scene.as("kitchen", "lead").later(5 * HOUR + DAY);
    scene.role = "kitchen";
    const before = scene.events.length;
    scene.act("archive", {});
    expect(scene.events).toHaveLength(before);
    scene.later(1).act("archive", {});
    expect(scene.events.slice(before)).toMatchObject([{ type: "batches-put-away", batchIds: ["b1"] }]);
    expect(Object.keys(scene.kitchen.batches)).toEqual(["b2"]);
  });

  it("K28 an icing that is mixed is not removed", () => {
    const scene = aKitchen().as("ida", "lead");
    scene.act("put-icing", { icing: { id: "coral", name: "coral", hex: "#e2725b" } });
    scene.act("record-batch", { batch: batch({ icingId: "coral" }) });
    expect(worded(scene.ask("remove-icing", { icingId: "coral" }))).toMatchObject({
      ok: false,
      refusal: { reason: "in-use", message: expect.stringContaining("coral is mixed already") },
    });
    scene.act("finish-batch", { batchId: "b1" });
    scene.act("remove-icing", { icingId: "coral" });
  });
});

describe("which icing is too old", () => {
  it("A23 only when all that stands of its consistency is, by the one that was good the longest", () => {
    const scene = aKitchen();
    expect(tooOld(scene.kitchen, STORM, T0)).toBeUndefined();
    scene.act("record-batch", { batch: batch({ id: "late", useByAtMs: T0 + 5 * HOUR }) });
    scene.act("record-batch", { batch: batch({ id: "early", useByAtMs: T0 + HOUR }) });
    scene.act("record-batch", {
      batch: batch({ id: "other", consistency: "flood", useByAtMs: T0 + 9 * HOUR }),
    });
    expect(batchesOf(scene.kitchen, STORM).map((one) => one.id)).toEqual(["early", "late"]);
    expect(tooOld(scene.kitchen, STORM, T0 + 5 * HOUR)).toBeUndefined();
    expect(tooOld(scene.kitchen, STORM, T0 + 5 * HOUR + 1)?.id).toBe("late");
  });

  it("A23 the day is named when it was another one", () => {
    const scene = aKitchen();
    scene.act("record-batch", { batch: batch() });
    const [old] = batchesOf(scene.kitchen, STORM);
    // T0 is 09:00 in Lisbon, a Monday.
    const { icing } = english("metric", scene.kitchen.settings.timeZone);
    const saidAt = (nowMs: number): string =>
      icing.tooOld(nameOf(scene.kitchen, old!), old!.useByAtMs, nowMs);
    expect(saidAt(T0 + 6 * HOUR)).toBe("Storm top-coat was to be used by 14:00: take fresh icing.");
    expect(saidAt(T0 + 16 * HOUR + MIN)).toBe(
      "Storm top-coat was to be used by Mon 14:00: take fresh icing.",
    );
  });
});
