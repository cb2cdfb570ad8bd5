import { describe, expect, test } from "vitest";
import { dryFilm } from "#shared/drying/film/film.ts";
import { vapourPa } from "#shared/drying/film/air.ts";
import { heatLimits, heatSpell } from "#shared/heat/set.ts";
import { CABINET_TOOL, type HeatToolSpec, HOT_AIR_TOOL, OVEN_TOOL } from "#shared/heat/tool.ts";

// The film and the room of the practice table: top-coat 2.4 mm, 19 % water, laid at 22 °C, 45 %, still air.
const film = { thicknessMm: 2.4, waterPct: 19, roomC: 22 };
const room = { tempC: 22, rhPct: 45, speedMs: 0.15 };

function setMin(tool: HeatToolSpec): number {
  const { skin } = dryFilm(film, [{ fromS: 0, air: heatSpell(tool, room) }], { until: "skin" });
  return "s" in skin ? skin.s / 60 : Infinity;
}

describe("heat-set times: common practice, no source", () => {
  test("a low oven at 65.6 °C, gently moving air, sets in 1.5 to 5.5 min", () => {
    expect(setMin(OVEN_TOOL)).toBeGreaterThan(1.5);
    expect(setMin(OVEN_TOOL)).toBeLessThan(5.5);
  });

  test.each([13, 14, 15])("hot air %i cm off sets in about two minutes", (distanceCm) => {
    const minutes = setMin({ ...HOT_AIR_TOOL, distanceCm });
    expect(minutes).toBeGreaterThan(1);
    expect(minutes).toBeLessThan(3.5);
  });

  test.each([13, 14, 15])("and freshly flooded icing %i cm off in about two minutes", (distanceCm) => {
    const flood = { thicknessMm: 2.5, waterPct: 20.5, roomC: 22 };
    const air = heatSpell({ ...HOT_AIR_TOOL, distanceCm }, room);
    const { skin } = dryFilm(flood, [{ fromS: 0, air }], { until: "skin" });
    expect("s" in skin && skin.s / 60).toBeGreaterThan(1.5);
    expect("s" in skin && skin.s / 60).toBeLessThan(2.5);
  });

  test("a warm cabinet at 38 °C with a fan sets in under 10 min", () => {
    expect(setMin(CABINET_TOOL)).toBeLessThan(10);
  });

  test("caps: 3 min a cookie under hot air, 6 min a tray in the low oven", () => {
    expect(heatLimits(film, HOT_AIR_TOOL, room).stopByS).toBeLessThanOrEqual(180);
    expect(heatLimits(film, OVEN_TOOL, room).stopByS).toBeLessThanOrEqual(360);
  });

  test("within the caps the usual film is likely to set without overheating", () => {
    for (const tool of [HOT_AIR_TOOL, OVEN_TOOL, CABINET_TOOL]) {
      const limits = heatLimits(film, tool, room);
      expect(limits.settles).toBe(true);
      expect(limits.why).not.toBe("icing temperature");
    }
  });
});

// Warming air adds no water to it: vapour pressure stays (Dalton's law at constant pressure).
test.each([HOT_AIR_TOOL, OVEN_TOOL, CABINET_TOOL])(
  "H37 warmed air keeps the room's moisture: $kind",
  (tool) => {
    expect(vapourPa(heatSpell(tool, room)) / vapourPa(room)).toBeCloseTo(1, 9);
  },
);
