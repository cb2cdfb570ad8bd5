/** A rate limit: `burst` at once, then `perS` a second. */
export function tokenBucket(
  burst: number,
  perS: number,
  nowMs: () => number,
): { take: (cost: number) => boolean } {
  let left = burst;
  let atMs = nowMs();
  return {
    take: (cost) => {
      const now = nowMs();
      left = Math.min(burst, left + (Math.max(0, now - atMs) / 1000) * perS);
      atMs = now;
      if (left < cost) return false;
      left -= cost;
      return true;
    },
  };
}
