import type { Forecasts } from "#shared/kitchen/model/forecast.ts";
import { nextClosingMs, openFromMs, openSinceMs } from "#shared/kitchen/model/opening-hours.ts";
import { aliveTrays } from "#shared/kitchen/model/lookups.ts";
import type { Kitchen, Tray } from "#shared/kitchen/model/state.ts";
import { needsOf, nextAct, readiness } from "#shared/kitchen/tray/route.ts";
import { restSetByMs, setByMs } from "#shared/kitchen/tray/sinking.ts";
import { HOUR_MS, MIN_MS } from "#shared/time.ts";
import { minACookie, paceOf } from "./pace.ts";

/** So long before closing the board says what is left to do. */
const AHEAD_MS = 2 * HOUR_MS;
/** Trays whose moments lie this close share a line. */
const SAME_LINE_MS = 15 * MIN_MS;

/** What to think of before the kitchen closes. Tray numbers ascending. */
export interface BeforeClosing {
  closesMs: number;
  opensMs: number;
  /** Laid by then, these are dry through when the kitchen opens; the soonest first. */
  floodBy: readonly { trays: readonly number[]; layer: number; byMs: number }[];
  /** Some that could still be laid would not be dry by then. */
  isTooLateForSome: boolean;
  /** Their next layer goes on wet icing: not to be left until opening. */
  finishFirst: readonly number[];
  /** Their icing dries on overnight: nobody is needed before opening. */
  mayStand: readonly number[];
}

/** From two hours before closing until it; undefined otherwise, and where the kitchen does not close. */
export function beforeClosing(
  kitchen: Kitchen,
  forecasts: Forecasts,
  nowMs: number,
): BeforeClosing | undefined {
  const { settings } = kitchen;
  const closesMs = nextClosingMs(settings, nowMs);
  if (openSinceMs(settings, nowMs) === undefined || closesMs - nowMs > AHEAD_MS) return undefined;
  const opensMs = openFromMs(settings, closesMs);
  const pace = paceOf(kitchen);
  const trays = aliveTrays(kitchen).toSorted((a, b) => a.number - b.number);
  const finishFirst = trays.filter((tray) => goesOnWet(kitchen, forecasts, tray, nowMs));
  const lines: { trays: number[]; layer: number; byMs: number; key: string }[] = [];
  let isTooLateForSome = false;
  for (const tray of trays) {
    const next = nextAct(kitchen, tray);
    const spans = forecasts.trays[tray.id]?.next;
    if (next.kind !== "flood" || finishFirst.includes(tray)) continue;
    if (spans?.layer !== next.layer) continue;
    const readyMs = readyBy(kitchen, forecasts, tray, nowMs);
    const design = kitchen.designs[tray.designId];
    if (readyMs === undefined || design === undefined) continue;
    const layMs = tray.count * minACookie(pace, design, next.layer) * MIN_MS;
    const fromMs = Math.max(nowMs, readyMs);
    if (fromMs + layMs > closesMs) continue;
    const dryMs = "never" in spans.dryThrough ? Infinity : spans.dryThrough.latestMs;
    const byMs = Math.min(opensMs - dryMs, closesMs) - layMs;
    if (byMs < fromMs) {
      isTooLateForSome = true;
      continue;
    }
    const key = `${tray.designId}/${tray.orderId}/${next.layer}`;
    const line = lines.find((one) => one.key === key && Math.abs(one.byMs - byMs) <= SAME_LINE_MS);
    if (line === undefined) lines.push({ trays: [tray.number], layer: next.layer, byMs, key });
    else {
      line.trays.push(tray.number);
      line.byMs = Math.min(line.byMs, byMs);
    }
  }
  return {
    closesMs,
    opensMs,
    floodBy: lines
      .toSorted((a, b) => a.byMs - b.byMs || a.trays[0]! - b.trays[0]!)
      .map(({ trays, layer, byMs }) => ({ trays, layer, byMs })),
    isTooLateForSome,
    finishFirst: finishFirst.map(({ number }) => number),
    mayStand: trays
      .filter((tray) => tray.films.length > 0 && isResting(tray) && !finishFirst.includes(tray))
      .filter((tray) => !isHeatDue(tray, nowMs))
      .map(({ number }) => number),
  };
}

const isResting = ({ status }: Tray): boolean => status.stage === "crusting" || status.stage === "full-dry";

/** Whether a section of its last layer may sink unless hands heat-set it now. */
function isHeatDue(tray: Tray, nowMs: number): boolean {
  const last = tray.films.at(-1);
  return last !== undefined && (restSetByMs(tray, last) ?? setByMs(tray, last) ?? 0) >= nowMs;
}

/** Whether the next layer is to be laid into the last one while that is wet, and it still is. */
function goesOnWet(kitchen: Kitchen, forecasts: Forecasts, tray: Tray, nowMs: number): boolean {
  const next = nextAct(kitchen, tray);
  const design = kitchen.designs[tray.designId];
  const last = tray.films.at(-1);
  if (next.kind !== "flood" || design === undefined || last === undefined) return false;
  const need = needsOf(design, next.layer).find(({ layer }) => layer === last.layer)?.need;
  const skin = forecasts.films[`${tray.id}/${last.layer}`]?.skin;
  return need === "wet" && skin !== undefined && ("never" in skin || skin.likelyMs > nowMs);
}

/** When hands can likely lay its next layer: now where it is ready. */
function readyBy(kitchen: Kitchen, forecasts: Forecasts, tray: Tray, nowMs: number): number | undefined {
  const state = readiness(kitchen, forecasts, tray, nowMs);
  if (state.is === "ready" || state.is === "check by touch") return nowMs;
  return state.is === "coming" ? state.band.likelyMs : undefined;
}
