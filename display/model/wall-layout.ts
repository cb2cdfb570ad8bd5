import { wordsHeight } from "./hands-room.ts";
import { leastFonts, NEARBY_M } from "./legibility.ts";
import { bestTiles, LARGE_UNITS, type TileSize } from "./tile-layout.ts";
import type { Settings } from "#shared/kitchen/model/settings.ts";

/** The sizes of one wall, px unless said otherwise. All of it follows from the screen, its diagonal and its farthest reader. */
export interface WallLayout {
  width: number;
  /** One part of 1080 of the screen's short side: margins and lines grow with it. */
  unit: number;
  isPortrait: boolean;
  /** Font sizes: acts and alarms, tray numbers on tiles, tray numbers on pills, everything else. */
  act: number;
  number: number;
  pill: number;
  second: number;
  top: number;
  bottom: number;
  handsWidth: number;
  /** Portrait only: height of the tiles' part. */
  handsHeight: number;
  tile: TileSize;
  columns: number;
  alertHeight: number;
  gap: number;
  laneLabel: number;
  axis: number;
  pillHeight: number;
  row: number;
  /** Rows of pills, shared out among the lanes. */
  rows: number;
  orderCards: number;
  /** How far off acts, alarms and tray numbers can be read, m: below the farthest reader where the wall is too small. */
  readableM: number;
}

/** Widest act, in parts of the font size: "Top-coat layer 12" in bold, with figures of one width, measured in the font. */
export const WIDEST_ACT_EM = 8.4;
/**
 * Lays out a wall `widthPx` × `heightPx`: letters as large as its farthest reader needs, and as many tiles and pills as then
 * fit. Where not even one tile, one alert and a row for each lane would fit, the letters shrink until they do, and
 * `readableM` says so. `actEm` is the width of the widest act this kitchen has.
 */
export function layOutWall(
  widthPx: number,
  heightPx: number,
  wall: Settings["wall"],
  actEm: number = WIDEST_ACT_EM,
): WallLayout {
  const least = leastFonts(wall, widthPx, heightPx);
  for (let share = 1; ; share *= 0.97) {
    const layout = attempt(widthPx, heightPx, least.acrossPx * share, least.nearbyPx * share, actEm);
    if (layout !== undefined || share < 0.02) {
      const fallback = layout ?? attempt(widthPx, heightPx, 1, 1, actEm)!;
      return { ...fallback, readableM: wall.farthestM * share };
    }
  }
}

function attempt(
  width: number,
  height: number,
  across: number,
  nearby: number,
  actEm: number,
): Omit<WallLayout, "readableM"> | undefined {
  const isPortrait = height > width;
  const unit = Math.min(width, height * (isPortrait ? 0.75 : 16 / 9)) / (isPortrait ? 1080 : 1920);
  const second = Math.max(25 * unit, nearby);
  const act = Math.max(32 * unit, across);
  const pill = Math.max(36 * unit, across);
  const top = isPortrait ? second * 6.8 + 44 * unit : Math.max(100 * unit, second * 2.6 + 26 * unit);
  const bottom = second * 2.6 + 64 * unit;
  const middle = height - top - bottom - 32 * unit;
  const gap = 14 * unit;
  const margin = 40 * unit;
  const laneLabel = Math.max(150 * unit, 6.4 * second);
  const handsHeight = isPortrait ? middle * 0.45 : middle;
  const isLarge = act > LARGE_UNITS * unit;
  const alertHeight = isLarge
    ? Math.max(1.95 * act, 0.95 * act + 2.5 * second) + 30 * unit
    : 1.2 * act + 2.5 * second + 28 * unit;
  const room = {
    width,
    unit,
    margin,
    gap,
    isPortrait,
    height: handsHeight - wordsHeight(second, unit),
    act,
    second,
    actEm,
  };
  const hands = bestTiles(room);
  if (hands === undefined || hands.rows * (hands.tile.height + gap) < alertHeight + gap + hands.tile.height)
    return undefined;
  const pillHeight = 0.7 * pill + 32 * unit;
  const row = pillHeight + 8 * unit;
  const lanesHeight = (isPortrait ? middle - handsHeight - 24 * unit : middle) - second * 2.6 - 18 * unit;
  const rows = Math.floor((lanesHeight - 4 * 14 * unit) / row);
  const axis =
    (isPortrait ? width - 2 * margin : width - hands.width - 2 * margin - 24 * unit) - laneLabel - 20 * unit;
  if (rows < 4 || row < 1.4 * second || axis < 6 * pill || middle < 0) return undefined;
  return {
    width,
    unit,
    isPortrait,
    act,
    number: hands.number,
    pill,
    second,
    top,
    bottom,
    handsWidth: hands.width,
    handsHeight,
    tile: hands.tile,
    columns: hands.columns,
    alertHeight,
    gap,
    laneLabel,
    axis,
    pillHeight,
    row,
    rows,
    orderCards: Math.max(1, Math.min(6, Math.floor((width - 2 * margin + gap) / (16.5 * second + gap)))),
  };
}

/** From how far off such a wall can be read, m, and how large a screen would serve; nothing where it is large enough. */
export function wallTooSmall(
  { readableM }: Pick<WallLayout, "readableM">,
  { farthestM, diagonalCm }: Settings["wall"],
): { farthestM: number; acrossM: number; nearM: number; needCm: number } | undefined {
  if (readableM >= farthestM * 0.999) return undefined;
  return {
    farthestM,
    acrossM: readableM,
    nearM: NEARBY_M * (readableM / farthestM),
    needCm: Math.ceil((diagonalCm * farthestM) / readableM / 5) * 5,
  };
}
