import { describe, expect, it } from "vitest";
import { parse } from "#shared/fields.ts";
import { FIGURES, Settings, SETTINGS, USUAL_SETTINGS } from "#shared/kitchen/model/settings.ts";
import { english } from "#shared/words/en/index.ts";
import { spanish } from "#shared/words/es/index.ts";

describe("a setting is defined once", () => {
  it("what a kitchen starts from is what its schema takes, and starts with each", () => {
    expect(parse(Settings, USUAL_SETTINGS)).toEqual({ ok: true, value: USUAL_SETTINGS });
    expect(Object.keys(USUAL_SETTINGS)).toEqual(Object.keys(SETTINGS));
  });

  it("every number is a figure of the form, those of a group too, with its range, unit and whether it may be empty", () => {
    expect(FIGURES.map(({ path }) => path)).toEqual([
      "wall.diagonalCm",
      "wall.farthestM",
      "waterPct.outline",
      "waterPct.top-coat",
      "waterPct.flood",
      "waterPct.detail",
      "densityKgM3",
      "wastePct",
      "icingUseH",
      "icingLimitC",
      "sinkShare",
      "floodingMin",
      "packingMin",
      "hands",
      "icingChangeMin",
      "boxOf",
      "bestBeforeDays",
      "toolIdleMin",
    ]);
    const of = (path: string) => FIGURES.find((figure) => figure.path === path);
    expect(of("floodingMin")).toEqual({
      path: "floodingMin",
      range: { min: 0.5, max: 120, unit: "min" },
      isOptional: false,
    });
    expect(of("hands")).toEqual({
      path: "hands",
      range: { min: 1, max: 60, isWhole: true },
      isOptional: true,
    });
    expect(of("wastePct")?.isOptional).toBe(false);
  });

  it.each([
    ["en", english],
    ["es", spanish],
  ])("%s: each has a label of its own", (_, dictionary) => {
    const labels = Object.values(dictionary("metric", "UTC").setUp.settings(3)).map(({ label }) => label);
    expect(labels).not.toContain("");
    expect(new Set(labels).size).toBe(labels.length);
  });
});
