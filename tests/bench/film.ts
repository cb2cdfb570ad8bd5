import type { Air, AirSpell, FilmSpec } from "#shared/drying/film/film.ts";
import { workSoFar } from "#shared/drying/film/run.ts";
import { CELLS } from "#shared/drying/film/solver.ts";
import { type ForecastOptions, forecastFilm } from "#shared/drying/uncertainty/forecast.ts";

/** A measured figure beside its floor: plain tridiagonal sweeps, two a step, as many cells and steps as the forecast took. */
export interface FilmBench {
  name: string;
  films: number;
  medianMs: number;
  yardstickMs: number;
  ratio: number;
}

const ROOM: Air = { tempC: 22, rhPct: 45, speedMs: 0.15 };
const TOP_COAT: FilmSpec = { thicknessMm: 2.4, waterPct: 19 };
const DOUBT = { tempSdC: 0.7, rhSdPct: 3, speedSdLn: 0.3 };
const READING_S = 300;
const TRAYS = 300;
const FILMS_A_TRAY = 3;

/** Room air that wanders, read every five minutes. */
function read(count: number, phase = 0): AirSpell[] {
  return Array.from({ length: count }, (_, i) => ({
    fromS: i * READING_S,
    air: { ...ROOM, tempC: 22 + Math.sin(i + phase), rhPct: 45 + 5 * Math.cos(i + phase) },
  }));
}

/** One forecast in one air, one with 24 airs behind it, and those of a full room: 300 trays of 3 films. */
export function benchFilm(): FilmBench[] {
  const steady = [{ fromS: 0, air: ROOM }];
  const behind = read(24);
  const since: ForecastOptions = { doubt: DOUBT, doubtFromS: 24 * READING_S };
  const room = Array.from({ length: TRAYS * FILMS_A_TRAY }, (_, i) => ({
    film: { thicknessMm: 1.5 + (i % 5) * 0.4, waterPct: 15.5 + (i % 4) * 1.7 },
    spells: read(1 + (i % 24), i),
    options: { doubt: DOUBT, doubtFromS: (1 + (i % 24)) * READING_S },
  }));
  return [
    against("forecast of a film in one air", 1, 400, () => forecastFilm(TOP_COAT, steady, { doubt: DOUBT })),
    against("forecast of a film with 24 airs behind it", 1, 400, () => forecastFilm(TOP_COAT, behind, since)),
    against(`forecasts of ${room.length} films, no two alike`, room.length, 5, () => {
      for (const { film, spells, options } of room) forecastFilm(film, spells, options);
    }),
  ];
}

function against(name: string, films: number, times: number, work: () => void): FilmBench {
  const before = workSoFar();
  work();
  const sweeps = (2 * (workSoFar() - before)) / CELLS;
  const medianMs = medianOf(times, work);
  const yardstickMs = medianOf(times, () => sweep(sweeps));
  return { name, films, medianMs, yardstickMs, ratio: medianMs / yardstickMs };
}

/** Median of so many runs, after a quarter as many to warm up. */
function medianOf(times: number, work: () => void): number {
  for (let i = 0; i < times / 4; i++) work();
  const took = Array.from({ length: times }, () => {
    const from = performance.now();
    work();
    return performance.now() - from;
  });
  return took.toSorted((a, b) => a - b)[Math.floor(times / 2)]!;
}

const solved = new Float64Array(CELLS);
const upper = new Float64Array(CELLS);

/** Solves a tridiagonal system of the film's size so many times over. */
function sweep(times: number): void {
  for (let n = 0; n < times; n++) {
    upper[0] = -0.5 / 2;
    solved[0] = 1 / 2;
    for (let i = 1; i < CELLS; i++) {
      const share = 1 / (2 + 0.5 * upper[i - 1]!);
      upper[i] = -0.5 * share;
      solved[i] = (1 + 0.5 * solved[i - 1]!) * share;
    }
    for (let i = CELLS - 2; i >= 0; i--) solved[i] = solved[i]! - upper[i]! * solved[i + 1]!;
  }
}
