import { beliefFor, type FilmOf, type Learned } from "#shared/drying/uncertainty/learning.ts";
import { bowlOf, isSlow } from "#shared/kitchen/forecast/evidence.ts";
import { aliveTrays } from "#shared/kitchen/model/lookups.ts";
import type { Kitchen } from "#shared/kitchen/model/state.ts";
import { areBeliefsAlike } from "./forecast-cache.ts";

/** Whether both teach the same of every icing, place and heat in use, and of every bowl with films, to about a hundredth. */
export function teachesTheSame(kitchen: Kitchen, before: Learned, after: Learned): boolean {
  const icings = ["", ...Object.keys(kitchen.icings)];
  const heats = [undefined, ...new Set(Object.values(kitchen.tools).map(({ kind }) => kind))];
  const kinds: FilmOf[] = icings.flatMap((icing) => [
    ...Object.keys(kitchen.places).map((place) => ({ icing, place, ...isSlow(kitchen, icing) })),
    ...heats.map((heat) => ({ icing, place: "", heat, ...isSlow(kitchen, icing) })),
  ]);
  const ofBowls = aliveTrays(kitchen).flatMap((tray) =>
    tray.films.flatMap((film): FilmOf[] => {
      const layer = kitchen.designs[tray.designId]?.layers[film.layer];
      if (layer === undefined || film.bowl === undefined) return [];
      return [{ icing: layer.icingId, place: tray.placeId, ...bowlOf(film, layer) }];
    }),
  );
  return [...kinds, ...ofBowls].every((film) =>
    areBeliefsAlike(beliefFor(before, film), beliefFor(after, film)),
  );
}
