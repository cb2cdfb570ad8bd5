import { describe, expect, test } from "vitest";
import { CARDS } from "#shared/heat/cautions.ts";
import { DEFAULT_TRAY, TOUCH_SAFE_C, traySafeAfterS, trayTimeConstantS } from "#shared/heat/cooling.ts";
import { CABINET_TOOL, OVEN_TOOL } from "#shared/heat/tool.ts";
import { hotUntil } from "#shared/kitchen/tray/tool-heat.ts";
import { english } from "#shared/words/en/index.ts";
import { aKitchen } from "../support/scene.ts";

/**
 * EN 563:1994 (now ISO 13732-1), smooth bare surfaces, as quoted by manufacturers' and regulators' guides: from this on, °C, a
 * touch so long burns. For one second the standard gives a band; the ten seconds' column is from memory, near its curves.
 * Tolerance: none, the figures are compared as they are printed.
 */
const BURNS = {
  "bare metal": { second: [65, 70], tenSeconds: 55, minute: 51, tenMinutes: 48, eightHours: 43 },
  "coated metal": { second: [75, 80], tenSeconds: 60, minute: 51, tenMinutes: 48, eightHours: 43 },
  "ceramic or glass": { second: [80, 86], tenSeconds: 66, minute: 56, tenMinutes: 48, eightHours: 43 },
  plastic: { second: [86, 93], tenSeconds: 71, minute: 60, tenMinutes: 48, eightHours: 43 },
  wood: { second: [110, 140], tenSeconds: 88, minute: 60, tenMinutes: 48, eightHours: 43 },
} as const;
const MATERIALS = Object.entries(BURNS);
const ROOM_C = 22;

describe("the table as it is written down here", () => {
  test.each(MATERIALS)("%s: the longer the touch, the cooler what burns", (_, burns) => {
    const [from, to] = burns.second;
    const falling = [to, from, burns.tenSeconds, burns.minute, burns.tenMinutes, burns.eightHours];
    expect(falling).toEqual(falling.toSorted((a, b) => b - a));
    expect(new Set(falling).size).toBe(falling.length);
  });

  test.each(MATERIALS)("%s burns no cooler than bare metal, however long the touch", (_, burns) => {
    const metal = BURNS["bare metal"];
    expect(burns.second[0]).toBeGreaterThanOrEqual(metal.second[0]);
    for (const span of ["tenSeconds", "minute", "tenMinutes", "eightHours"] as const)
      expect(burns[span]).toBeGreaterThanOrEqual(metal[span]);
  });
});

describe("H31 a tray counts as safe to touch", () => {
  // The minute's figure, and not the ten minutes': whoever lifts a tray and carries it to a rack has it in hand for less than
  // a minute. A tray at 50 °C held for ten would burn, and Traytide calls it safe to touch.
  test("by the bare metal's minute, the least of all materials", () => {
    expect(TOUCH_SAFE_C).toBe(BURNS["bare metal"].minute);
    expect(TOUCH_SAFE_C).toBe(Math.min(...MATERIALS.map(([, { minute }]) => minute)));
    expect(TOUCH_SAFE_C).toBeGreaterThan(BURNS["bare metal"].tenMinutes);
  });

  test("at once up to that figure, and not at once just over it", () => {
    expect(traySafeAfterS(BURNS["bare metal"].minute, ROOM_C, 12)).toBe(0);
    expect(traySafeAfterS(BURNS["bare metal"].minute + 0.1, ROOM_C, 12)).toBeGreaterThan(0);
  });

  test.each([51.5, OVEN_TOOL.airC, OVEN_TOOL.maxAirC, 120])(
    "out of %s °C, once it is cooler than burns in a minute, whatever it is made of",
    (leftAtC) => {
      const safeAfterS = traySafeAfterS(leftAtC, ROOM_C, 12);
      // Newton's law of cooling, worked out forwards.
      const tempC = (s: number): number =>
        ROOM_C + (leftAtC - ROOM_C) * Math.exp(-s / trayTimeConstantS(DEFAULT_TRAY, 12));
      for (const [, { minute }] of MATERIALS) expect(tempC(safeAfterS + 1)).toBeLessThan(minute);
      expect(tempC(safeAfterS - 1)).toBeGreaterThan(BURNS["bare metal"].minute);
    },
  );
});

describe("H4 what is told of a hot tray", () => {
  const { kitchen, nowMs } = aKitchen();

  test("out of an oven at 65.6 °C it has reached what burns in one second on bare metal, and is told hot", () => {
    const [from, to] = BURNS["bare metal"].second;
    expect(OVEN_TOOL.airC).toBeGreaterThanOrEqual(from);
    expect(OVEN_TOOL.airC).toBeLessThanOrEqual(to);
    expect(hotUntil(kitchen, OVEN_TOOL.airC, 12, nowMs)).toBeGreaterThan(nowMs);
  });

  test("out of a warm cabinet it is cooler than burns in a shift, and is not told hot", () => {
    expect(CABINET_TOOL.airC).toBeLessThan(BURNS["bare metal"].eightHours);
    expect(hotUntil(kitchen, CABINET_TOOL.airC, 12, nowMs)).toBeUndefined();
  });

  test("H30 the cards name the table's own figures", () => {
    const words = (kind: "oven" | "warm-cabinet"): string =>
      CARDS[kind].map((id) => english("metric", "UTC").cautions.lines[id]).join(" ");
    expect(words("oven")).toContain(`Tray metal at ${BURNS["bare metal"].second[0]} °C`);
    expect(words("warm-cabinet")).toContain(`Metal at ${BURNS["bare metal"].tenMinutes} °C`);
  });
});
