import { HOUR_MS, MIN_MS } from "#shared/time.ts";

/** A machine's clock that is set ahead and back by up to an hour, now and then, and by seconds more often. */
export function steppingClock(draw: () => number): { wallMs: () => number; steps: () => number } {
  let offsetMs = 0;
  let steps = 0;
  let nextMs = Date.now();
  return {
    wallMs: () => {
      const nowMs = Date.now();
      if (nowMs >= nextMs) {
        const mostMs = draw() < 0.3 ? HOUR_MS : MIN_MS / 6;
        offsetMs = (draw() * 2 - 1) * mostMs;
        steps += 1;
        nextMs = nowMs + 50 + draw() * 500;
      }
      return nowMs + offsetMs;
    },
    steps: () => steps,
  };
}
