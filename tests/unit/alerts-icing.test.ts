import { describe, expect, it } from "vitest";
import * as v from "valibot";
import { AlertFact } from "#shared/kitchen/model/alert.ts";
import { dueOf, tend, tendThrough } from "../support/alerting.ts";
import { aKitchen, HOUR, MIN, type Scene, T0 } from "../support/scene.ts";

/** t2's storm top-coat, mixed at T0 and to be used within an hour. */
function mixed(more: object = {}): Scene {
  const scene = aKitchen();
  return record(scene, more);
}

function record(scene: Scene, more: object = {}): Scene {
  const batch = { id: "b1", icingId: "storm", consistency: "top-coat", mixedAtMs: scene.nowMs };
  scene.act("record-batch", { batch: { ...batch, useByAtMs: scene.nowMs + HOUR, ...more } });
  return scene;
}

const tooOld = (scene: Scene) => dueOf(scene, "icing-too-old");

/** Wren has t2 in hand with icing that went past its use-by a moment ago. */
function inHand(): Scene {
  const scene = mixed().later(HOUR - MIN);
  scene.act("start-flooding", { trayId: "t2" });
  return scene.later(MIN + 1);
}

describe("icing too old", () => {
  it("A23 prompts whoever has the layer in hand from the moment the only batch is past its use-by", () => {
    const scene = mixed().later(HOUR - MIN);
    scene.act("start-flooding", { trayId: "t2" });
    expect(tooOld(scene.later(MIN))).toEqual([]);
    // T0 is 09:00 in Lisbon.
    expect(tooOld(scene.later(1))).toMatchObject([
      {
        class: "prompt",
        consistency: "top-coat",
        useByAtMs: T0 + HOUR,
        trayNumber: 7,
        recipients: { people: ["wren"], wall: false, leads: false, everyone: false },
      },
    ]);
  });

  it("A23 asks nothing of a tray not in hand, of another consistency, or of a kitchen that records no batches", () => {
    expect(tooOld(mixed().later(2 * HOUR))).toEqual([]);
    const other = mixed({ consistency: "flood" }).later(2 * HOUR);
    other.act("start-flooding", { trayId: "t2" });
    expect(tooOld(other)).toEqual([]);
    const none = aKitchen();
    none.act("start-flooding", { trayId: "t2" });
    expect(tooOld(none)).toEqual([]);
  });

  it("A24 one fresh batch beside the old one is enough", () => {
    const scene = record(mixed(), { id: "b2", useByAtMs: T0 + 3 * HOUR }).later(2 * HOUR);
    scene.act("start-flooding", { trayId: "t2" });
    expect(tooOld(scene)).toEqual([]);
    expect(tooOld(scene.later(HOUR + 1))).toHaveLength(1);
  });

  it("A24 clears when the layer is laid, when its start is taken back, with a fresh batch, or once the old one is finished", () => {
    const laid = inHand();
    expect(tend(laid).raised).toHaveLength(1);
    laid.act("flooded", { trayId: "t2" });
    expect(tend(laid).cleared).toHaveLength(1);
    const undone = aKitchen();
    record(undone).later(HOUR + 1);
    const actId = undone.act("start-flooding", { trayId: "t2" });
    expect(tend(undone).raised).toHaveLength(1);
    undone.act("take-back", { trayId: "t2", actId });
    expect(tend(undone).cleared).toHaveLength(1);
    const fresh = inHand();
    expect(tend(fresh).raised).toHaveLength(1);
    record(fresh, { id: "b2" });
    expect(tend(fresh).cleared).toHaveLength(1);
    const finished = inHand();
    expect(tend(finished).raised).toHaveLength(1);
    finished.act("finish-batch", { batchId: "b1" });
    expect(tend(finished).cleared).toHaveLength(1);
  });

  it("A1 A23 once while a tray is in hand, and again when the fresh batch goes past its own use-by", () => {
    const scene = inHand();
    expect(tendThrough(scene, HOUR, 15_000)).toHaveLength(1);
    record(scene, { id: "b2" });
    expect(tendThrough(scene, 2 * HOUR, 15_000)).toHaveLength(1);
  });

  it("A21 A23 cookies heat-set while the rest is still being flooded neither clear it nor bring it again", () => {
    const scene = inHand();
    expect(tend(scene).raised).toHaveLength(1);
    scene.act("start-heat-set", { trayId: "t2", toolId: "hot-1" });
    expect(tend(scene)).toEqual({ raised: [], cleared: [] });
    scene.later(MIN).act("end-heat-set", { trayId: "t2", result: "set" });
    expect(tend(scene)).toEqual({ raised: [], cleared: [] });
  });

  it("A23 fits its fields however long the names in it are", () => {
    const scene = aKitchen().as("ida", "lead");
    scene.act("put-icing", { icing: { id: "storm", name: "s".repeat(40), hex: "#3d4a63" } });
    const batchId = "b".repeat(40);
    record(scene.as("wren"), { id: batchId }).later(HOUR + 1);
    scene.act("start-flooding", { trayId: "t2" });
    const [alert] = tooOld(scene);
    expect(v.safeParse(AlertFact, alert).success).toBe(true);
  });
});
