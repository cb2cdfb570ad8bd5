/** Rates of two clocks drift apart by less than this. */
const DRIFT = 0.0002;
/** Older measurements than this are left out, ms. */
const WINDOW_MS = 60_000;

interface Sample {
  /** What the other clock shows less what ours does, at best. */
  offsetMs: number;
  /** How far off that may be: half the round trip. */
  withinMs: number;
  atMs: number;
}

/** Another machine's clock, told by asking it now and then. */
export interface SharedClock {
  /** It showed `theirsMs` some time between these two moments of our own clock. */
  measured: (askedMs: number, theirsMs: number, answeredMs: number) => void;
  /** What it shows at this moment of ours; undefined until it was asked. */
  at: (oursMs: number) => number | undefined;
}

/**
 * Of the last minute's measurements, that with the shortest round trip counts: the answer that was under way least. One that cannot
 * be true beside the newest is forgotten: the other clock was set, is another, or ours slept.
 */
export function sharedClock(): SharedClock {
  let samples: readonly Sample[] = [];
  const doubt = ({ withinMs, atMs }: Sample, nowMs: number): number => withinMs + DRIFT * (nowMs - atMs);

  return {
    measured: (askedMs, theirsMs, answeredMs) => {
      const newest: Sample = {
        offsetMs: theirsMs - (askedMs + answeredMs) / 2,
        withinMs: (answeredMs - askedMs) / 2,
        atMs: answeredMs,
      };
      const agree = (one: Sample): boolean =>
        Math.abs(one.offsetMs - newest.offsetMs) <= doubt(one, answeredMs) + newest.withinMs + 1;
      const kept = samples.filter((one) => answeredMs - one.atMs < WINDOW_MS && agree(one));
      samples = [...kept, newest];
    },
    at: (oursMs) => {
      let best: Sample | undefined;
      for (const one of samples)
        if (best === undefined || doubt(one, oursMs) < doubt(best, oursMs)) best = one;
      return best === undefined ? undefined : oursMs + best.offsetMs;
    },
  };
}
