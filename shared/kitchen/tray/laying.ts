import type { Film, LayingSample, Tray } from "#shared/kitchen/model/state.ts";
import type { Design } from "#shared/kitchen/model/vocabulary.ts";
import { lineLengthMm } from "#shared/icing/line-length.ts";
import { MIN_MS } from "#shared/time.ts";

/** A tray's layers that were timed; one laid with a single tap was not. */
export const layingOf = (design: Design | undefined, tray: Tray): LayingSample[] =>
  tray.films.flatMap((film) => {
    const own = design?.layers[film.layer];
    const min = handsMin(tray, film);
    if (design === undefined || own === undefined || min <= 0) return [];
    const lineMm = lineLengthMm(own, design.sizeMm);
    return [
      {
        consistency: own.consistency,
        minACookie: min / tray.count,
        ...(lineMm === undefined ? {} : { lineMm }),
        atMs: film.clockStartMs,
      },
    ];
  });

/** Minutes of hands without those under heat, in which nobody lays. Between two cookies under hot air the hands go on laying. */
export function handsMin({ heats }: Tray, { floodingFromMs, clockStartMs }: Film): number {
  const heatedMs = heats
    .flatMap(({ laps }) => laps)
    .reduce(
      (sum, { fromMs, toMs }) =>
        sum + Math.max(0, Math.min(toMs, clockStartMs) - Math.max(fromMs, floodingFromMs)),
      0,
    );
  return (clockStartMs - floodingFromMs - heatedMs) / MIN_MS;
}
