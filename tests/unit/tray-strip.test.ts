import { describe, expect, it } from "vitest";
import { trayStrip } from "#shared/kitchen/calibration/tray-strip.ts";
import type { Tray } from "#shared/kitchen/model/state.ts";
import { aKitchen, band, MIN, type Scene } from "../support/scene.ts";

/** The parts as "stage layer minutes". */
const partsOf = (scene: Scene, trayId = "t1"): string[] =>
  trayStrip(scene.kitchen, scene.tray(trayId), scene.nowMs)!.parts.map(
    ({ stage, layer, fromMs, toMs }) => `${stage} ${layer} ${(toMs - fromMs) / MIN}`,
  );

describe("C37 a tray's strip shows its stages from the first act to now, or to packing, without a gap", () => {
  it("is nothing before anything was laid", () => {
    const scene = aKitchen();
    expect(trayStrip(scene.kitchen, scene.tray(), scene.nowMs)).toBeUndefined();
  });

  it("laying and rests follow one another; the layer in hand runs until now", () => {
    const scene = aKitchen();
    scene.act("start-flooding", { trayId: "t1" });
    scene.later(10 * MIN).act("flooded", { trayId: "t1" });
    scene.later(5 * MIN).act("flooded", { trayId: "t1" });
    scene.later(40 * MIN).act("start-flooding", { trayId: "t1", acceptRisk: true });
    scene.later(3 * MIN);
    expect(partsOf(scene)).toEqual(["laying 0 10", "crusting 0 5", "crusting 1 40", "laying 2 3"]);
    const { parts, fromMs, toMs, isPacked } = trayStrip(scene.kitchen, scene.tray(), scene.nowMs)!;
    expect(parts.map(({ how }) => how)).toEqual(["pipe", "pipe", "flood", "flood"]);
    expect([parts[0]!.fromMs, parts.at(-1)!.toMs, isPacked]).toEqual([fromMs, toMs, false]);
    for (const [k, part] of parts.entries()) if (k > 0) expect(part.fromMs).toBe(parts[k - 1]!.toMs);
  });

  it("heat stands in place of what it took the time of, in the midst of laying too, and while it runs", () => {
    const scene = aKitchen();
    scene.act("start-flooding", { trayId: "t2" });
    scene.later(4 * MIN).act("start-heat-set", { trayId: "t2", toolId: "hot-1" });
    scene.later(2 * MIN).act("end-heat-set", { trayId: "t2", result: "not yet" });
    scene.later(3 * MIN).act("flooded", { trayId: "t2" });
    scene.later(10 * MIN).act("start-heat-set", { trayId: "t2", toolId: "hot-1" });
    scene.later(1 * MIN);
    expect(partsOf(scene, "t2")).toEqual([
      "laying 0 4",
      "heat 0 2",
      "laying 0 3",
      "full-dry 0 10",
      "heat 0 1",
    ]);
  });

  it("ends when the tray is packed", () => {
    const scene = aKitchen();
    scene.act("flooded", { trayId: "t2" });
    scene.later(60 * MIN).act("pack", { trayId: "t2", acceptRisk: true });
    scene.later(500 * MIN);
    expect(partsOf(scene, "t2")).toEqual(["full-dry 0 60"]);
    expect(trayStrip(scene.kitchen, scene.tray("t2"), scene.nowMs)).toMatchObject({ isPacked: true });
  });

  it("a layer taken back is not on it", () => {
    const scene = aKitchen();
    const actId = scene.act("flooded", { trayId: "t2" });
    scene.later(MIN).act("take-back", { trayId: "t2", actId });
    expect(trayStrip(scene.kitchen, scene.tray("t2"), scene.nowMs)).toBeUndefined();
  });
});

describe("C38 what fingers found of a film stands beside the forecast shown to them: inside it, sooner or later", () => {
  /** t2's layer laid, its skin shown at 50–70 min, and touched at these minutes. */
  function touched(...touches: [min: number, finding: "still wet" | "skinned" | "firm"][]) {
    const scene = aKitchen();
    const startMs = scene.nowMs;
    scene.act("flooded", { trayId: "t2" });
    scene.forecast("t2", 0, { skin: band(startMs + 60 * MIN) });
    for (const [min, finding] of touches) {
      scene.nowMs = startMs + min * MIN;
      scene.act("touch-test", { trayId: "t2", layer: 0, finding });
    }
    const found = trayStrip(scene.kitchen, scene.tray("t2"), scene.nowMs)!.found;
    const at = (min: number): number => startMs + min * MIN;
    return { found: found.filter(({ quantity }) => quantity === "skin"), at };
  }

  it("between a not yet and a done, inside the band", () => {
    const { found, at } = touched([55, "still wet"], [65, "skinned"]);
    expect(found).toMatchObject([
      {
        layer: 0,
        icing: "storm",
        shown: { earliestMs: at(50), likelyMs: at(60), latestMs: at(70) },
        notYetMs: at(55),
        byMs: at(65),
        is: "inside",
      },
    ]);
  });

  it("done before the earliest is sooner, not yet after the latest is later", () => {
    expect(touched([40, "skinned"]).found).toMatchObject([{ is: "sooner" }]);
    const { found, at } = touched([80, "still wet"]);
    expect(found).toMatchObject([{ is: "later", notYetMs: at(80) }]);
    expect(found[0]).not.toHaveProperty("byMs");
  });

  it("not yet, sooner than anybody expected it, compares nothing", () => {
    expect(touched([30, "still wet"]).found).toEqual([]);
  });

  it("where no forecast was shown nothing is compared", () => {
    const scene = aKitchen();
    scene.act("flooded", { trayId: "t2" });
    scene.later(60 * MIN).act("touch-test", { trayId: "t2", layer: 0, finding: "skinned" });
    const tray: Tray = scene.tray("t2");
    expect(tray.films[0]?.findings).toHaveLength(1);
    expect(trayStrip(scene.kitchen, tray, scene.nowMs)?.found).toEqual([]);
  });
});
