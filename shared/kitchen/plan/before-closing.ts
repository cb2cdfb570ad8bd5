import type { Forecasts } from "#shared/kitchen/model/forecast.ts";
import { nextClosingMs, openFromMs, openSinceMs } from "#shared/kitchen/model/opening-hours.ts";
import { aliveTrays } from "#shared/kitchen/model/lookups.ts";
import type { Kitchen, Tray } from "#shared/kitchen/model/state.ts";
import { needsOf, nextAct, readiness } from "#shared/kitchen/tray/route.ts";
import { restSetByMs, setByMs } from "#shared/kitchen/tray/sinking.ts";
import { HOUR_MS, MIN_MS } from "#shared/time.ts";
import { crewOf } from "./crew.ts";
import { openHours } from "./hours.ts";
import { minACookie, paceOf } from "./pace.ts";

/** So long before closing the board says what is left to do. */
const AHEAD_MS = 2 * HOUR_MS;
/** Trays whose moments lie this close, or a tray's laying apart, share a line. */
const SAME_LINE_MS = 15 * MIN_MS;

/** What to think of before the kitchen closes. Tray numbers ascending. */
export interface BeforeClosing {
  closesMs: number;
  opensMs: number;
  /** Begun by then, with the hands there are, these are dry through when the kitchen opens; the soonest first. */
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
  const layings = trays.flatMap((tray): Laying[] => {
    const next = nextAct(kitchen, tray);
    const spans = forecasts.trays[tray.id]?.next;
    if (next.kind !== "flood" || finishFirst.includes(tray)) return [];
    if (spans?.layer !== next.layer) return [];
    const readyMs = readyBy(kitchen, forecasts, tray, nowMs);
    const design = kitchen.designs[tray.designId];
    if (readyMs === undefined || design === undefined) return [];
    const layMs = tray.count * minACookie(pace, design, next.layer) * MIN_MS;
    const fromMs = Math.max(nowMs, readyMs);
    if (fromMs + layMs > closesMs) return [];
    const dryMs = "never" in spans.dryThrough ? Infinity : spans.dryThrough.latestMs;
    return [{ tray, layer: next.layer, fromMs, layMs, endByMs: Math.min(opensMs - dryMs, closesMs) }];
  });
  const { lines, isTooLateForSome } = linesOf(layings, handsUntil(kitchen, closesMs, nowMs));
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

/** A layer that could still be laid before closing. */
interface Laying {
  tray: Tray;
  layer: number;
  fromMs: number;
  layMs: number;
  /** Laid by then it is dry at opening. */
  endByMs: number;
}

interface Line {
  trays: number[];
  layer: number;
  byMs: number;
}

/** Until when each pair of hands works before closing. */
function handsUntil(kitchen: Kitchen, closesMs: number, nowMs: number): number[] {
  const closesMin = (closesMs - nowMs) / MIN_MS;
  return crewOf(kitchen, openHours(kitchen.settings, nowMs), nowMs).map(({ hours }) => {
    const spell = hours?.fromMin.findLastIndex((fromMin) => fromMin < closesMin) ?? -1;
    if (hours === undefined) return closesMs;
    return spell < 0 ? nowMs : nowMs + Math.min(closesMin, hours.toMin[spell]!) * MIN_MS;
  });
}

/** Who is to begin by when, from the last one back: each takes the hands that are free latest. */
function linesOf(
  layings: readonly Laying[],
  untilMs: number[],
): { lines: readonly Line[]; isTooLateForSome: boolean } {
  const lines: (Line & { key: string })[] = [];
  let isTooLateForSome = false;
  for (const { tray, layer, fromMs, layMs, endByMs } of layings.toSorted(
    (a, b) => b.endByMs - a.endByMs || b.tray.number - a.tray.number,
  )) {
    const hand = untilMs.indexOf(Math.max(...untilMs));
    const byMs = Math.min(endByMs, untilMs[hand]!) - layMs;
    if (byMs < fromMs) {
      isTooLateForSome = true;
      continue;
    }
    untilMs[hand] = byMs;
    const key = `${tray.designId}/${tray.orderId}/${layer}`;
    const sameMs = Math.max(SAME_LINE_MS, layMs);
    const line = lines.find((one) => one.key === key && Math.abs(one.byMs - byMs) <= sameMs);
    if (line === undefined) lines.push({ trays: [tray.number], layer, byMs, key });
    else {
      line.trays.push(tray.number);
      line.byMs = Math.min(line.byMs, byMs);
    }
  }
  const ascending = (numbers: readonly number[]): number[] => numbers.toSorted((a, b) => a - b);
  return { lines: lines.map((line) => ({ ...line, trays: ascending(line.trays) })), isTooLateForSome };
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
