import { median } from "#shared/drying/air-record/readings.ts";
import type { Kitchen } from "#shared/kitchen/model/state.ts";
import { Consistency } from "#shared/kitchen/model/vocabulary.ts";
import { handsMin } from "#shared/kitchen/tray/laying.ts";

/** How long hands took for a layer of one consistency, of those timed from "start" to "laid". */
export interface HandsRow {
  consistency: Consistency;
  /** Trays timed. */
  trays: number;
  /** A tray's minutes: in the middle, the least and the most. */
  middleMin: number;
  leastMin: number;
  mostMin: number;
  /** The middle of a cookie's. */
  cookieMin: number;
}

/** Layers laid since a moment on the trays of the board. One laid with a single tap was not timed. */
export function handsSince(kitchen: Kitchen, sinceMs: number): HandsRow[] {
  const timed = Object.values(kitchen.trays).flatMap((tray) =>
    tray.films
      .filter(({ clockStartMs }) => clockStartMs >= sinceMs)
      .map((film) => ({
        consistency: kitchen.designs[tray.designId]?.layers[film.layer]?.consistency,
        min: handsMin(tray, film),
        cookies: tray.count,
      }))
      .filter(({ min }) => min > 0),
  );
  return Consistency.options.flatMap((consistency): HandsRow[] => {
    const own = timed.filter((one) => one.consistency === consistency);
    const minutes = own.map(({ min }) => min);
    const middleMin = median(minutes);
    const cookieMin = median(own.map(({ min, cookies }) => min / cookies));
    if (middleMin === undefined || cookieMin === undefined) return [];
    return [
      {
        consistency,
        trays: own.length,
        middleMin,
        leastMin: Math.min(...minutes),
        mostMin: Math.max(...minutes),
        cookieMin,
      },
    ];
  });
}
