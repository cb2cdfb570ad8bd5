import type { ServerProblem } from "#shared/kitchen/model/server-problem.ts";
import type { Report } from "#server/words.ts";
import { MIN_MS } from "#shared/time.ts";

/** A step ahead longer than this is said, ms. */
const JUMP_MS = MIN_MS;
/** For how long it is said, ms. */
const JUMP_SAID_MS = 15 * MIN_MS;
/** The machine's clock further behind than this is said, ms. */
const BEHIND_MS = 2000;
/** How fast the kitchen's time goes while the machine's catches up with it, and nothing is under heat. */
const CATCHING_UP = 0.5;

export interface SteadyClock {
  /** Real milliseconds since 1970 UTC; never less than it gave before. */
  realMs: () => number;
  /** From now on time goes on from `fromMs` at least, and at full pace while `isHeatOn` says so. */
  hold: (fromMs: number, isHeatOn: () => boolean) => void;
  problem: () => ServerProblem | undefined;
}

/**
 * The machine's time, but it never runs backwards: a small computer without a battery comes back from a power cut hours
 * behind, and a clock in the future would refuse acts and raise no alarm. Set back, it goes on by `monotonicMs`, which only
 * ever goes forward, at half its pace until the machine's has caught up; at full pace while heat is on, whose limits are
 * durations. Set ahead, it follows at once: a machine that slept has heat under it that ran all the while.
 */
export function steadyClock(wallMs: () => number, monotonicMs: () => number, report: Report): SteadyClock {
  let atMs = wallMs();
  let lookedMs = monotonicMs();
  let isHeatOn = (): boolean => false;
  let behindMs = 0;
  let jump: { byMs: number; lookedMs: number } | undefined;

  function follow(wall: number, onMs: number): void {
    behindMs = 0;
    atMs = wall;
    if (wall - onMs <= JUMP_MS) return;
    jump = { byMs: wall - onMs, lookedMs };
    const byS = seconds(jump.byMs);
    report(({ server }) => server.log.clockJumped(byS));
  }

  function realMs(): number {
    const [wall, monotonic] = [wallMs(), monotonicMs()];
    const passedMs = monotonic - lookedMs;
    lookedMs = monotonic;
    // The machine's time comes in whole milliseconds, and so may seem up to one behind.
    if (wall + 1 >= atMs + passedMs) follow(Math.max(wall, atMs), atMs + passedMs);
    else {
      const pace = isHeatOn() ? 1 : CATCHING_UP;
      atMs = Math.max(wall, atMs + pace * passedMs);
      const wasBehind = behindMs > BEHIND_MS;
      behindMs = atMs - wall;
      const byS = seconds(behindMs);
      if (!wasBehind && behindMs > BEHIND_MS) report(({ server }) => server.log.clockBehind(byS));
    }
    return Math.floor(atMs);
  }

  return {
    realMs,
    hold(fromMs, heatOn) {
      isHeatOn = heatOn;
      realMs();
      atMs = Math.max(atMs, fromMs);
    },
    problem: () => {
      realMs();
      if (behindMs > BEHIND_MS) return { code: "clock-behind", byS: seconds(behindMs) };
      if (jump === undefined || lookedMs - jump.lookedMs > JUMP_SAID_MS) return undefined;
      return { code: "clock-jumped", byS: seconds(jump.byMs) };
    },
  };
}

const seconds = (ms: number): number => Math.round(ms / 1000);
