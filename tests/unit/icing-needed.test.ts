import { worded } from "#tests/support/said.ts";
import { describe, expect, it } from "vitest";
import { GUESS_SPREAD, layerVolume } from "#shared/icing/layer-volume.ts";
import { beadVolumeMl } from "#shared/icing/quantities.ts";
import { baseRecipes, icingToMix, type MixRow } from "#shared/kitchen/mixing/icing-needed.ts";
import { english } from "#shared/words/en/index.ts";
import { Settings } from "#shared/kitchen/model/settings.ts";
import { parse } from "#shared/fields.ts";
import { inchesToMm, TSP_ML } from "#shared/units.ts";
import { aKitchen, HOUR, type Scene, T0 } from "../support/scene.ts";

const ENGLISH = english("metric", "UTC");

/** Ten Puffins on tray 60 for the Puffin Club: a storm outline of 6 cm² and a butter flood of 20 cm², both 2 mm. */
function puffins(cookies = 10, trays = true): Scene {
  const scene = aKitchen().as("ida", "lead");
  const layer = { thicknessMm: 2, narrowestMm: 30 };
  scene.act("put-design", {
    design: {
      id: "puffin",
      name: "Puffin",
      sizeMm: 80,
      layers: [
        { ...layer, name: "line", consistency: "outline", icingId: "storm", areaCm2: 6 },
        { ...layer, name: "body", consistency: "flood", icingId: "butter", areaCm2: 20 },
      ],
    },
  });
  scene.act("put-order", {
    order: { id: "club", name: "Puffin Club", pickUpAtMs: scene.nowMs + 20 * HOUR, cookies },
  });
  if (trays)
    scene.act("add-trays", {
      trays: [{ id: "p1", number: 60, designId: "puffin", orderId: "club", count: 10, placeId: "rack-a" }],
    });
  return scene;
}

const mixOf = (scene: Scene, orderId?: string) => icingToMix(scene.kitchen, scene.nowMs, orderId);
function rowOf(scene: Scene, icingId: string, consistency: MixRow["consistency"], orderId = "club"): MixRow {
  const mix = mixOf(scene, orderId).mixes.find((one) => one.icingId === icingId);
  const row = mix?.rows.find((one) => one.consistency === consistency);
  if (row === undefined) throw new Error(`no ${consistency} of ${icingId}`);
  return row;
}
const namesOf = (scene: Scene, orderId = "club"): string[] =>
  mixOf(scene, orderId).mixes.flatMap(({ icingId, rows }) =>
    rows.map(({ consistency }) => `${icingId} ${consistency}`),
  );

describe("an order by hand", () => {
  // 20 cm² × 2 mm = 4 mL a cookie, 40 mL for ten, at 1.35 g/mL (practice) 54 g; a tenth more (practice) 59.4 g: two batches of 50 g.
  it("I7 I9 a flood is area by thickness by cookies, with waste, in batches of 50 g", () => {
    const flood = rowOf(puffins(), "butter", "flood");
    expect(flood.needG).toBeCloseTo(54, 9);
    expect(flood).toMatchObject({ batches: 2, leastG: flood.needG, mostG: flood.needG });
    expect(flood.mixG).toBeCloseTo(100, 9);
  });

  // 100 g at 20.5 % from base at 15.5 %: solids 79.5 g make 79.5 / 0.845 = 94.083 g of base, and 5.917 g of water.
  it("I8 I9 the batch is told as base and the water to stir into it", () => {
    const flood = rowOf(puffins(), "butter", "flood");
    expect(flood.baseG).toBeCloseTo(94.083, 3);
    expect(flood.waterG).toBeCloseTo(5.917, 3);
    expect(rowOf(puffins(), "storm", "outline")).toMatchObject({ baseG: 50, waterG: 0 });
  });

  // 6 cm² × 2 mm × π/4 = 0.9425 mL a cookie: ten are 9.425 mL, 12.72 g.
  it("I9 a piped line is rounded over: π/4 of its box", () => {
    expect(rowOf(puffins(), "storm", "outline").needG).toBeCloseTo(12.72, 2);
  });

  it("I9 a layer in hand has its icing in the bag; taking the act back brings its need back", () => {
    const scene = puffins().as("wren");
    expect(namesOf(scene)).toEqual(["butter flood", "storm outline"]);
    const actId = scene.act("start-flooding", { trayId: "p1" });
    expect(namesOf(scene)).toEqual(["butter flood"]);
    scene.act("take-back", { trayId: "p1", actId });
    expect(namesOf(scene)).toEqual(["butter flood", "storm outline"]);
    scene.act("flooded", { trayId: "p1" });
    expect(namesOf(scene)).toEqual(["butter flood"]);
    scene.act("start-flooding", { trayId: "p1", acceptRisk: true });
    scene.act("start-heat-set", { trayId: "p1", toolId: "hot-1" });
    expect(namesOf(scene)).toEqual([]);
  });

  it("I9 a packed tray wants nothing", () => {
    const scene = puffins().as("wren");
    scene.act("flooded", { trayId: "p1" });
    scene.act("flooded", { trayId: "p1", acceptRisk: true });
    scene.act("pack", { trayId: "p1", acceptRisk: true });
    expect(mixOf(scene, "club")).toMatchObject({ mixes: [], orders: [], baseG: 0 });
  });
});

describe("the kitchen's own figures", () => {
  it("I7 waste is the kitchen's, and refused out of its range", () => {
    const scene = puffins();
    // 54 g and nine tenths more are 102.6 g: three batches.
    scene.act("set-kitchen", { settings: { wastePct: 90 } });
    expect(rowOf(scene, "butter", "flood").batches).toBe(3);
    scene.act("set-kitchen", { settings: { wastePct: 0 } });
    expect(rowOf(scene, "butter", "flood").batches).toBe(2);
    expect(worded(parse(Settings.entries.wastePct, 101))).toMatchObject({
      ok: false,
      refusal: { message: expect.stringContaining("must be 0 to 100 %") },
    });
  });

  // 40 mL and a tenth are 44 mL: one quarter cup of 59.147 mL (NIST SP 811: a cup is 236.5882365 mL).
  it("I2 I7 a kitchen with cups mixes by the quarter cup", () => {
    const scene = puffins();
    scene.act("set-kitchen", { settings: { units: "us" } });
    const flood = rowOf(scene, "butter", "flood");
    expect(flood.batches).toBe(1);
    expect(flood.mixMl).toBeCloseTo(59.147, 3);
    expect(flood.mixG).toBeCloseTo(79.85, 2);
  });

  it("I9 an icing lighter by its density weighs less", () => {
    const scene = puffins();
    scene.act("set-kitchen", { settings: { densityKgM3: 1200 } });
    expect(rowOf(scene, "butter", "flood").needG).toBeCloseTo(48, 9);
  });

  it("I8 an icing's own water comes before the kitchen's, and its base is as stiff as its stiffest consistency", () => {
    const scene = puffins();
    const own = (icingId: string, waterPct: object) =>
      scene.act("put-icing", { icing: { id: icingId, name: icingId, hex: "#3d4a63", waterPct } });
    own("butter", { flood: 19 });
    // 81 g of solids in 100 g: 81 / 0.845 = 95.858 g of base.
    expect(rowOf(scene, "butter", "flood").baseG).toBeCloseTo(95.858, 3);
    own("storm", { detail: 14 });
    // 84.5 % of 50 g is 42.25 g of solids: 42.25 / 0.86 = 49.128 g of base at 14 %.
    expect(rowOf(scene, "storm", "outline").baseG).toBeCloseTo(49.128, 3);
  });
});

describe("cookies on no tray yet", () => {
  // 25 cookies at 4 mL are 100 mL, 135 g, with waste 148.5 g: three batches.
  it("I10 are counted like their order's trays, from the first layer on", () => {
    const scene = puffins(25);
    expect(rowOf(scene, "butter", "flood")).toMatchObject({ batches: 3 });
    expect(rowOf(scene, "butter", "flood").needG).toBeCloseTo(135, 9);
    scene.as("wren").act("flooded", { trayId: "p1" });
    // 15 × 0.942478 mL × 1.35 g/mL.
    expect(rowOf(scene, "storm", "outline").needG).toBeCloseTo(19.085, 3);
    expect(ENGLISH.icing.notes(mixOf(scene, "club")).join(" ")).toContain(
      "Puffin Club: 15 cookies not on trays yet, counted like its trays (Puffin).",
    );
  });

  // Ten Puffins and ten Moons on trays: 12 more are six of each.
  it("I10 are shared out as the trays are", () => {
    const scene = puffins(32);
    scene.act("add-trays", {
      trays: [{ id: "p2", number: 61, designId: "moon", orderId: "club", count: 10, placeId: "rack-a" }],
    });
    expect(rowOf(scene, "butter", "flood").needG).toBeCloseTo(16 * 4 * 1.35, 9);
  });

  it("I9 of an order without trays are not counted, and said", () => {
    const scene = puffins(24, false);
    const toMix = mixOf(scene, "club");
    expect(toMix.mixes).toEqual([]);
    expect(ENGLISH.icing.notes(toMix)).toEqual([
      "Puffin Club: 24 cookies not on trays yet, and of no design: not counted.",
    ]);
  });

  it("I10 are counted like trays that were packed and put away, as long as their design is there", () => {
    const scene = puffins(100);
    scene.act("put-order", {
      order: { id: "club", name: "Puffin Club", pickUpAtMs: T0 + 90 * HOUR, cookies: 100 },
    });
    scene.act("remove-tray", { trayId: "p1" });
    scene.act("add-trays", {
      trays: [{ id: "p2", number: 61, designId: "moon", orderId: "club", count: 10, placeId: "rack-a" }],
    });
    scene.act("flooded", { trayId: "p2" });
    scene.act("pack", { trayId: "p2", acceptRisk: true });
    const before = mixOf(scene, "club").mixes;
    expect(before).toMatchObject([{ icingId: "storm" }]);
    Object.assign(scene.later(49 * HOUR), { by: "kitchen", role: "kitchen" });
    scene.act("archive", {});
    expect(scene.kitchen.trays["p2"]).toBeUndefined();
    expect(mixOf(scene, "club").mixes).toEqual(before);
    expect(ENGLISH.icing.notes(mixOf(scene, "club")).join(" ")).toContain(
      "90 cookies not on trays yet, counted like its trays (Moon).",
    );
    for (const tray of ["t2", "t3"]) scene.as("ida", "lead").act("remove-tray", { trayId: tray });
    scene.act("remove-design", { designId: "moon" });
    expect(mixOf(scene, "club")).toMatchObject({ mixes: [], orders: [{ offTrays: 90, like: [] }] });
  });

  it("I9 are not waited for once the pick-up has passed; trays still are", () => {
    const scene = puffins(25).later(21 * HOUR);
    expect(mixOf(scene, "club").orders).toMatchObject([{ offTrays: 0 }]);
    expect(rowOf(scene, "butter", "flood").needG).toBeCloseTo(54, 9);
  });
});

describe("all open orders", () => {
  it("I7 I9 need what each of them needs, and round up once", () => {
    const scene = puffins(25);
    const needs = (orderId?: string): number =>
      mixOf(scene, orderId)
        .mixes.flatMap(({ rows }) => rows)
        .reduce((sum, { needG }) => sum + needG, 0);
    const all = mixOf(scene);
    expect(all.orders.map(({ order }) => order.id)).toEqual(["club", "walk"]);
    expect(needs()).toBeCloseTo(needs("club") + needs("walk"), 9);
    expect(all.baseG).toBeLessThanOrEqual(mixOf(scene, "club").baseG + mixOf(scene, "walk").baseG);
    for (const { basePct, rows, baseG } of all.mixes) {
      expect(baseG).toBeCloseTo(
        rows.reduce((sum, row) => sum + row.baseG, 0),
        9,
      );
      for (const row of rows) {
        expect(row.baseG + row.waterG).toBeCloseTo(row.mixG, 9);
        expect((row.baseG * basePct) / 100 + row.waterG).toBeCloseTo((row.mixG * row.waterPct) / 100, 9);
      }
    }
  });
});

describe("no area given", () => {
  // Moon, 65 mm: 0.65 × 65² − π 65 × 1.2 × 2.6 + π 2.6² = 2130.4 mm², 2.4 mm deep on 20 cookies: 102.26 mL, 138 g.
  it("I11 it is guessed from the cookie's size, with half of it either way, and said", () => {
    const scene = puffins();
    const row = rowOf(scene, "storm", "top-coat", "walk");
    expect(row.needG).toBeCloseTo(138.05, 1);
    expect([row.leastG, row.mostG]).toEqual([row.needG * 0.5, row.needG * 1.5]);
    expect(ENGLISH.icing.need(row, 0)).toBe("a guess: 138 g on the cookies (69–\u2060207\u00a0g)");
    expect(ENGLISH.icing.need({ ...row, needG: 1000, leastG: 800, mostG: 1200 }, 0)).toBe(
      "a guess: 1 kg on the cookies (800\u00a0g–\u20601.2\u00a0kg)",
    );
    expect(ENGLISH.icing.need(rowOf(scene, "butter", "flood"), 0)).toBe("54 g on the cookies");
    expect(ENGLISH.icing.notes(mixOf(scene, "walk")).join(" ")).toContain(
      "No area is given in Lantern and Moon.",
    );
    expect(mixOf(scene, "club").guessed).toEqual([]);
  });

  it("I11 only what was guessed is in doubt: known and guessed areas of one icing add up", () => {
    const scene = puffins();
    const known = rowOf(scene, "storm", "outline");
    expect(known.mostG).toBe(known.needG);
    scene.act("put-design", {
      design: {
        id: "star",
        name: "Star",
        sizeMm: 60,
        layers: [
          { name: "a", consistency: "outline", icingId: "storm", thicknessMm: 2, narrowestMm: 2 },
          { name: "b", consistency: "flood", icingId: "butter", thicknessMm: 2, narrowestMm: 30, areaCm2: 9 },
        ],
      },
    });
    scene.act("add-trays", {
      trays: [{ id: "s1", number: 62, designId: "star", orderId: "club", count: 10, placeId: "rack-a" }],
    });
    const both = rowOf(scene, "storm", "outline");
    expect(both.mostG - both.needG).toBeCloseTo(GUESS_SPREAD * (both.needG - known.needG), 9);
  });

  it("I11 a 2½ in round at 2.4 mm comes to a teaspoon, within its spread (common practice, no source)", () => {
    const { volumeMl, isGuess } = layerVolume("top-coat", 2.4, inchesToMm(2.5));
    expect(isGuess).toBe(true);
    expect(Math.abs(volumeMl / TSP_ML - 1)).toBeLessThan(GUESS_SPREAD);
    expect(volumeMl / TSP_ML).toBeCloseTo(1, 1);
  });

  it("I11 the smallest and the largest cookie have a guess too, at any thickness a film may have", () => {
    for (const cookieMm of [10, 400])
      for (const thicknessMm of [0.2, 12])
        for (const consistency of ["outline", "top-coat", "flood", "detail"] as const)
          expect(layerVolume(consistency, thicknessMm, cookieMm).volumeMl).toBeGreaterThan(0);
  });

  // 200 mm of a 2 mm line cover 400 mm²: the same bead as by its opening.
  it("I1 I9 a line told by its area is the bead told by its length", () => {
    expect(layerVolume("detail", 2, 80, 400).volumeMl).toBeCloseTo(beadVolumeMl(200, 2), 12);
  });
});

describe("words", () => {
  it("I8 water is said in grams, and in spoons where the kitchen has them", () => {
    expect(ENGLISH.format.water(12.3)).toBe("12 g");
    expect(english("us", "UTC").format.water(12.3)).toBe("12 g (2½ tsp)");
    expect(english("us", "UTC").format.water(0.2)).toBe("0.2 g");
  });

  // Recipe from memory: 1000 + 55 + 165 g hold 5 + 3.3 + 165 g of water, 14.205 %.
  it("I8 a recipe is scaled to the base, and its missing water is added", () => {
    const { mixes, baseG } = mixOf(puffins(), "club");
    const [powder] = baseRecipes(mixes);
    const mass = powder!.ingredients.reduce((sum, { massG }) => sum + massG, 0);
    expect(mass + powder!.moreWaterG).toBeCloseTo(baseG, 9);
    expect(mass * 0.14205 + powder!.moreWaterG).toBeCloseTo(baseG * 0.155, 2);
    expect(ENGLISH.icing.recipe(powder!)).toMatch(/^icing sugar 1\d\d g, meringue powder .+ more water$/);
  });

  it("I8 a recipe looser than the base is not offered", () => {
    const scene = puffins();
    scene.act("set-kitchen", {
      settings: { waterPct: { outline: 13.5, detail: 13.5, "top-coat": 18, flood: 20 } },
    });
    expect(baseRecipes(mixOf(scene, "club").mixes).map(({ name }) => name)).toEqual(["egg-white"]);
    expect(baseRecipes([])).toEqual([]);
  });
});
