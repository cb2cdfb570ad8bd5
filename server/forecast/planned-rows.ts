import type { Band } from "#shared/drying/uncertainty/band.ts";
import type { PlannedNext, TrayForecast } from "#shared/kitchen/model/forecast.ts";
import type { DayPlan } from "#shared/kitchen/plan/plan.ts";
import { MIN_MS } from "#shared/time.ts";

/** What moves by less than this, and by less than this share of the time it speaks of, stays as it was published. */
const STILL_MS = 2 * MIN_MS;
const STILL_SHARE = { finish: 0.02, act: 0.1 } as const;
/** Whose hands an act is for is said so long ahead: later ones may still change hands with every tap. */
const WHO_AHEAD_MS = 30 * MIN_MS;

/** Each tray's first act by the plan. */
export function firstActs({ acts, madeAtMs }: DayPlan): ReadonlyMap<string, PlannedNext> {
  const first = new Map<string, PlannedNext>();
  for (const { trayId, act, layer, startMs, who, startByMs } of acts)
    if (!first.has(trayId))
      first.set(trayId, {
        act,
        startMs,
        ...(layer === undefined ? {} : { layer }),
        ...(who === undefined || startMs - madeAtMs > WHO_AHEAD_MS ? {} : { who }),
        ...(startByMs === undefined ? {} : { startByMs }),
      });
  return first;
}

/** A tray's row by a new plan. What moved by too little to tell stays, so that screens stand still and little is sent. */
export function plannedRow(
  before: TrayForecast | undefined,
  finish: Band,
  next: TrayForecast["next"],
  act: PlannedNext | undefined,
  nowMs: number,
): TrayForecast {
  const isAlike = before?.plan !== undefined && act !== undefined && isAlikeAct(before.plan, act, nowMs);
  return trayRow(
    before !== undefined && isAlikeBand(before.finish, finish, nowMs) ? before.finish : finish,
    next,
    isAlike ? before.plan : act,
  );
}

export const trayRow = (
  finish: Band,
  next: TrayForecast["next"],
  plan: PlannedNext | undefined,
): TrayForecast => ({
  finish,
  ...(next === undefined ? {} : { next }),
  ...(plan === undefined ? {} : { plan }),
});

const isStill = (a: number | undefined, b: number | undefined, nowMs: number, share: number): boolean =>
  a === b ||
  (a !== undefined && b !== undefined && Math.abs(b - a) <= Math.max(STILL_MS, share * (b - nowMs)));

const isAlikeBand = (a: Band, b: Band, nowMs: number): boolean =>
  !("never" in a) &&
  !("never" in b) &&
  (["earliestMs", "likelyMs", "latestMs"] as const).every((point) =>
    isStill(a[point], b[point], nowMs, STILL_SHARE.finish),
  );

const isAlikeAct = (a: PlannedNext, b: PlannedNext, nowMs: number): boolean =>
  a.act === b.act &&
  a.layer === b.layer &&
  a.who === b.who &&
  isStill(a.startMs, b.startMs, nowMs, STILL_SHARE.act) &&
  isStill(a.startByMs, b.startByMs, nowMs, STILL_SHARE.act);
