import type { ClockFact } from "#shared/protocol/clock.ts";
import { MIN_MS } from "#shared/time.ts";

/** How far the server's clock is ahead of this device's, and how long the asking took. */
export interface ClockSample {
  offsetMs: number;
  delayMs: number;
  /** Device time at which it was taken. */
  takenAtMs: number;
}

/** Four times of one exchange, ms: asked (device), received and answered (server), heard (device). */
export interface ClockExchange {
  t1: number;
  t2: number;
  t3: number;
  t4: number;
}

/** RFC 5905 §8: θ = ½[(T2−T1)+(T3−T4)], δ = (T4−T1)−(T3−T2). The true offset lies within θ ± δ/2. */
export function sampleOf({ t1, t2, t3, t4 }: ClockExchange): ClockSample {
  return { offsetMs: (t2 - t1 + (t3 - t4)) / 2, delayMs: t4 - t1 - (t3 - t2), takenAtMs: t4 };
}

/** Drift of a host's clock against another, median measured: 78 parts in a million. */
export const DRIFT = 78e-6;
/** Ask again this often. */
export const RESAMPLE_MS = 10 * MIN_MS;
/** Exchanges in one asking; the one with least delay is kept. */
export const ROUND = 4;

/** How wrong a sample may be by now, ms: half its delay, and what two clocks have drifted apart since. */
export const doubtMs = (sample: ClockSample, deviceMs: number): number =>
  sample.delayMs / 2 + DRIFT * Math.abs(deviceMs - sample.takenAtMs);

/** The sample to trust at `deviceMs`: least delay, an old one counted worse by its drift. */
export function better(held: ClockSample | undefined, fresh: ClockSample, deviceMs: number): ClockSample {
  if (held === undefined) return fresh;
  return doubtMs(fresh, deviceMs) <= doubtMs(held, deviceMs) ? fresh : held;
}

/** Kitchen time at a moment of the server's real clock. */
export const kitchenTimeMs = (clock: ClockFact, realMs: number): number =>
  clock.kitchenMs + (realMs - clock.realMs) * clock.speed;
