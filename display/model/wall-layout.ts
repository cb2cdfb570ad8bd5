import { NEARBY_M, leastFonts } from "./legibility.ts";
import type { Settings } from "#shared/kitchen/model/vocabulary.ts";

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
  tile: { form: "stacked" | "row"; width: number; height: number };
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
/** The hands' part may take this much of a landscape wall. */
const HANDS_AT_MOST = 0.51;
const HANDS_AT_LEAST = 0.365;
/** Letters beyond this many units are set in one column: number beside act. */
const LARGE = 48;
/** Widths measured in the font at weight 800, in parts of the font size: three digits; half a run ("118–"). */
const THREE_DIGITS_EM = 1.65;
/** "sea glass  Rack A · 3  12 min". */
const FACTS_EM = 15;
const HALF_RUN_EM = 2.45;

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
  const isLarge = act > LARGE * unit;
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

interface TileRoom {
  width: number;
  height: number;
  unit: number;
  margin: number;
  gap: number;
  isPortrait: boolean;
  act: number;
  second: number;
  actEm: number;
}

interface Hands {
  tile: WallLayout["tile"];
  number: number;
  columns: number;
  rows: number;
  width: number;
}

/** The form and number of columns that show most tiles; of these the narrowest. */
function bestTiles(room: TileRoom): Hands | undefined {
  const most = room.isPortrait ? 6 : 2;
  const forms = room.act > LARGE * room.unit ? (["stacked", "row"] as const) : (["stacked"] as const);
  const ways = forms.flatMap((form) =>
    Array.from({ length: most }, (_, index) => tilesOf(room, form, index + 1)),
  );
  return ways
    .filter((way) => way !== undefined)
    .toSorted((a, b) => b.rows * b.columns - a.rows * a.columns || a.width - b.width)[0];
}

function tilesOf(
  { width, height, unit, margin, gap, isPortrait, act, second, actEm }: TileRoom,
  form: "stacked" | "row",
  columns: number,
): Hands | undefined {
  const number = Math.max(92 * unit, 1.1 * act);
  const inner =
    form === "stacked"
      ? Math.max(actEm * act, THREE_DIGITS_EM * number + 5.4 * second)
      : HALF_RUN_EM * act + 24 * unit + actEm * act;
  const least = columns * (inner + 40 * unit) + (columns - 1) * gap;
  const handsWidth = isPortrait ? width - 2 * margin : Math.max(least, width * HANDS_AT_LEAST - margin);
  const factsLines = actEm * act < FACTS_EM * second ? 2 : 1;
  const tileHeight =
    form === "stacked"
      ? Math.max(0.82 * number, 2.45 * second) + 1.2 * act + 1.35 * second + 26 * unit
      : Math.max(act + factsLines * 1.3 * second + 22 * unit, 1.5 * act + 18 * unit);
  const rows = Math.floor((height + gap) / (tileHeight + gap));
  const tooWide = isPortrait ? least > handsWidth : handsWidth > width * HANDS_AT_MOST;
  if (tooWide || rows < 1) return undefined;
  const tile = { form, width: (handsWidth - (columns - 1) * gap) / columns, height: tileHeight };
  return { tile, number: form === "stacked" ? number : 1.35 * act, columns, rows, width: handsWidth };
}

/** The heading over the tiles and the two lines below them: further trays, heat tools. */
const wordsHeight = (second: number, unit: number): number => second * 4.2 + 10 * unit;

/** Letters of secondary text in a line under the tiles. */
export const handsLetters = ({ handsWidth, second }: WallLayout): number =>
  Math.floor(handsWidth / (second * 0.59));

/** Heat tools have so many lines if they need them. */
export const TOOLS_LINES = 2;

export interface HandsRoom {
  alerts: number;
  tiles: number;
}

/**
 * How many alerts can have room at most, and how many tiles beside them, with words that do not wrap: what the browser then
 * measures is no more than that. One row of tiles is kept, unless its trays can wait: then `overTiles`, the urgent alerts, may
 * take that as well. Heat tools have two lines if they need them.
 */
export function handsRoom(layout: WallLayout, alerts: number, toolsWords = "", overTiles = 0): HandsRoom {
  const { gap, alertHeight, tile, second, unit, columns } = layout;
  const wanted = Math.max(1, Math.ceil(toolsWords.length / handsLetters(layout)));
  const line = second * 1.3;
  const height = layout.handsHeight - wordsHeight(second, unit) - (Math.min(TOOLS_LINES, wanted) - 1) * line;
  const alertRoom = Math.max(1, Math.min(3, Math.floor((height - tile.height) / (alertHeight + gap))));
  const beside = Math.min(alerts, alertRoom);
  const fitting = (px: number): number => Math.floor(px / (alertHeight + gap));
  const alone = fitting(height) >= alerts ? alerts : fitting(height - second * 1.5);
  const shown = Math.max(beside, Math.min(overTiles, alone));
  const left = height - shown * (alertHeight + gap) - (alerts > shown ? second * 1.5 : 0);
  const rows = Math.max(shown > beside ? 0 : 1, Math.floor((left + gap) / (tile.height + gap)));
  return { alerts: shown, tiles: rows * columns };
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
