import type { Band } from "#shared/drying/uncertainty/band.ts";
import { filmLayersOf } from "#shared/kitchen/model/lookups.ts";
import { describe, expect, it } from "vitest";
import { WATER_SD_PCT } from "#shared/drying/uncertainty/water.ts";
import { forecastFilm } from "#shared/drying/uncertainty/forecast.ts";
import { learn } from "#shared/drying/uncertainty/learning.ts";
import { airAt, airOfFilm, filmSpecOf } from "#shared/kitchen/forecast/air.ts";
import type { FilmForecast } from "#shared/kitchen/model/forecast.ts";
import { forecastFilmOf, placeForecast, spansAt, usualFilm } from "#shared/kitchen/forecast/films.ts";
import { teachingOf } from "#shared/kitchen/forecast/evidence.ts";
import { CABINET_HEATER } from "../support/furnishings.ts";
import { aKitchen, HOUR, MIN, type Scene, T0 } from "../support/scene.ts";

const UNTAUGHT = learn([]);

function outlookOf(scene: Scene, layer: number, trayId = "t1"): FilmForecast {
  const outlook = forecastFilmOf(scene.kitchen, scene.tray(trayId), layer, UNTAUGHT, scene.nowMs);
  if (outlook === undefined) throw new Error(`no forecast of ${trayId}/${layer}`);
  return outlook;
}

function bandOf(band: Band): { earliestMs: number; likelyMs: number; latestMs: number } {
  if ("never" in band) throw new Error(band.never.code);
  return band;
}

const read = (scene: Scene, rhPct: number, tempC = 22, placeId = "rack-a"): void => {
  scene.act("enter-reading", { reading: { placeId, tempC, rhPct, source: "typed" } });
};

describe("D35 a place that was set otherwise while trays stood there", () => {
  const setTo = (scene: Scene, setTempC: number): void => {
    const { was: _was, ...cabinet } = scene.kitchen.places["cabinet"]!;
    scene.as("ida", "lead").act("put-place", { place: { ...cabinet, setTempC } });
    scene.as("wren");
  };
  const tempsOf = (scene: Scene): [number, number][] => {
    const film = scene.tray("t2").films[0]!;
    const { spells } = airOfFilm(scene.kitchen, scene.tray("t2"), film, scene.nowMs);
    return spells.map(({ fromS, air }) => [fromS, air.tempC]);
  };

  it("counts from then on, not before; set back, it has three parts", () => {
    const scene = aKitchen();
    read(scene, 45);
    scene.act("flooded", { trayId: "t2" });
    scene.act("move-tray", { trayId: "t2", placeId: "cabinet" });
    scene.later(HOUR);
    setTo(scene, 50);
    scene.later(HOUR);
    setTo(scene, 38);
    scene.later(HOUR);
    const temps = tempsOf(scene);
    const at = (s: number): number | undefined => temps.findLast(([fromS]) => fromS <= s)?.[1];
    expect([600, 3500, 3700, 7100, 7300].map(at)).toEqual([38, 38, 50, 50, 38]);
  });

  it("a change of anything else keeps no past setting", () => {
    const scene = aKitchen().as("ida", "lead");
    scene.act("put-place", { place: { ...scene.kitchen.places["cabinet"]!, capacity: 7 } });
    expect(scene.kitchen.places["cabinet"]).not.toHaveProperty("was");
  });
});

describe("a film's forecast", () => {
  it("is the model's, on the film's own clock", () => {
    const scene = aKitchen();
    read(scene, 45);
    scene.act("flooded", { trayId: "t2" });
    const film = scene.tray("t2").films[0]!;
    const { spells, doubt, doubtFromS } = airOfFilm(scene.kitchen, scene.tray("t2"), film, scene.nowMs);
    const design = scene.kitchen.designs["moon"]!;
    const { skin } = forecastFilm(filmSpecOf(scene.kitchen, design, 0), spells, {
      doubt,
      doubtFromS,
      waterSdPct: WATER_SD_PCT,
    });
    if ("never" in skin) throw new Error(skin.never.code);
    const band = bandOf(outlookOf(scene, 0, "t2").skin);
    expect(Math.abs(band.likelyMs - (T0 + skin.likelyMs))).toBeLessThanOrEqual(500);
    expect(Math.abs(band.latestMs - (T0 + skin.latestMs))).toBeLessThanOrEqual(500);
    expect(outlookOf(scene, 0, "t2").basis).toBe("measured");
  });

  it("I16 I14 an icing laid warm skins sooner, one said to dry slowly later and less surely", () => {
    const bandWith = (more: object) => {
      const scene = aKitchen().as("ida", "lead");
      const icing = scene.kitchen.icings[scene.kitchen.designs["moon"]!.layers[0]!.icingId]!;
      scene.act("put-icing", { icing: { ...icing, ...more } });
      read(scene, 45);
      scene.act("flooded", { trayId: "t2" });
      return bandOf(outlookOf(scene, 0, "t2").skin);
    };
    const usual = bandWith({});
    expect(bandWith({ laidAtC: 22 })).toEqual(usual);
    expect(bandWith({ laidAtC: 35 }).likelyMs).toBeLessThan(usual.likelyMs);
    const slow = bandWith({ isSlow: true });
    expect((slow.likelyMs - T0) / (usual.likelyMs - T0)).toBeCloseTo(Math.exp(0.3), 2);
    expect((slow.latestMs - T0) / (slow.likelyMs - T0)).toBeGreaterThan(
      (usual.latestMs - T0) / (usual.likelyMs - T0),
    );
  });

  it("D37 its own “still wet” cuts its forecast once: learned from as well, it moves it no further, but moves its neighbour's", () => {
    const scene = aKitchen();
    read(scene, 45);
    for (const trayId of ["t2", "t3"]) scene.act("flooded", { trayId });
    scene.later(30 * MIN).act("touch-test", { trayId: "t2", finding: "still wet" });
    const taught = learn(teachingOf(scene.kitchen));
    const skinS = (trayId: string, learned = taught): number =>
      (bandOf(forecastFilmOf(scene.kitchen, scene.tray(trayId), 0, learned, scene.nowMs)!.skin).likelyMs -
        T0) /
      1000;
    expect(Math.abs(skinS("t2") / skinS("t2", UNTAUGHT) - 1)).toBeLessThan(0.01);
    expect(skinS("t3")).toBeGreaterThan(1.05 * skinS("t3", UNTAUGHT));
  });

  it("D36 a film begins at the temperature of the air it was laid in, and of the room when it goes straight into heat", () => {
    const scene = aKitchen().as("ida", "lead");
    scene.act("enter-reading", { reading: { placeId: "rack-a", tempC: 27, rhPct: 45, source: "typed" } });
    scene.act("enter-reading", { reading: { placeId: "oven", tempC: 66, rhPct: 8, source: "typed" } });
    const roomCOf = (trayId: string): number =>
      airOfFilm(scene.kitchen, scene.tray(trayId), scene.tray(trayId).films[0]!, scene.nowMs).roomC;
    for (const trayId of ["t2", "t3"]) scene.act("flooded", { trayId });
    scene.act("start-heat-set", { trayId: "t3", toolId: "oven-1" });
    expect([roomCOf("t2"), roomCOf("t3")]).toEqual([27, 27]);
    // In a cabinet that nobody reads it is the room's as well.
    expect(airAt(scene.kitchen, "cabinet", scene.nowMs, scene.nowMs)).toMatchObject({
      roomC: 27,
      spells: [{ air: { tempC: 38 } }],
    });
  });

  it("D10 D11 what a stuck hygrometer sends is not known air: half an hour past its last change the doubt begins", () => {
    const scene = aKitchen().as("ida", "lead");
    const sends = (rhPct: number): void => {
      scene.later(5 * MIN);
      scene.act("enter-reading", { reading: { placeId: "rack-a", tempC: 22, rhPct, source: "sensor" } });
    };
    const doubtFromS = (): number =>
      airOfFilm(scene.kitchen, scene.tray("t2"), scene.tray("t2").films[0]!, scene.nowMs).doubtFromS;
    scene.act("flooded", { trayId: "t2" });
    for (let k = 0; k < 12; k += 1) sends(45 + (k % 2) / 10);
    expect(doubtFromS()).toBe(60 * 60);
    for (let k = 0; k < 40; k += 1) sends(45.3);
    expect(doubtFromS()).toBe(65 * 60 + 30 * 60);
  });

  it("D10 nor is air that nobody read: the doubt begins at the first gap, and the band is the wider", () => {
    const readAt = (...minutes: number[]): { doubtFromMin: number; width: number } => {
      const scene = aKitchen();
      scene.act("flooded", { trayId: "t2" });
      for (const minute of minutes) {
        scene.later(T0 + minute * MIN - scene.nowMs);
        read(scene, 45);
      }
      const { doubtFromS } = airOfFilm(
        scene.kitchen,
        scene.tray("t2"),
        scene.tray("t2").films[0]!,
        scene.nowMs,
      );
      const { earliestMs, latestMs } = bandOf(outlookOf(scene, 0, "t2").dryThrough);
      return { doubtFromMin: doubtFromS / 60, width: latestMs - earliestMs };
    };
    const hourly = readAt(0, 60, 120, 180, 240, 300, 360);
    const withGap = readAt(0, 60, 300, 360);
    const late = readAt(300, 360);
    expect([hourly, withGap, late].map(({ doubtFromMin }) => doubtFromMin)).toEqual([360, 90, 0]);
    expect(withGap.width).toBeGreaterThan(hourly.width);
    expect(late.width).toBeGreaterThan(withGap.width);
  });

  it("D10 each stay is known by its own hygrometer: a typed rack's unread hours stay unread once the tray moved", () => {
    const scene = aKitchen().as("ida", "lead");
    const doubtFromMin = (): number => {
      const tray = scene.tray("t2");
      return airOfFilm(scene.kitchen, tray, tray.films[0]!, scene.nowMs).doubtFromS / 60;
    };
    /** The fan rack's sensor sends every five minutes, for so long. */
    const later = (min: number): void => {
      for (let k = 0; k < min / 5; k += 1) {
        const rhPct = 45 + (k % 7) / 2;
        scene.later(5 * MIN);
        scene.act("enter-reading", { reading: { placeId: "fan", tempC: 22, rhPct, source: "sensor" } });
      }
    };
    read(scene, 50);
    later(5);
    read(scene, 50);
    scene.act("flooded", { trayId: "t2" });
    later(100);
    scene.act("move-tray", { trayId: "t2", placeId: "fan" });
    later(30);
    expect(doubtFromMin()).toBe(30);
    // The other way round: what the sensor told stays known where nobody reads.
    scene.act("flooded", { trayId: "t3" });
    scene.act("move-tray", { trayId: "t3", placeId: "fan" });
    const ofT3 = (): number =>
      airOfFilm(scene.kitchen, scene.tray("t3"), scene.tray("t3").films[0]!, scene.nowMs).doubtFromS / 60;
    later(120);
    read(scene, 50);
    scene.act("move-tray", { trayId: "t3", placeId: "rack-a" });
    scene.later(100 * MIN);
    expect(ofT3()).toBe(150);
  });

  it("D16 a place whose own lines ended 3 h before the room's newest goes by those; a heated one does not", () => {
    const scene = aKitchen();
    read(scene, 45);
    read(scene, 40, 22, "fan");
    read(scene, 16, 38, "cabinet");
    const rhPctAt = (placeId: string): number =>
      airAt(scene.kitchen, placeId, scene.nowMs, scene.nowMs).spells[0]!.air.rhPct;
    scene.later(3 * HOUR);
    read(scene, 60);
    expect([rhPctAt("fan"), rhPctAt("cabinet")]).toEqual([40, 16]);
    scene.later(MIN);
    read(scene, 60);
    expect([rhPctAt("fan"), rhPctAt("cabinet")]).toEqual([60, 16]);
    const readAt = (placeId: string): string | undefined =>
      placeForecast(scene.kitchen, scene.kitchen.places[placeId]!, UNTAUGHT, scene.nowMs).readAt;
    expect([readAt("rack-a"), readAt("fan"), readAt("cabinet"), readAt("oven")]).toEqual([
      undefined,
      "rack-a",
      undefined,
      undefined,
    ]);
    read(scene, 41, 22, "fan");
    expect(rhPctAt("fan")).toBe(41);
  });

  it("K10 found skinned: the skin's band is that moment, and dry through is still to come", () => {
    const scene = aKitchen();
    scene.act("flooded", { trayId: "t2" });
    scene.later(14 * MIN).act("touch-test", { trayId: "t2", finding: "skinned" });
    const { skin, dryThrough } = outlookOf(scene, 0, "t2");
    expect(skin).toEqual({ earliestMs: scene.nowMs, likelyMs: scene.nowMs, latestMs: scene.nowMs });
    expect(bandOf(dryThrough).earliestMs).toBeGreaterThan(scene.nowMs);
  });

  it("K10 found still wet after the model's likeliest: nothing is promised before that moment", () => {
    const scene = aKitchen();
    scene.act("flooded", { trayId: "t2" });
    const before = bandOf(outlookOf(scene, 0, "t2").skin);
    scene
      .later(before.likelyMs + 5 * MIN - scene.nowMs)
      .act("touch-test", { trayId: "t2", finding: "still wet" });
    const after = bandOf(outlookOf(scene, 0, "t2").skin);
    expect(after.earliestMs).toBeGreaterThanOrEqual(scene.nowMs);
    expect(after.likelyMs).toBeGreaterThan(before.likelyMs + 5 * MIN);
  });

  it("K11 firm is dry through; a later still wet takes it back", () => {
    const scene = aKitchen();
    scene.act("flooded", { trayId: "t2" });
    scene.later(7 * HOUR).act("touch-test", { trayId: "t2", finding: "firm" });
    expect(bandOf(outlookOf(scene, 0, "t2").dryThrough).latestMs).toBe(scene.nowMs);
    scene.later(MIN).act("touch-test", { trayId: "t2", finding: "still wet" });
    expect(bandOf(outlookOf(scene, 0, "t2").dryThrough).earliestMs).toBeGreaterThanOrEqual(scene.nowMs);
    expect(bandOf(outlookOf(scene, 0, "t2").skin).earliestMs).toBeGreaterThanOrEqual(scene.nowMs);
  });

  it("a tray in hand has a film already: its first cookies dry since flooding began", () => {
    const scene = aKitchen();
    scene.act("start-flooding", { trayId: "t2" });
    const started = scene.nowMs;
    scene.later(5 * MIN);
    expect(filmLayersOf(scene.tray("t2"))).toEqual([0]);
    expect(bandOf(outlookOf(scene, 0, "t2").skin).likelyMs).toBeGreaterThan(started);
    scene.act("flooded", { trayId: "t2" });
    expect(filmLayersOf(scene.tray("t2"))).toEqual([0]);
    expect(scene.tray("t2").films[0]?.clockStartMs).toBe(started + 5 * MIN);
  });

  it("D5 air too damp is never, with the reason", () => {
    const scene = aKitchen();
    read(scene, 90);
    scene.act("flooded", { trayId: "t2" });
    expect(outlookOf(scene, 0, "t2").dryThrough).toEqual({
      never: { code: "no-drying", rhPct: 90, limitPct: 85 },
    });
  });

  it("D8 under heat in an oven it is not taken to stay there to the end", () => {
    const scene = aKitchen();
    read(scene, 45);
    scene.act("flooded", { trayId: "t2" });
    const before = bandOf(outlookOf(scene, 0, "t2").dryThrough);
    scene.act("start-heat-set", { trayId: "t2", toolId: "oven-1" });
    const inOven = bandOf(outlookOf(scene, 0, "t2").dryThrough);
    // Left in at 65 °C it would be dry in about an hour; a few minutes of it take off little.
    expect(inOven.likelyMs - T0).toBeGreaterThan(0.7 * (before.likelyMs - T0));
  });

  it("D9 in a cabinet said off it dries as in the room from then on; once on again, and for what comes later, it is warm", () => {
    const scene = aKitchen().as("ida", "lead");
    scene.act("put-tool", { tool: CABINET_HEATER });
    read(scene, 60, 20);
    for (const trayId of ["t2", "t3"]) scene.act("flooded", { trayId });
    const rack = bandOf(outlookOf(scene, 0, "t2").dryThrough).likelyMs - T0;
    scene.later(5 * MIN).act("move-tray", { trayId: "t3", placeId: "cabinet" });
    const warm = bandOf(outlookOf(scene, 0, "t3").dryThrough).likelyMs - T0;
    expect(warm).toBeLessThan(0.4 * rack);
    scene.later(5 * MIN).act("tool-off", { toolId: "warm" });
    const spells = airOfFilm(scene.kitchen, scene.tray("t3"), scene.tray("t3").films[0]!, scene.nowMs).spells;
    expect(spells.map(({ fromS, air }) => [fromS, Math.round(air.tempC), air.speedMs])).toEqual([
      [0, 20, 0.15],
      [300, 38, 2],
      [600, 20, 0.15],
    ]);
    const off = bandOf(outlookOf(scene, 0, "t3").dryThrough).likelyMs - T0;
    expect(off).toBeGreaterThan(0.75 * rack);
    expect(off).toBeLessThan(rack);
    scene.later(5 * MIN).act("move-tray", { trayId: "t2", placeId: "cabinet" });
    expect(bandOf(outlookOf(scene, 0, "t2").dryThrough).likelyMs - T0).toBeLessThan(0.5 * rack);
    expect(bandOf(outlookOf(scene, 0, "t3").dryThrough).likelyMs - T0).toBeLessThan(0.5 * rack);
  });

  it("D15 air that was never read is doubted from the start, read air only from its reading on", () => {
    const scene = aKitchen();
    scene.act("flooded", { trayId: "t2" });
    scene.later(HOUR);
    const film = scene.tray("t2").films[0]!;
    const doubtFromS = (): number => airOfFilm(scene.kitchen, scene.tray("t2"), film, scene.nowMs).doubtFromS;
    expect(doubtFromS()).toBe(0);
    read(scene, 45);
    expect(doubtFromS()).toBe(3600);
    scene.later(3 * HOUR);
    expect(doubtFromS()).toBe(3600 + 1800);
  });

  it("what is not there has no forecast", () => {
    const scene = aKitchen();
    expect(forecastFilmOf(scene.kitchen, scene.tray(), 0, UNTAUGHT, scene.nowMs)).toBeUndefined();
  });
});

describe("what the air does in a place", () => {
  it("tells each consistency at its usual thickness, ordered as practice has it", () => {
    const scene = aKitchen();
    read(scene, 45);
    const outlook = placeForecast(scene.kitchen, scene.kitchen.places["rack-a"]!, UNTAUGHT, scene.nowMs);
    expect(outlook).toMatchObject({ basis: "measured", air: { tempC: 22, rhPct: 45, ageMin: 0 } });
    expect(outlook.films.map(({ consistency, thicknessMm }) => [consistency, thicknessMm])).toEqual([
      ["outline", 3],
      ["top-coat", 2.4],
      ["flood", 2.5],
      ["detail", 2],
    ]);
    const skinMin = outlook.films.map(({ skin }) => ("never" in skin ? Infinity : skin.likelyMs / 60_000));
    // Practice table: outline under 10 min, top-coat 15–45 min at 22 °C, 45 %, still.
    expect(skinMin[0]).toBeLessThan(10);
    expect(skinMin[1]).toBeGreaterThan(15);
    expect(skinMin[1]).toBeLessThan(45);
  });

  it("D15 with nothing read it says that the air is assumed", () => {
    const scene = aKitchen();
    const outlook = placeForecast(scene.kitchen, scene.kitchen.places["rack-a"]!, UNTAUGHT, scene.nowMs);
    expect(outlook.basis).toBe("assumed");
    expect(outlook.air).toBeUndefined();
  });

  it("a sensor that has gone quiet is trouble, and its band wider", () => {
    const scene = aKitchen();
    scene.act("enter-reading", { reading: { placeId: "rack-a", tempC: 22, rhPct: 45, source: "sensor" } });
    const rack = scene.kitchen.places["rack-a"]!;
    const fresh = placeForecast(scene.kitchen, rack, UNTAUGHT, scene.nowMs);
    const stale = placeForecast(scene.kitchen, rack, UNTAUGHT, scene.nowMs + 3 * HOUR);
    expect(fresh.trouble).toBeUndefined();
    expect(stale).toMatchObject({ trouble: "silent", air: { ageMin: 180 } });
    const width = ({ films }: typeof fresh): number => {
      const skin = films[1]?.skin;
      return skin === undefined || "never" in skin ? NaN : skin.latestMs / skin.earliestMs;
    };
    expect(width(stale)).toBeGreaterThan(width(fresh));
  });

  it("a fan rack is sooner than a still one", () => {
    const scene = aKitchen();
    read(scene, 45);
    const film = usualFilm(scene.kitchen, "top-coat");
    const [still, fan] = ["rack-a", "fan"].map(
      (place) => spansAt(scene.kitchen, place, film, UNTAUGHT, T0).skin,
    );
    if (still === undefined || fan === undefined || "never" in still || "never" in fan)
      throw new Error("bands");
    // Practice: under a fan in less than half the time.
    expect(fan.likelyMs).toBeLessThan(still.likelyMs / 2);
  });
});
