import type { Learned } from "#shared/drying/uncertainty/learning.ts";
import {
  type PlannedFilm,
  plannedKey,
  type Solve,
  type Spans,
  spansAt,
} from "#shared/kitchen/forecast/films.ts";
import type { Kitchen } from "#shared/kitchen/model/state.ts";
import { MIN_MS } from "#shared/time.ts";

/** Spans of films laid now, kept for the minute: many trays ask for the same ones. */
export function makePlannedSpans(
  learned: () => Learned,
  solve: Solve,
): (kitchen: Kitchen, placeId: string, film: PlannedFilm, nowMs: number) => Spans {
  let kept: { kitchen: Kitchen; learned: Learned; minute: number } | undefined;
  const known = new Map<string, Spans>();
  return (kitchen, placeId, film, nowMs) => {
    const now = { kitchen, learned: learned(), minute: Math.floor(nowMs / MIN_MS) };
    if (now.kitchen !== kept?.kitchen || now.learned !== kept.learned || now.minute !== kept.minute) {
      known.clear();
      kept = now;
    }
    const key = plannedKey(placeId, film);
    const spans = known.get(key) ?? spansAt(kitchen, placeId, film, now.learned, nowMs, solve);
    known.set(key, spans);
    return spans;
  };
}
