import { describe, expect, it } from "vitest";
import { learn } from "#shared/drying/uncertainty/learning.ts";
import { forecastFilmOf } from "#shared/kitchen/forecast/films.ts";
import { teachingOf } from "#shared/kitchen/forecast/evidence.ts";
import { rememberFindings } from "../support/findings.ts";
import { ForecasterBench } from "../support/forecaster-bench.ts";
import { CABINET_HEATER } from "../support/furnishings.ts";
import { aKitchen, HOUR, MIN } from "../support/scene.ts";

function settled(): ForecasterBench {
  const bench = new ForecasterBench(aKitchen());
  bench.settle();
  return bench;
}

describe("a forecaster", () => {
  it("forecasts a board just opened: every tray, order and place", () => {
    const { current } = settled().forecaster;
    expect(Object.keys(current().trays).toSorted()).toEqual(["t1", "t2", "t3"]);
    expect(Object.keys(current().places).toSorted()).toEqual(["cabinet", "fan", "oven", "rack-a"]);
    expect(current().orders["walk"]?.spareMin).toBeTypeOf("number");
    expect(current().films).toEqual({});
  });

  it("works in slices, each deferred, and says when it has nothing left to do", async () => {
    const bench = new ForecasterBench(aKitchen());
    let isIdle = false;
    const idle = bench.forecaster.idle().then(() => (isIdle = true));
    expect(bench.deferred).toHaveLength(1);
    bench.deferred.shift()?.();
    expect(bench.deferred).toHaveLength(1);
    await Promise.resolve();
    expect(isIdle).toBe(false);
    expect(bench.settle()).toBeGreaterThan(2);
    await idle;
    await bench.forecaster.idle();
  });

  it("gives what the pure forecast gives", () => {
    const bench = settled();
    bench.act("flooded", { trayId: "t2" });
    bench.settle();
    const { scene, forecaster } = bench;
    const pure = forecastFilmOf(scene.kitchen, scene.tray("t2"), 0, learn([]), scene.nowMs);
    expect(forecaster.current().films["t2/0"]).toEqual(pure);
  });

  it("D29 forecasts nothing again for another slot of the same place, and again for another place", () => {
    const bench = settled();
    bench.act("flooded", { trayId: "t2" });
    bench.settle();
    bench.act("move-tray", { trayId: "t2", placeId: "rack-a", slot: "9" });
    bench.act("move-tray", { trayId: "t2", placeId: "rack-a", slot: "4" });
    expect(bench.deferred).toHaveLength(0);
    const before = bench.forecaster.current().films["t2/0"];
    bench.act("move-tray", { trayId: "t2", placeId: "fan", slot: "1" });
    bench.settle();
    expect(bench.forecaster.current().films["t2/0"]).not.toEqual(before);
    // Moved away and back in one go, it stood elsewhere for a while.
    bench.act("move-tray", { trayId: "t2", placeId: "rack-a", slot: "4" });
    expect(bench.deferred).toHaveLength(1);
  });

  it("D9 forecasts again what stands in a cabinet that is said off", () => {
    const bench = settled();
    bench.scene.as("ida", "lead");
    bench.act("put-tool", { tool: CABINET_HEATER });
    bench.read(60);
    bench.act("flooded", { trayId: "t2" });
    bench.act("move-tray", { trayId: "t2", placeId: "cabinet" });
    bench.settle();
    const before = bench.forecaster.current().films["t2/0"];
    bench.scene.later(MIN);
    bench.act("tool-off", { toolId: "warm" });
    bench.settle();
    const { scene, forecaster } = bench;
    const after = forecastFilmOf(scene.kitchen, scene.tray("t2"), 0, learn([]), scene.nowMs);
    expect(after?.dryThrough).not.toEqual(before?.dryThrough);
    expect(forecaster.current().films["t2/0"]).toEqual(after);
  });

  it("forecasts a touched tray before all others, and publishes it at once", () => {
    const bench = settled();
    for (const trayId of ["t1", "t3"]) bench.act("flooded", { trayId });
    bench.settle();
    bench.patches.length = 0;
    bench.forecaster.refresh();
    bench.act("flooded", { trayId: "t2" });
    while (bench.patches.length === 0) bench.deferred.shift()?.();
    expect(Object.keys(bench.patches[0]?.films ?? {})).toEqual(["t2/0"]);
    expect(bench.deferred).toHaveLength(1);
  });

  it("publishes only what changed; a screen that took in every patch holds the same", () => {
    const bench = settled();
    bench.act("flooded", { trayId: "t2" });
    bench.settle();
    bench.patches.length = 0;
    bench.forecaster.refresh();
    bench.settle();
    expect(bench.patches).toEqual([]);
    bench.scene.later(25 * MIN);
    bench.act("touch-test", { trayId: "t2", finding: "skinned" });
    bench.settle();
    expect(Object.keys(bench.patches[0]?.films ?? {})).toEqual(["t2/0"]);
    expect(bench.seen).toEqual(bench.forecaster.current());
  });

  it("K10 D13 what a finding taught moves other trays' forecasts, and taking it back moves them back", () => {
    const bench = settled();
    bench.act("flooded", { trayId: "t2" });
    bench.act("flooded", { trayId: "t3" });
    bench.settle();
    const other = () => bench.forecaster.current().films["t3/0"]?.skin;
    const before = other();
    bench.scene.later(13 * MIN);
    const [touch] = bench.act("touch-test", { trayId: "t2", finding: "skinned" });
    bench.settle();
    expect(other()).not.toEqual(before);
    expect(bench.forecaster.learned().tests.skin).toBe(1);
    bench.act("take-back", { trayId: "t2", actId: touch?.actId });
    bench.settle();
    expect(bench.forecaster.learned().tests.skin).toBe(0);
    const after = other();
    if (before === undefined || after === undefined || "never" in before || "never" in after)
      throw new Error("bands");
    expect(Math.abs(after.likelyMs - before.likelyMs)).toBeLessThan(
      0.01 * (before.likelyMs - bench.scene.nowMs) + 1000,
    );
  });

  it("D12 learns in slices from 600 findings, to the same end as in one go, and not again from the same", () => {
    const scene = aKitchen();
    rememberFindings(scene);
    const bench = new ForecasterBench(scene);
    bench.settle();
    bench.act("flooded", { trayId: "t2" });
    bench.settle();
    const slicesOf = (act: () => void): number => {
      act();
      return bench.settle();
    };
    bench.scene.later(13 * MIN);
    const taught = slicesOf(() => bench.act("touch-test", { trayId: "t2", finding: "skinned" }));
    const untaught = slicesOf(() => bench.act("move-tray", { trayId: "t3", placeId: "fan" }));
    bench.scene.as("ida", "lead");
    const planned = slicesOf(() => bench.act("assign-tray", { trayId: "t3", to: "sol" }));
    // A look at the clock is a millisecond here, so a slice is two steps. Beside the plan, in one go it is 46 and 4; not skipped, 64 and 22.
    expect(taught - planned).toBeGreaterThan(50);
    expect(untaught - planned).toBeLessThan(10);
    const learned = learn(teachingOf(scene.kitchen));
    const { posterior, tests } = bench.forecaster.learned();
    expect(tests.skin + tests.dryThrough).toBe(600);
    expect(tests).toEqual(learned.tests);
    expect(posterior).toEqual(learned.posterior);
  });

  it("drops the forecasts of films taken back, of trays packed, of orders cancelled", () => {
    const bench = settled();
    const [flooded] = bench.act("flooded", { trayId: "t2" });
    bench.settle();
    bench.act("take-back", { trayId: "t2", actId: flooded?.actId });
    bench.settle();
    expect(bench.forecaster.current().films).toEqual({});
    bench.act("flooded", { trayId: "t2" });
    bench.scene.later(9 * HOUR);
    bench.act("touch-test", { trayId: "t2", finding: "firm" });
    bench.act("pack", { trayId: "t2" });
    bench.settle();
    expect(bench.forecaster.current().films).toEqual({});
    expect(bench.forecaster.current().trays["t2"]).toBeUndefined();
    expect(bench.forecaster.current().orders["walk"]).toBeDefined();
    expect(bench.seen).toEqual(bench.forecaster.current());
  });

  it("goes on past a forecast that fails, and says so", () => {
    const bench = settled();
    bench.act("flooded", { trayId: "t2" });
    bench.act("flooded", { trayId: "t3" });
    const { kitchen } = bench.scene;
    const broken = { ...kitchen.trays["t2"]!, placements: null as never };
    bench.scene.kitchen = { ...kitchen, trays: { ...kitchen.trays, t2: broken } };
    bench.settle();
    expect(bench.reports).toEqual(["A forecast failed."]);
    expect(Object.keys(bench.forecaster.current().films)).toEqual(["t3/0"]);
  });

  it("gives advice in slices of its own, to the same end as the pure sums", async () => {
    const bench = settled();
    bench.act("flooded", { trayId: "t1" });
    bench.settle();
    const asked = bench.forecaster.advise({ trayId: "t1" });
    expect(bench.settle()).toBeGreaterThan(1);
    const pure = bench.advice({ trayId: "t1" });
    expect(pure?.help[0]?.kind).toBe("move");
    expect(await asked).toEqual(pure);
  });

  it("D32 advice asked for just after an undo knows of it", async () => {
    const bench = settled();
    bench.act("flooded", { trayId: "t1" });
    bench.settle();
    const finish = bench.forecaster.current().trays["t1"]?.finish;
    bench.act("move-tray", { trayId: "t1", placeId: "fan" });
    bench.settle();
    expect(bench.forecaster.current().trays["t1"]?.finish).not.toEqual(finish);
    const { actId } = bench.scene.tray("t1").history.at(-1)!.act;
    bench.act("take-back", { trayId: "t1", actId });
    const asked = bench.forecaster.advise({ trayId: "t1" });
    for (let turn = 0; turn < 10; turn += 1) {
      bench.settle();
      await Promise.resolve();
    }
    const advice = await asked;
    expect(advice?.finish).toEqual(finish);
    expect(advice?.help.map(({ kind }) => kind)).toContain("move");
  });

  it("stops when told, whatever still waits", async () => {
    const bench = new ForecasterBench(aKitchen());
    bench.forecaster.stop();
    bench.settle();
    expect(bench.patches).toEqual([]);
    await bench.forecaster.idle();
  });
});

describe("the air", () => {
  /** t2 and t3 drying at 45 %. */
  function drying(): ForecasterBench {
    const bench = settled();
    bench.read(45);
    bench.act("flooded", { trayId: "t2" });
    bench.act("flooded", { trayId: "t3" });
    bench.settle();
    return bench;
  }

  it("that moves forecasts by more than a tenth is told, with how far and since when", () => {
    const bench = drying();
    const since = bench.scene.nowMs;
    bench.scene.later(30 * MIN);
    bench.read(60);
    bench.settle();
    expect(bench.forecaster.current().change).toMatchObject({
      placeId: "rack-a",
      rhPctBy: 15,
      later: 2,
      sooner: 0,
      sinceMs: since,
      atMs: bench.scene.nowMs,
    });
    expect(bench.seen.change).toEqual(bench.forecaster.current().change);
  });

  it("that hardly changes is no news", () => {
    const bench = drying();
    bench.scene.later(30 * MIN);
    bench.read(45.5);
    bench.settle();
    expect(bench.forecaster.current().change).toBeUndefined();
  });

  it("is news for an hour", () => {
    const bench = drying();
    bench.scene.later(30 * MIN);
    bench.read(60);
    bench.settle();
    bench.scene.later(59 * MIN);
    bench.forecaster.refresh();
    bench.settle();
    expect(bench.forecaster.current().change).toBeDefined();
    bench.scene.later(MIN);
    bench.forecaster.refresh();
    bench.settle();
    expect(bench.forecaster.current().change).toBeUndefined();
    expect(bench.seen.change).toBeUndefined();
  });

  it("a tray carried to the fan is moved by hands, not by the air", () => {
    const bench = drying();
    bench.act("move-tray", { trayId: "t2", placeId: "fan" });
    bench.settle();
    bench.scene.later(MIN);
    bench.read(45.2);
    bench.settle();
    expect(bench.forecaster.current().change).toBeUndefined();
  });

  it("ages: bands widen as the minutes pass without a reading", () => {
    const bench = drying();
    const width = (): number => {
      const band = bench.forecaster.current().films["t2/0"]?.dryThrough;
      if (band === undefined || "never" in band) throw new Error("a band");
      return band.latestMs - band.earliestMs;
    };
    const fresh = width();
    bench.scene.later(4 * HOUR);
    bench.forecaster.refresh();
    bench.settle();
    expect(width()).not.toBe(fresh);
    expect(bench.forecaster.current().places["rack-a"]?.basis).toBe("last known");
  });
});
