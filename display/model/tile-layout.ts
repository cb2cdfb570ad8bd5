/** Letters beyond this many units are large: in a row tile the number stands beside the act. */
export const LARGE_UNITS = 48;
/** The hands' part may take this much of a landscape wall. */
const HANDS_AT_MOST = 0.51;
const HANDS_AT_LEAST = 0.365;
/** Widths measured in the font at weight 800, in parts of the font size: three digits; half a run ("118–"). */
const THREE_DIGITS_EM = 1.65;
/** "sea glass  Rack A · 3  12 min". */
const FACTS_EM = 15;
const HALF_RUN_EM = 2.45;

/** The part of the wall where tiles stand, and the sizes they are made of; px. */
export interface TileRoom {
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

/** "stacked": number over act; "row": number beside act. */
export interface TileSize {
  form: "stacked" | "row";
  width: number;
  height: number;
}

/** Tiles as they fit there: rows and columns of them, and how wide the part then is. */
export interface TileGrid {
  tile: TileSize;
  number: number;
  columns: number;
  rows: number;
  width: number;
}

/** The form and number of columns that show most tiles; of these the narrowest. */
export function bestTiles(room: TileRoom): TileGrid | undefined {
  const most = room.isPortrait ? 6 : 2;
  const forms = room.act > LARGE_UNITS * room.unit ? (["stacked", "row"] as const) : (["stacked"] as const);
  const ways = forms.flatMap((form) =>
    Array.from({ length: most }, (_, index) => tilesOf(room, form, index + 1)),
  );
  return ways
    .filter((way) => way !== undefined)
    .toSorted((a, b) => b.rows * b.columns - a.rows * a.columns || a.width - b.width)[0];
}

function tilesOf(
  { width, height, unit, margin, gap, isPortrait, act, second, actEm }: TileRoom,
  form: TileSize["form"],
  columns: number,
): TileGrid | undefined {
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
