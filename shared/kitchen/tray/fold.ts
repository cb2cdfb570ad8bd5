import type { TrayAct } from "#shared/kitchen/model/event.ts";
import { cookieUnder } from "#shared/kitchen/model/lookups.ts";
import type { Tray, HistoryEntry } from "#shared/kitchen/model/state.ts";
import type { Design, TrayPlan } from "#shared/kitchen/model/vocabulary.ts";
import { effectOf, placement, stillHot } from "./act-effect.ts";
import { canApply } from "./can-apply.ts";

// A tray is its plan and its acts: each act that can be applied has its effect, and a take-back replays those that stand.

/** A tray as it stands before anything was done to it. */
export const newTray = (plan: TrayPlan, addedAtMs: number): Tray => ({
  ...plan,
  addedAtMs,
  history: [],
  status: { stage: "queued" },
  films: [],
  placements: [placement(plan, addedAtMs)],
  heats: [],
  problems: [],
});

/** The tray after one act; an act that does not fit (never decided, perhaps read from an old log) changes only the history. */
export function applyAct(tray: Tray, act: TrayAct, design: Design): Tray {
  const next: Tray = { ...tray, history: [...tray.history, { act }] };
  return canApply(tray, act, design) ? { ...next, ...effectOf(tray, act, design) } : next;
}

/** The tray worked out again from its plan and those of its deeds that stand. */
export function replayActs(tray: Tray, history: readonly HistoryEntry[], design: Design): Tray {
  let replayed = newTray(planOf(tray), tray.addedAtMs);
  for (const { act, takenBack } of history)
    if (takenBack === undefined) replayed = applyAct(replayed, act, design);
  // What was hot stays hot, whatever is taken back of how it came to be.
  return { ...replayed, history, ...stillHot(replayed, tray.hotUntilMs) };
}

/** Which cookie each lap of hot air is of, by the acts that began and ended it; of one taken back, the cookie it was of. */
export function cookieNumbers(tray: Tray, design: Design): ReadonlyMap<string, number> {
  const numbers = new Map<string, number>();
  let replayed = newTray(planOf(tray), tray.addedAtMs);
  for (const { act, takenBack } of tray.history) {
    const { status } = replayed;
    const isOfCookie = act.type === "cookie-set" || act.type === "cookie-heat-started";
    if (isOfCookie && status.stage === "heat-set") numbers.set(act.actId, cookieUnder(replayed, status.heat));
    if (takenBack === undefined) replayed = applyAct(replayed, act, design);
  }
  return numbers;
}

/** Acts never change the plan's own fields, so they can be read back off the tray. */
const planOf = ({ id, number, designId, orderId, count, placeId, slot }: Tray): TrayPlan => ({
  id,
  number,
  designId,
  orderId,
  count,
  placeId,
  ...(slot === undefined ? {} : { slot }),
});
