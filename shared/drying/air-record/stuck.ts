import type { Reading } from "./reading.ts";
import { HOUR_MS } from "#shared/time.ts";

/** Real air moves a tenth of a percent within this. */
const TENTHS_STAND_MS = 3 * HOUR_MS;
/** A sensor of whole degrees and percents may truly stand still over a quiet night, hardly for longer. */
const WHOLE_STAND_MS = 12 * HOUR_MS;
const LINES_LEAST = 12;
/** A stuck sensor may show a figure's neighbour now and then: these, and one line in ten. Practice, no source. */
const FLICK = 0.1 + 1e-6;
const FLICKS_FREE = 2;
const FLICKS_SHARE = 0.1;

export const isSensor = (line: Reading): boolean => line.source !== "typed";

const known = new WeakMap<readonly Reading[], { sinceMs: number | undefined }>();

/**
 * When a stuck sensor last changed its mind, or undefined if it is not stuck. Humidity that shows tenths is judged alone:
 * some stick at the top of their scale while the temperature goes on. `past` is sorted, and looked at once.
 */
export function stuckSinceMs(past: readonly Reading[]): number | undefined {
  const before = known.get(past);
  if (before !== undefined) return before.sinceMs;
  // The newest lines may be flicks: each is tried as the figure that it is stuck at.
  const usual = past.slice(-1 - FLICKS_FREE);
  const sinceMs = usual.map((line) => stuckAtMs(past, line)).find((ms) => ms !== undefined);
  known.set(past, { sinceMs });
  return sinceMs;
}

function stuckAtMs(past: readonly Reading[], usual: Reading): number | undefined {
  const newestMs = past.at(-1)?.atMs ?? 0;
  const rhOff = (line: Reading): number => Math.abs(line.rhPct - usual.rhPct);
  const bothOff = (line: Reading): number => Math.max(rhOff(line), Math.abs(line.tempC - usual.tempC));
  const humidityMs = runFromMs(past, rhOff);
  if (newestMs - humidityMs < TENTHS_STAND_MS) return undefined;
  if (showsTenths(past, usual, ({ rhPct }) => rhPct)) return humidityMs;
  const bothMs = runFromMs(past, bothOff);
  const standMs = showsTenths(past, usual, ({ tempC }) => tempC) ? TENTHS_STAND_MS : WHOLE_STAND_MS;
  return newestMs - bothMs < standMs ? undefined : bothMs;
}

/** When the last lines began to show one figure, but for flicks; infinity if these are too few. */
function runFromMs(past: readonly Reading[], off: (line: Reading) => number): number {
  let fromMs = Infinity;
  let [lines, flicks] = [0, 0];
  for (let i = past.length - 1; i >= 0; i -= 1) {
    const line = past[i]!;
    const by = off(line);
    if (!isSensor(line) || by > FLICK) break;
    lines += 1;
    if (by === 0) fromMs = line.atMs;
    else flicks += 1;
    if (flicks > FLICKS_FREE + FLICKS_SHARE * lines) break;
  }
  return lines < LINES_LEAST ? Infinity : fromMs;
}

/** An hour's one line may be a mean of whole figures: only those beside another in their hour tell. */
const showsTenths = (past: readonly Reading[], usual: Reading, of: (line: Reading) => number): boolean =>
  !Number.isInteger(of(usual)) ||
  past.some(
    (line, i) => isSensor(line) && !Number.isInteger(of(line)) && hourOf(past[i - 1]) === hourOf(line),
  );

const hourOf = (line: Reading | undefined): number => Math.floor((line?.atMs ?? 0) / HOUR_MS);
