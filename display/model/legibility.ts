import type { Settings } from "#shared/kitchen/model/settings.ts";

/**
 * Height of a capital, and of a digit, in parts of the font size: Atkinson Hyperlegible Next, OS/2 sCapHeight 668 of
 * 1000 units. A test reads it out of the font file.
 */
export const CAP_HEIGHT_EM = 0.668;

/** What must be read across the room: preferred character height, 20–22 arcminutes (ISO 9241-3). */
export const ACROSS_THE_ROOM_ARCMIN = 20;
/** What is read from nearby: least character height, 16 arcminutes (NUREG-0700), at two metres. */
export const NEARBY_ARCMIN = 16;
export const NEARBY_M = 2;

/** A wall as its browser sees it, filling the whole screen. */
export interface WallScreen {
  widthPx: number;
  heightPx: number;
  diagonalCm: number;
}

/** Height, m, of a character seen under `arcmin` from `distanceM`: H = 2 D tan(arcmin/2). */
export const characterHeightM = (distanceM: number, arcmin: number): number =>
  2 * distanceM * Math.tan(((arcmin / 60) * Math.PI) / 180 / 2);

/** Least font size, px, whose capitals and digits are seen under `arcmin` from `distanceM`. */
export function leastFontPx(distanceM: number, arcmin: number, screen: WallScreen): number {
  const pxPerM = Math.hypot(screen.widthPx, screen.heightPx) / (screen.diagonalCm / 100);
  return (characterHeightM(distanceM, arcmin) * pxPerM) / CAP_HEIGHT_EM;
}

/** Least font sizes, px, of a wall: tray numbers, acts and alarms; and everything else. */
export function leastFonts(
  wall: Settings["wall"],
  widthPx: number,
  heightPx: number,
): { acrossPx: number; nearbyPx: number } {
  const screen = { widthPx, heightPx, diagonalCm: wall.diagonalCm };
  return {
    acrossPx: leastFontPx(wall.farthestM, ACROSS_THE_ROOM_ARCMIN, screen),
    nearbyPx: leastFontPx(NEARBY_M, NEARBY_ARCMIN, screen),
  };
}
