import type { EvidenceFact } from "#shared/kitchen/model/event.ts";
import { drawsFrom } from "./simulated-kitchen.ts";
import { MIN, type Scene } from "./scene.ts";

/** Findings of trays put away, over so many icings and places, a minute apart: half of them acts, a third never found wet. */
export function findings(
  beforeMs: number,
  { count, icings, places }: { count: number; icings: number; places: number },
): EvidenceFact[] {
  const draws = drawsFrom(600);
  return Array.from({ length: count }, (_, k) => {
    const ln = 0.1 + 0.2 * draws.normal();
    return {
      quantity: draws.uniform() < 0.5 ? "skin" : "dryThrough",
      icing: `icing-${Math.floor(icings * draws.uniform())}`,
      place: `place-${Math.floor(places * draws.uniform())}`,
      lnLow: draws.uniform() < 1 / 3 ? null : ln - 0.3 * draws.uniform(),
      lnHigh: ln + 0.3 * draws.uniform(),
      ...(draws.uniform() < 0.5 ? { byAct: true } : {}),
      atMs: beforeMs - (count - k) * MIN,
      trayNumber: 1 + (k % 300),
      layer: 0,
    };
  });
}

/** Puts 600 findings of 16 icings in 8 places behind a kitchen, all of them known to it. */
export function rememberFindings(scene: Scene): void {
  const { kitchen } = scene;
  const evidence = findings(scene.nowMs - 10_000 * MIN, { count: 600, icings: 16, places: 8 });
  const [icing] = Object.values(kitchen.icings);
  const [place] = Object.values(kitchen.places);
  scene.kitchen = {
    ...kitchen,
    evidence,
    icings: {
      ...kitchen.icings,
      ...Object.fromEntries(evidence.map((fact) => [fact.icing, { ...icing!, id: fact.icing as never }])),
    },
    places: {
      ...kitchen.places,
      ...Object.fromEntries(evidence.map((fact) => [fact.place, { ...place!, id: fact.place as never }])),
    },
  };
}
