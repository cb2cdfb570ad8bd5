import { dryFilm } from "#shared/drying/film/film.ts";
import { heatSpell } from "#shared/heat/set.ts";
import { airOfFilm, filmSpecOf, heatToolOf } from "#shared/kitchen/forecast/air.ts";
import { roomAir } from "#shared/kitchen/tray/place-readings.ts";
import type { Film, HeatSet, Kitchen, Tray } from "#shared/kitchen/model/state.ts";
import type { TouchFinding } from "#shared/kitchen/model/vocabulary.ts";
import { impliedFactors } from "#shared/kitchen/forecast/implied-factors.ts";
import { chanceFrom, seedFor } from "./chance.ts";

/**
 * How the practice kitchen really dries: slower than the model by a factor nobody in it knows, and each film a little
 * otherwise. What fingers find is decided here, so that there is something to learn.
 */
export interface GroundTruth {
  /** What a touch finds on a film at a moment. */
  touch: (kitchen: Kitchen, tray: Tray, film: Film, atMs: number) => TouchFinding;
  /** When a heat-set in fact sets its film, seconds from the start of the heat; Infinity if never. */
  setAfterS: (kitchen: Kitchen, tray: Tray, heat: HeatSet) => number;
}

/** Times here beside the model's: natural log, and how far one film differs from the next. */
export const TRUE_LN = { skin: Math.log(1.15), dryThrough: Math.log(1.1) } as const;
const FILM_SD_LN = 0.12;

export function groundTruth(seed: number): GroundTruth {
  const lnOf = (quantity: "skin" | "dryThrough", tray: Tray, layer: number): number =>
    TRUE_LN[quantity] + FILM_SD_LN * chanceFrom(seedFor(seed, `${tray.id}/${layer}/${quantity}`)).normal();

  return {
    touch: (kitchen, tray, film, atMs) => {
      const { skinLn, dryThroughLn } = impliedFactors(kitchen, tray, film, atMs);
      if ((dryThroughLn ?? -Infinity) >= lnOf("dryThrough", tray, film.layer)) return "firm";
      const isSet = tray.heats.some((heat) => heat.layer === film.layer && heat.result !== "not yet");
      return isSet || (skinLn ?? -Infinity) >= lnOf("skin", tray, film.layer) ? "skinned" : "still wet";
    },
    setAfterS: (kitchen, tray, heat) => {
      const film = tray.films.find((one) => one.layer === heat.layer);
      const design = kitchen.designs[tray.designId];
      const tool = kitchen.tools[heat.toolId];
      if (film === undefined || design === undefined || tool === undefined) return Infinity;
      const driedForS = Math.max(0, (heat.startedAtMs - film.clockStartMs) / 1000);
      const { spells, roomC } = airOfFilm(kitchen, tray, film, heat.startedAtMs);
      const before = spells.filter(({ fromS }) => fromS < driedForS);
      const air = heatSpell(heatToolOf(kitchen, tool), roomAir(kitchen));
      const { skin } = dryFilm(
        { ...filmSpecOf(kitchen, design, heat.layer), roomC },
        [...before, { fromS: driedForS, air }],
        {
          timeScale: Math.exp(lnOf("skin", tray, heat.layer)),
          until: "skin",
        },
      );
      return "never" in skin ? Infinity : Math.max(0, skin.s - driedForS);
    },
  };
}
