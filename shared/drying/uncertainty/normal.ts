const SQRT_TAU = Math.sqrt(2 * Math.PI);

/** Standard normal quantile of 0.9: a tenth lies above it. */
export const TENTH_Z = 1.2815515655446004;

/** Density of the standard normal. */
export const normalDensity = (z: number): number => Math.exp(-0.5 * z * z) / SQRT_TAU;

/** Upper tail of the standard normal, to about fifteen digits: W. J. Cody, Math. Comp. 23 (1969), coefficients from memory. */
export const normalTail = (z: number): number => tailBeside(z, normalDensity(z));

/** The same where the density at `z` is known already: it costs more than all the rest. */
function tailBeside(z: number, density: number): number {
  if (z < 0) return 1 - tailBeside(-z, density);
  if (z === Infinity) return 0;
  if (z < NEAR) {
    const square = z * z;
    return 0.5 - z * ratio(NEAR_ABOVE, NEAR_BELOW, square);
  }
  if (z < FAR) return SQRT_TAU * density * ratio(MIDDLE_ABOVE, MIDDLE_BELOW, z);
  const inverseSquare = 1 / (z * z);
  return (density / z) * (1 - SQRT_TAU * inverseSquare * ratio(FAR_ABOVE, FAR_BELOW, inverseSquare));
}

const NEAR = 0.67448975;
const FAR = Math.sqrt(32);

/** Of two polynomials of the same degree, highest power first; the lower one's first coefficient is 1. */
function ratio(above: Float64Array, below: Float64Array, x: number): number {
  let upper = above[0]!;
  let lower = 1;
  for (let k = 1; k < above.length; k += 1) {
    upper = upper * x + above[k]!;
    lower = lower * x + below[k]!;
  }
  return upper / lower;
}

const NEAR_ABOVE = Float64Array.of(
  0.06568233791820745,
  2.2352520354606837,
  161.02823106855587,
  1067.6894854603709,
  18154.98125334356,
);
const NEAR_BELOW = Float64Array.of(
  1,
  47.202581904688245,
  976.0985517377767,
  10260.932208618979,
  45507.78933502673,
);
const MIDDLE_ABOVE = Float64Array.of(
  1.0765576773720192e-8,
  0.39894151208813466,
  8.883149794388377,
  93.50665613217785,
  597.2702763948002,
  2494.5375852903726,
  6848.190450536283,
  11602.65143764735,
  9842.714838383978,
);
const MIDDLE_BELOW = Float64Array.of(
  1,
  22.266688044328117,
  235.387901782625,
  1519.3775994075547,
  6485.558298266761,
  18615.571640885097,
  34900.95272114598,
  38912.00328609327,
  19685.429676859992,
);
const FAR_ABOVE = Float64Array.of(
  0.023073441764940174,
  0.215898534057957,
  0.12740116116024736,
  0.022235277870649807,
  0.0014216191932278934,
  2.9112874951168793e-5,
);
const FAR_BELOW = Float64Array.of(
  1,
  1.284260096144911,
  0.4682382124808651,
  0.06598813786892856,
  0.0037823963320275824,
  7.297515550839662e-5,
);

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
  const fromDensity = normalDensity(from);
  const toDensity = normalDensity(to);
  const mass =
    from > 0
      ? tailBeside(from, fromDensity) - tailBeside(to, toDensity)
      : tailBeside(-to, toDensity) - tailBeside(-from, fromDensity);
  if (!(mass > 0)) {
    const nearest = from > 0 ? low : high;
    return { mass: 0, mean: nearest, variance: 0 };
  }
  const shift = (fromDensity - toDensity) / mass;
  const spread = (from === -Infinity ? 0 : from * fromDensity) - (to === Infinity ? 0 : to * toDensity);
  return {
    mass,
    mean: mean + sd * shift,
    variance: sd * sd * Math.max(0, 1 + spread / mass - shift * shift),
  };
}
