import { beadVolumeMl, floodedAreaMm2, floodVolumeMl } from "#shared/icing/quantities.ts";
import { figureShape } from "#shared/icing/outline-shape.ts";
import { type Consistency, isPoured } from "#shared/icing/poured.ts";

/** One layer of one cookie: what lies on it, and how sure that is. */
export interface LayerVolume {
  volumeMl: number;
  /** Worked out from the cookie's size, for want of an area. */
  isGuess: boolean;
}

/** A piped line is as wide as what it covers and rounded over: an ellipse's share of its box. */
const PIPED_SHARE = Math.PI / 4;
/** Kept free at the edge where no area says better, share of the cookie's size: 3 mm of 80. Common practice, no source. */
const MARGIN_SHARE = 0.04;
/** The widest opening there is a bead for, mm. */
const BEAD_MOST_MM = 10;

/** A guess may be half of what is laid or half as much again: a slim figure, or one nearly round. Common practice, no source. */
export const GUESS_SPREAD = 0.5;

/**
 * Icing of one layer on one cookie, mL. From the area it covers, mm²; without one it is guessed: a flood or a top-coat
 * over a whole figure of that size (longest edge, 10–400 mm), a piped line once round it.
 */
export function layerVolume(
  consistency: Consistency,
  thicknessMm: number,
  cookieMm: number,
  areaMm2?: number,
): LayerVolume {
  const isPiped = !isPoured(consistency);
  if (areaMm2 !== undefined)
    return { volumeMl: floodVolumeMl(areaMm2, thicknessMm, isPiped ? PIPED_SHARE : 1), isGuess: false };
  const figure = figureShape(cookieMm, cookieMm);
  const volumeMl = isPiped
    ? beadVolumeMl(figure.perimeterMm, Math.min(BEAD_MOST_MM, Math.max(0.3, thicknessMm)))
    : floodVolumeMl(floodedAreaMm2(figure, MARGIN_SHARE * cookieMm), thicknessMm);
  return { volumeMl, isGuess: true };
}
