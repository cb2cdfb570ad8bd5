import { isReached } from "#shared/drying/uncertainty/band.ts";
import { showsIfItBleeds } from "#shared/icing/contrast.ts";
import type { RiskFact } from "#shared/kitchen/model/risk.ts";
import type { Kitchen, Tray } from "#shared/kitchen/model/state.ts";
import type { Design } from "#shared/kitchen/model/vocabulary.ts";
import { layerFact } from "#shared/kitchen/tray/act-facts.ts";
import { LAID_BY, type Wait } from "#shared/kitchen/tray/route.ts";

/** Films it waits for that are likely not yet as they must be. */
export const stillOpen = (waits: readonly Wait[], atMs: number): Wait[] =>
  waits.filter(({ reached, band }) => reached === undefined && !(isReached(band) && band.likelyMs <= atMs));

/** What laying now risks. */
export function bleedRisk(waits: readonly Wait[], tray: Tray, design: Design, kitchen: Kitchen): RiskFact {
  const later = design.layers[tray.films.length];
  const hexes = (id: string | undefined): string => kitchen.icings[id ?? ""]?.hex ?? "#ffffff";
  const wouldShow = waits.some((wait) =>
    showsIfItBleeds(hexes(design.layers[wait.layer]?.icingId), hexes(later?.icingId)),
  );
  const need = waits.some((wait) => wait.need === "dry through") ? "dry through" : "skin";
  const icing = kitchen.icings[later?.icingId ?? ""]?.name;
  return {
    ...notYet("lay", waits, need, tray, design, kitchen),
    verb: LAID_BY[later?.consistency ?? "flood"],
    ...(icing !== undefined && { icing }),
    ...(wouldShow && { wouldShow }),
  };
}

/** What is not yet as it must be, and when it likely will be. */
export function notYet(
  act: RiskFact["act"],
  waits: readonly Wait[],
  need: RiskFact["need"],
  tray: Tray,
  design: Design,
  kitchen: Kitchen,
): RiskFact {
  const bands = waits.map(({ band }) => band);
  const known = bands.filter(isReached);
  const isNever = bands.some((band) => band !== undefined && "never" in band);
  return {
    act,
    tray: tray.number,
    layers: waits.map(({ layer }) => layerFact(kitchen, design, layer)),
    need,
    ...(isNever && { never: true }),
    ...(known.length > 0 && {
      fromMs: Math.max(...known.map((band) => band.earliestMs)),
      untilMs: Math.max(...known.map((band) => band.latestMs)),
    }),
  };
}
