const SQRT_TAU = Math.sqrt(2 * Math.PI);

/** Standard normal quantile of 0.9: a tenth lies above it. */
export const TENTH_Z = 1.2815515655446004;

/** Density of the standard normal. */
export const normalDensity = (z: number): number => Math.exp(-0.5 * z * z) / SQRT_TAU;

/**
 * Upper tail of the standard normal, relative error below 2e-12 to z = 35. Series near the middle, continued fraction
 * in the tail: Abramowitz & Stegun 26.2.11 and 26.2.14.
 */
export function normalTail(z: number): number {
  if (z === Infinity) return 0;
  if (z < 0) return 1 - normalTail(-z);
  if (z < 3) {
    let term = z;
    let sum = z;
    for (let k = 3; Math.abs(term) > 1e-17 * sum; k += 2) {
      term *= (z * z) / k;
      sum += term;
    }
    return 0.5 - normalDensity(z) * sum;
  }
  let fraction = z;
  for (let k = 30; k >= 1; k -= 1) fraction = z + k / fraction;
  return normalDensity(z) / fraction;
}

/** A quantity known to lie between two bounds: how likely that was, and its mean and variance given it. */
export interface Truncated {
  /** Probability of the interval; the density where both bounds are the same. */
  mass: number;
  mean: number;
  variance: number;
}

/** Bounds closer than this count as one exact value: below it the difference of two tails loses its digits. */
const EXACT_WITHIN = 1e-6;

/** A normal of this mean and sd cut to `low`–`high` (open ends as ±Infinity). sd > 0. */
export function truncatedNormal(mean: number, sd: number, low: number, high: number): Truncated {
  if (high - low < EXACT_WITHIN) {
    const at = (low + high) / 2;
    return { mass: normalDensity((at - mean) / sd) / sd, mean: at, variance: 0 };
  }
  const from = (low - mean) / sd;
  const to = (high - mean) / sd;
  const mass = from > 0 ? normalTail(from) - normalTail(to) : normalTail(-to) - normalTail(-from);
  if (!(mass > 0)) {
    const nearest = from > 0 ? low : high;
    return { mass: 0, mean: nearest, variance: 0 };
  }
  const fromDensity = normalDensity(from);
  const toDensity = normalDensity(to);
  const shift = (fromDensity - toDensity) / mass;
  const spread = (from === -Infinity ? 0 : from * fromDensity) - (to === Infinity ? 0 : to * toDensity);
  return {
    mass,
    mean: mean + sd * shift,
    variance: sd * sd * Math.max(0, 1 + spread / mass - shift * shift),
  };
}
