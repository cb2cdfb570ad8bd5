import { leastFonts, NEARBY_M } from "./legibility.ts";
import type { Settings } from "#shared/kitchen/model/settings.ts";

/**
 * The sizes of one wall, px unless said otherwise. All of it follows from the screen, its diagonal and its farthest reader.
 * `readableM`: how far off acts, alarms and tray numbers can be read: below the farthest reader where the wall is too small.
 */
export type WallLayout = NonNullable<ReturnType<typeof attempt>> & { readableM: number };

/** Letters beyond this many units are large: in a row tile the number stands beside the act. */
export const LARGE_UNITS = 48;
/** The hands' part takes so much of a landscape wall. */
const [HANDS_AT_LEAST, HANDS_AT_MOST] = [0.365, 0.51];

/**
 * Lays out a wall `widthPx` × `heightPx`: letters as large as its farthest reader needs, and as many tiles and pills as then
 * fit. Where not even one tile, one alert and a row for each lane would fit, the letters shrink until they do, and
 * `readableM` says so. `actEm` is the width of the widest act this kitchen has.
 */
export function layOutWall(
  widthPx: number,
  heightPx: number,
  wall: Settings["wall"],
  actEm: number,
): WallLayout {
  const least = leastFonts(wall, widthPx, heightPx);
  for (let share = 1; share > 0.02; share *= 0.97) {
    const layout = attempt(widthPx, heightPx, least.acrossPx * share, least.nearbyPx * share, actEm);
    if (layout !== undefined) return { ...layout, readableM: wall.farthestM * share };
  }
  return { ...attempt(widthPx, heightPx, 1, 1, actEm)!, readableM: wall.farthestM * 0.02 };
}

function attempt(width: number, height: number, across: number, nearby: number, actEm: number) {
  const isPortrait = height > width;
  /** One part of 1080 of the screen's short side: margins and lines grow with it. */
  const unit = Math.min(width, height * (isPortrait ? 0.75 : 16 / 9)) / (isPortrait ? 1080 : 1920);
  // Font sizes: acts and alarms, tray numbers on pills, everything else.
  const act = Math.max(32 * unit, across);
  const pill = Math.max(36 * unit, across);
  const second = Math.max(25 * unit, nearby);
  const top = isPortrait ? second * 6.8 + 44 * unit : Math.max(100 * unit, second * 2.6 + 26 * unit);
  const bottom = second * 2.6 + 64 * unit;
  const middle = height - top - bottom - 32 * unit;
  const [gap, inner] = [14 * unit, width - 80 * unit];
  const handsHeight = isPortrait ? middle * 0.45 : middle;
  const alertHeight =
    act > LARGE_UNITS * unit
      ? Math.max(1.95 * act, 0.95 * act + 2.5 * second) + 30 * unit
      : 1.2 * act + 2.5 * second + 28 * unit;
  /** Of the hands' part, without its heading and the lines under the tiles: further trays, heat tools. */
  const tilesHeight = handsHeight - second * 4.2 - 10 * unit;
  const laneLabel = Math.max(150 * unit, 6.4 * second);
  // What a cookie and words on one line may take: the lanes keep more than their least.
  const roomyMost = Math.min(width * HANDS_AT_MOST, inner - laneLabel - 44 * unit - 8 * pill);
  const page = { width, inner, unit, gap, isPortrait, act, second, actEm };
  const hands = bestTiles({ ...page, roomyMost, height: tilesHeight });
  if (hands === undefined || hands.tileRows * (hands.tileHeight + gap) < alertHeight + gap + hands.tileHeight)
    return undefined;
  const pillHeight = 0.7 * pill + 32 * unit;
  const row = pillHeight + 8 * unit;
  const comingHeight = (isPortrait ? middle - handsHeight - 24 * unit : middle) - second * 2.6 - 18 * unit;
  const flagLine = second * 1.1;
  const rowsHeight = comingHeight - 4 * 14 * unit - flagLine;
  /** Rows of pills, shared out among the lanes; what is left over is for further lines of flags. */
  const rows = Math.floor(rowsHeight / row);
  const flagRows = 1 + Math.max(0, Math.floor((rowsHeight - rows * row) / flagLine));
  const axis = inner - (isPortrait ? 0 : hands.handsWidth + 24 * unit) - laneLabel - 20 * unit;
  if (rows < 4 || row < 1.4 * second || axis < 6 * pill || middle < 0) return undefined;
  const orderCards = Math.max(1, Math.min(6, Math.floor((inner + gap) / (16.5 * second + gap))));
  const sizes = { width, unit, gap, isPortrait, act, pill, second, top, bottom };
  const lanes = { laneLabel, axis, pillHeight, row, rows, flagLine, flagRows };
  return { ...sizes, handsHeight, tilesHeight, alertHeight, ...hands, ...lanes, orderCards };
}

/** The part of the wall where tiles stand, and the sizes they are made of; px. */
type TileRoom = Record<
  "width" | "inner" | "roomyMost" | "height" | "unit" | "gap" | "act" | "second" | "actEm",
  number
> & {
  isPortrait: boolean;
};
/** "stacked": number over act; "row", for large letters: number beside act. */
type TileForm = "stacked" | "row";

/** The form and number of columns that show most tiles; of these the narrowest. */
function bestTiles(room: TileRoom): ReturnType<typeof tilesOf> {
  const forms: TileForm[] = room.act > LARGE_UNITS * room.unit ? ["stacked", "row"] : ["stacked"];
  const counts = room.isPortrait ? [1, 2, 3, 4, 5, 6] : [1, 2];
  return forms
    .flatMap((form) => counts.flatMap((columns) => tilesOf(room, form, columns) ?? []))
    .toSorted((a, b) => b.tileRows * b.columns - a.tileRows * a.columns || a.handsWidth - b.handsWidth)[0];
}

/** Room kept in a stacked tile for three digits, a cookie and its name; beside a row's act for half a run, "118–", on two lines. */
const [THREE_DIGITS_EM, COOKIE_EM, NAME_EM, HALF_RUN_EM] = [1.65, 0.95, 3.4, 2.45];
/** Where a tile is not so wide, where its tray stands and how long it waits take two lines: "Rack A · 3 · waiting 12 min". */
const WHERE_EM = 14;
/** The same of all that is known of a tray, in a row; and what a cookie takes there, with the gaps beside it. */
const [FACTS_EM, ROW_COOKIE_EM] = [24, 2.4];

function tilesOf(room: TileRoom, form: TileForm, columns: number) {
  const { width, inner, roomyMost, height, unit, gap, isPortrait, act, second, actEm } = room;
  const isRow = form === "row";
  const number = isRow ? 1.35 * act : Math.max(92 * unit, 1.1 * act);
  const numberColumn = HALF_RUN_EM * act;
  const words = isRow
    ? numberColumn + 24 * unit + actEm * act
    : Math.max(actEm * act, (THREE_DIGITS_EM + COOKIE_EM) * number + NAME_EM * second);
  const widthWith = (tileWords: number): number => columns * (tileWords + 40 * unit) + (columns - 1) * gap;
  const least = widthWith(words);
  // Wide enough for a place and a wait on one line, in a row for a cookie, where that leaves the lanes their part.
  const roomyWords = isRow ? words + ROW_COOKIE_EM * act : WHERE_EM * second;
  const roomy = Math.min(widthWith(roomyWords), roomyMost);
  const handsWidth = isPortrait ? inner : Math.max(least, roomy, width * HANDS_AT_LEAST - 40 * unit);
  const tileInner = (handsWidth - (columns - 1) * gap) / columns - 40 * unit;
  const factsLines = actEm * act < FACTS_EM * second ? 2 : 1;
  const tileHeight = isRow
    ? Math.max(act + factsLines * 1.3 * second + 22 * unit, 1.5 * act + 18 * unit)
    : 0.9 * number + 1.15 * act + (tileInner < WHERE_EM * second ? 3.6 : 2.4) * second + 20 * unit;
  const tileRows = Math.floor((height + gap) / (tileHeight + gap));
  if (tileRows < 1 || Math.max(least, handsWidth) > (isPortrait ? inner : width * HANDS_AT_MOST))
    return undefined;
  /** Width of its widest words, but for those that wrap. */
  const tileWords = isRow ? words : Math.min(tileInner, Math.max(words, WHERE_EM * second));
  return { form, columns, number, numberColumn, handsWidth, tileWords, tileHeight, tileRows };
}

/**
 * How many alerts can have room at most, and how many tiles beside them, with words that do not wrap: what the browser then
 * measures is no more than that. One row of tiles is kept, unless its trays can wait: then `overTiles`, the urgent alerts, may
 * take that as well.
 */
export function handsRoom(
  layout: WallLayout,
  alerts: number,
  overTiles = 0,
): { alerts: number; tiles: number } {
  const { gap, alertHeight, tileHeight, tilesHeight, second, columns } = layout;
  const fitting = (px: number): number => Math.floor(px / (alertHeight + gap));
  const beside = Math.min(alerts, Math.max(1, Math.min(3, fitting(tilesHeight - tileHeight))));
  const alone = fitting(tilesHeight) >= alerts ? alerts : fitting(tilesHeight - second * 1.5);
  const shown = Math.max(beside, Math.min(overTiles, alone));
  const left = tilesHeight - shown * (alertHeight + gap) - (alerts > shown ? second * 1.5 : 0);
  const rows = Math.max(shown > beside ? 0 : 1, Math.floor((left + gap) / (tileHeight + gap)));
  return { alerts: shown, tiles: rows * columns };
}

/** The height left for tiles beside so many alerts whose words do not wrap. */
export const tilesRoomOf = ({ tilesHeight, alertHeight, gap }: WallLayout, alerts: number): number =>
  tilesHeight - alerts * (alertHeight + gap);

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
