import { dayPlanSteps } from "#tests/support/plan-of.ts";
import { expect, test } from "vitest";
import { dryFilm } from "#shared/drying/film/film.ts";
import { LEARNING_PRIOR } from "#shared/drying/uncertainty/belief.ts";
import { learn } from "#shared/drying/uncertainty/learning.ts";
import { airAt, filmSpecOf } from "#shared/kitchen/forecast/air.ts";
import { plannedFilmOf, spansAt } from "#shared/kitchen/forecast/films.ts";
import { paceOf } from "#shared/kitchen/plan/pace.ts";
import { needsOf } from "#shared/kitchen/tray/route.ts";
import { doubtOf } from "#shared/drying/air-record/readings.ts";
import { atOnce } from "#shared/steps.ts";
import { playDay, type TrueLayer } from "#tests/support/plan-day.ts";
import { drawsFrom, type Draws } from "#tests/support/simulated-kitchen.ts";
import { aKitchen, HOUR, type Scene, T0 } from "#tests/support/scene.ts";

/**
 * What was promised of an order against days that a kitchen written apart from the planner then has: its factor, icings, place,
 * bowls, films, air and people as they are believed to differ. Coverage within 10 ± 5, 50 ± 8 and 90 ± 5 % of 400 days: twice the
 * standard error of the middle one, three times that of the ends.
 */
const DAYS = 400;
const COVERAGE = { earliest: [0.05, 0.15], likely: [0.42, 0.58], latest: [0.85, 0.95] } as const;

interface SetUp {
  trays: number;
  design: "plain" | "outlined" | "four layers";
  place: "rack-a" | "fan";
  isOpenAlways: boolean;
  rhPct: number;
}
const LAYER = { thicknessMm: 2.4, narrowestMm: 40, consistency: "flood" } as const;
const OUTLINE = { ...LAYER, name: "outline", consistency: "outline", thicknessMm: 3 } as const;
const DESIGNS = {
  plain: [{ ...LAYER, name: "flood", icingId: "storm" }],
  outlined: [
    { ...OUTLINE, icingId: "storm" },
    { ...LAYER, name: "flood", icingId: "butter", touches: [0] },
  ],
  "four layers": [
    { ...OUTLINE, icingId: "storm" },
    { ...LAYER, name: "flood", icingId: "butter", touches: [0] },
    { ...LAYER, name: "border", icingId: "sea-glass", touches: [1] },
    {
      ...LAYER,
      name: "dots",
      icingId: "storm",
      consistency: "detail",
      thicknessMm: 1.5,
      touches: [1, 2],
      waits: [{ layer: 1, need: "dry through" }],
    },
  ],
} as const;

function kitchenOf({ trays, design, place, isOpenAlways, rhPct }: SetUp): Scene {
  const scene = aKitchen().as("ida", "lead");
  for (const trayId of ["t1", "t2", "t3"]) scene.act("remove-tray", { trayId });
  const day = isOpenAlways ? { fromMin: 0, toMin: 1440 } : { fromMin: 480, toMin: 1080 };
  scene.act("set-kitchen", {
    settings: { timeZone: "UTC", opening: Array.from({ length: 7 }, () => day), hands: 2, packingMin: 30 },
  });
  scene.act("put-place", {
    place: { id: "rack-a", name: "Rack A", kind: "rack", airSpeedMs: 0.15, capacity: 60 },
  });
  scene.act("put-place", {
    place: { id: "fan", name: "Fan rack", kind: "fan-rack", airSpeedMs: 2, capacity: 60 },
  });
  scene.act("enter-reading", { reading: { placeId: "rack-a", tempC: 22, rhPct, source: "typed" } });
  scene.act("put-design", { design: { id: "d", name: "Design", sizeMm: 80, layers: DESIGNS[design] } });
  scene.act("put-order", {
    order: { id: "o", name: "Order", pickUpAtMs: T0 + 20 * HOUR, cookies: trays * 12 },
  });
  scene.act("add-trays", {
    trays: Array.from({ length: trays }, (_, k) => ({
      id: `c${k}`,
      number: 100 + k,
      designId: "d",
      orderId: "o",
      count: 12,
      placeId: place,
    })),
  });
  return scene;
}

/** What the plan promises of the order, minutes. */
function promised(scene: Scene) {
  const { kitchen, nowMs } = scene;
  const learned = learn([]);
  const spans = new Map<number, ReturnType<typeof spansAt>>();
  const steps = dayPlanSteps({
    kitchen,
    nowMs,
    learned,
    films: {},
    pace: paceOf(kitchen),
    spansOf: (tray, layer) => {
      const film = plannedFilmOf(kitchen, kitchen.designs[tray.designId]!, layer);
      const known = spans.get(layer) ?? spansAt(kitchen, tray.placeId, film, learned, nowMs);
      spans.set(layer, known);
      return known;
    },
  });
  const { earliestMs, likelyMs, latestMs } = atOnce(steps).orders["o"]!.packed!;
  return { earliest: earliestMs - nowMs, likely: likelyMs - nowMs, latest: latestMs - nowMs };
}

/** How a day goes in one of the kitchens that this one may be. */
function aDay(scene: Scene, { trays, place, isOpenAlways }: SetUp, draws: Draws): number {
  const { kitchen, nowMs } = scene;
  const { kitchenSd, daySd, icingSd, oddShare, oddSd, placeSd, bowlSd, filmSd } = LEARNING_PRIOR;
  const design = kitchen.designs["d"]!;
  const of = (sd: number): number => sd * draws.normal();
  const sharedLn = { skin: of(kitchenSd) + of(placeSd) + of(daySd), dryThrough: 0 };
  // One recipe, one hygrometer: what is slow to skin is slow to dry.
  sharedLn.dryThrough = sharedLn.skin;
  const icingLn = new Map(
    Object.keys(kitchen.icings).map((icing) => [icing, of(draws.uniform() < oddShare ? oddSd : icingSd)]),
  );
  const bowlLn = new Map<string, number>();
  const { spells, roomC } = airAt(kitchen, place, nowMs, nowMs);
  const doubt = doubtOf(kitchen.readings["rack-a"]!, nowMs);
  const off = { tempC: of(doubt.tempSdC), rhPct: of(doubt.rhSdPct), speed: Math.exp(of(doubt.speedSdLn)) };
  const air = spells.map(({ fromS, air: { tempC, rhPct, speedMs } }) => ({
    fromS,
    air: { tempC: tempC + off.tempC, rhPct: rhPct + off.rhPct, speedMs: speedMs * off.speed },
  }));
  const kinds = design.layers.map((own, layer) => {
    const times = dryFilm({ ...filmSpecOf(kitchen, design, layer), roomC }, air);
    const bowl = `${own.icingId} ${own.consistency}`;
    const bowlsLn = bowlLn.get(bowl) ?? of(bowlSd);
    bowlLn.set(bowl, bowlsLn);
    const minutes = (quantity: "skin" | "dryThrough"): number => {
      const reached = times[quantity];
      const ln = sharedLn[quantity] + icingLn.get(own.icingId)! + bowlsLn;
      return "never" in reached ? 14 * 1440 : (reached.s / 60) * Math.exp(ln);
    };
    return { skin: minutes("skin"), dryThrough: minutes("dryThrough"), needs: needsOf(design, layer) };
  });
  const paceLn = of(0.125);
  return playDay({
    hands: 2,
    opensMin: isOpenAlways ? 0 : 480,
    closesMin: isOpenAlways ? 1440 : 1080,
    startsMin: 480,
    trays: Array.from({ length: trays }, () => ({
      packMin: (30 / trays) * Math.exp(paceLn + of(0.25)),
      layers: kinds.map(({ skin, dryThrough, needs }): TrueLayer => {
        const filmLn = of(filmSd);
        return {
          layMin: 10 * Math.exp(paceLn + of(0.25)),
          skinMin: skin * Math.exp(filmLn),
          dryMin: dryThrough * Math.exp(filmLn),
          skins: needs.filter(({ need }) => need === "skin").map(({ layer }) => layer),
          dries: needs.filter(({ need }) => need === "dry through").map(({ layer }) => layer),
        };
      }),
    })),
  });
}

test.each<[string, SetUp]>([
  ["12 trays of one layer", { trays: 12, design: "plain", place: "rack-a", isOpenAlways: true, rhPct: 45 }],
  ["12 trays outlined", { trays: 12, design: "outlined", place: "rack-a", isOpenAlways: true, rhPct: 45 }],
  [
    "12 trays of four layers on a fan rack",
    { trays: 12, design: "four layers", place: "fan", isOpenAlways: true, rhPct: 45 },
  ],
  [
    "24 trays of four layers, open 8 to 18",
    { trays: 24, design: "four layers", place: "rack-a", isOpenAlways: false, rhPct: 45 },
  ],
  [
    "24 trays of four layers, open 8 to 18, in damp air",
    { trays: 24, design: "four layers", place: "rack-a", isOpenAlways: false, rhPct: 58 },
  ],
])("K47 what is promised of an order comes true as often as it says: %s", (_, setUp) => {
  const scene = kitchenOf(setUp);
  const promise = promised(scene);
  const draws = drawsFrom(20_260_504);
  const days = Array.from({ length: DAYS }, () => aDay(scene, setUp, draws) * 60_000);
  for (const point of ["earliest", "likely", "latest"] as const) {
    const share = days.filter((ms) => ms <= promise[point]).length / DAYS;
    const [least, most] = COVERAGE[point];
    expect(share, point).toBeGreaterThanOrEqual(least);
    expect(share, point).toBeLessThanOrEqual(most);
  }
});
