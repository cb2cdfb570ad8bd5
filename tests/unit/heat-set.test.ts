import { PRIOR_BELIEF } from "#shared/drying/uncertainty/belief.ts";
import { describe, expect, test } from "vitest";
import { traceFilm } from "#shared/drying/film/film.ts";
import { forecastFilm } from "#shared/drying/uncertainty/forecast.ts";
import { heatLimits, heatSpell } from "#shared/heat/set.ts";
import { CABINET_TOOL, HOT_AIR_TOOL, OVEN_TOOL } from "#shared/heat/tool.ts";

const room = { tempC: 22, rhPct: 45, speedMs: 0.15 };
const flood = { thicknessMm: 2, waterPct: 20.5 };
const outline = { thicknessMm: 3, waterPct: 15.5 };

describe("H34 stop-by is the earliest of three", () => {
  test("the set time, one and a half times", () => {
    // Of a kitchen that knows its icing: one that has taught nothing is so unsure that the cap comes first.
    const skinFactor = { meanLn: -0.1, sdLn: 0.2 };
    const limits = heatLimits(outline, OVEN_TOOL, room, { skinFactor });
    const { skin } = forecastFilm(
      { ...outline, roomC: room.tempC },
      [{ fromS: 0, air: heatSpell(OVEN_TOOL, room) }],
      { belief: { ...PRIOR_BELIEF, skin: skinFactor } },
    );
    if ("never" in skin) throw new Error(skin.never.code);
    expect(limits.why).toBe("set time");
    expect(limits.checkFromS).toBeCloseTo(skin.earliestMs / 1000, 6);
    expect(limits.checkToS).toBeCloseTo(skin.latestMs / 1000, 6);
    expect((1000 * limits.stopByS) / skin.latestMs).toBeCloseTo(1.5, 6);
  });

  test("in a warm cabinet, which cannot overheat icing, the cap alone", () => {
    const limits = heatLimits(outline, CABINET_TOOL, room);
    expect(limits).toMatchObject({ settles: true, why: "tool's cap", stopByS: CABINET_TOOL.capS });
  });

  test("the tool's cap", () => {
    const limits = heatLimits(flood, HOT_AIR_TOOL, room);
    expect(limits).toMatchObject({ stopByS: 180, checkToS: 180, capS: 180, why: "tool's cap" });
  });

  test("the icing at its limit", () => {
    const gun = { ...HOT_AIR_TOOL, airC: 500, nozzleMm: 40, maxAirC: 550 };
    const limits = heatLimits(flood, gun, room, { maxIcingC: 50 });
    expect(limits.why).toBe("icing temperature");
    const [at] = traceFilm(
      { ...flood, roomC: room.tempC },
      [{ fromS: 0, air: heatSpell(gun, room) }],
      [limits.stopByS],
    );
    expect(at!.surfaceC).toBeCloseTo(50, 0);
  });

  test("time dried before counts: the same film sets sooner under heat", () => {
    const fresh = heatLimits(flood, OVEN_TOOL, room);
    const dried = heatLimits(flood, OVEN_TOOL, room, { driedForS: 900 });
    expect(dried.checkFromS).toBeLessThan(fresh.checkFromS);
    const fan = [{ fromS: 0, air: { ...room, speedMs: 2 } }];
    const fanned = heatLimits(flood, OVEN_TOOL, room, { driedForS: 900, alreadyDried: fan });
    expect(fanned.checkFromS).toBeLessThan(dried.checkFromS);
  });

  test("air recorded after the heat began does not count", () => {
    const later = [
      { fromS: 0, air: room },
      { fromS: 600, air: { ...room, rhPct: 90 } },
    ];
    expect(heatLimits(flood, OVEN_TOOL, room, { driedForS: 300, alreadyDried: later })).toEqual(
      heatLimits(flood, OVEN_TOOL, room, { driedForS: 300 }),
    );
  });
});

describe("H35 what will not set is said", () => {
  test("a short cap", () => {
    const limits = heatLimits(flood, { ...OVEN_TOOL, capS: 60 }, room);
    expect(limits).toMatchObject({ settles: false, stopByS: 60, checkFromS: 60, checkToS: 60 });
    expect(limits.hint).toBe("will not set");
  });

  test("air too damp to set in at all", () => {
    const limits = heatLimits(flood, { ...CABINET_TOOL, rhPct: 95 }, room);
    expect(limits).toMatchObject({ settles: false, stopByS: CABINET_TOOL.capS, why: "tool's cap" });
    expect(limits.hint).toBe("will not set");
  });

  test("too much heat", () => {
    const gun = { ...HOT_AIR_TOOL, airC: 550, nozzleMm: 80, distanceCm: 5, maxAirC: 550 };
    const limits = heatLimits({ thicknessMm: 0.5, waterPct: 30 }, gun, room, { maxIcingC: 40 });
    expect(limits).toMatchObject({ settles: false, why: "icing temperature" });
    expect(limits.hint).toBe("too hot before set");
  });

  test("a film that has skinned is to be touched first, and leaves time to do so", () => {
    const limits = heatLimits(outline, HOT_AIR_TOOL, room, { driedForS: 3600 });
    expect(limits).toMatchObject({ settles: true, checkFromS: 0, checkToS: 0, stopByS: 20 });
    expect(limits.hint).toBe("skinned already");
  });
});

test("bad figures are refused by name", () => {
  expect(() => heatLimits(flood, OVEN_TOOL, room, { driedForS: -1 })).toThrow(
    "driedForS must be 0 s or more",
  );
  expect(() => heatLimits(flood, OVEN_TOOL, room, { maxIcingC: 100 })).toThrow("maxIcingC must be 40–90 °C");
});

// The screens ask on each tap: a median of 20 calls, so that one slow call on a busy machine does not fail it.
test("limits are worked out in under 5 ms", () => {
  const took = Array.from({ length: 20 }, (_, i) => {
    const from = performance.now();
    heatLimits({ thicknessMm: 2 + i / 100, waterPct: 20.5 }, HOT_AIR_TOOL, room, { driedForS: 300 });
    return performance.now() - from;
  }).toSorted((a, b) => a - b);
  expect(took[10]).toBeLessThan(5);
});
