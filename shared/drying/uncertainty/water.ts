import type { Air } from "#shared/drying/film/air.ts";
import {
  BoundaryCondition,
  type FilmSpec,
  filmStart,
  followFilm,
  quick,
  type Times,
} from "#shared/drying/film/run.ts";
import { HORIZON_S } from "#shared/drying/film/constants.ts";

/** How far a bowl's water may be from what it was mixed to, points. */
export const WATER_SD_PCT = 0.3;
/** Half of the step in water over which a slope is taken, points. */
const PROBE_PCT = 0.25;
/** Slopes differ little from one air to the next: airs this near share one. */
const LIKE_AIR = { tempC: 2, rhPct: 5 };
const KEPT_MOST = 500;

const kept = new Map<string, Times>();

/** By how much, in ln, each time grows a point of water, in one air; 0 where it is not reached. */
export function waterSlopes(film: FilmSpec, air: Air): Times {
  const like: Air = {
    tempC: nearest(air.tempC, LIKE_AIR.tempC),
    rhPct: nearest(air.rhPct, LIKE_AIR.rhPct),
    speedMs: air.speedMs,
    ...(air.hWm2K === undefined ? {} : { hWm2K: air.hWm2K }),
  };
  const key = [film.thicknessMm, film.waterPct, film.densityKgM3, ...Object.values(like)].join(" ");
  const known = kept.get(key);
  if (known !== undefined) return known;
  if (kept.size >= KEPT_MOST) kept.clear();
  const slopes = slopesIn(film, like);
  kept.set(key, slopes);
  return slopes;
}

const nearest = (value: number, step: number): number => step * Math.round(value / step);

function slopesIn({ thicknessMm, waterPct, ...film }: FilmSpec, air: Air): Times {
  const meets = [new BoundaryCondition(0, () => air)];
  const timesAt = (waterPct: number): Times =>
    followFilm(
      filmStart({ ...film, thicknessMm, waterPct, roomC: air.tempC }, air),
      { meets, timeScale: 1, horizonS: HORIZON_S },
      quick,
    );
  const [drier, wetter] = [timesAt(waterPct - PROBE_PCT), timesAt(waterPct + PROBE_PCT)];
  const slope = (from: number, to: number): number =>
    from > 0 && to < Infinity ? Math.log(to / from) / (2 * PROBE_PCT) : 0;
  return { skin: slope(drier.skin, wetter.skin), dryThrough: slope(drier.dryThrough, wetter.dryThrough) };
}
