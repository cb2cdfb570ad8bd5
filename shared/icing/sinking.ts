import { type Consistency, isPoured } from "./poured.ts";

/**
 * Which sections sink in the middle when left to dry slowly: common practice, no source. Spans 6–25 mm (¼–1 in) sink,
 * most between 6 and 13 mm; a line of 1.5 mm and a wide field do not.
 */
export const SINKING_BAND_MM = { from: 6, mostTo: 13, to: 25 } as const;

export type SinkRisk = "none" | "some" | "most";

/** How likely a section with this narrowest span, in mm (above 0), is to sink. */
export function sinkRisk(narrowestMm: number): SinkRisk {
  if (!(narrowestMm > 0)) throw new RangeError(`narrowestMm must be above 0 mm, got ${narrowestMm}`);
  if (narrowestMm < SINKING_BAND_MM.from || narrowestMm > SINKING_BAND_MM.to) return "none";
  return narrowestMm <= SINKING_BAND_MM.mostTo ? "most" : "some";
}

/** How likely a layer's smallest section is to sink: nothing that is piped does. */
export const layerSinkRisk = (layer: { consistency: Consistency; narrowestMm: number }): SinkRisk =>
  isPoured(layer.consistency) ? sinkRisk(layer.narrowestMm) : "none";

/** Minutes after flooding within which to heat-set a section that may sink: a share (0–1) of the likely skin time. */
export function setWithinMin(skinLikelyMin: number, share = 0.3): number {
  if (!(skinLikelyMin >= 0))
    throw new RangeError(`skinLikelyMin must be 0 min or more, got ${skinLikelyMin}`);
  if (!(share > 0 && share <= 1)) throw new RangeError(`share must be above 0 and at most 1, got ${share}`);
  return skinLikelyMin * share;
}

/**
 * How many cookies to flood before stopping to heat-set them, so that the first is not left too long; at least 1. Hot
 * air takes them one by one; an oven or a cabinet takes them all at once, so only flooding uses up the window.
 */
export function cookiesBeforeSetting(
  windowMin: number,
  floodMin: number,
  setMin: number,
  toolKind: "hot-air" | "oven" | "warm-cabinet",
): number {
  if (!(windowMin >= 0)) throw new RangeError(`windowMin must be 0 min or more, got ${windowMin}`);
  if (!(floodMin > 0)) throw new RangeError(`floodMin must be above 0 min, got ${floodMin}`);
  if (!(setMin >= 0)) throw new RangeError(`setMin must be 0 min or more, got ${setMin}`);
  const eachMin = toolKind === "hot-air" ? floodMin + setMin : floodMin;
  return Math.max(1, Math.floor(windowMin / eachMin + 1e-9));
}
