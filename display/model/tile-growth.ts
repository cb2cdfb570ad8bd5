import type { WallLayout } from "./wall-layout.ts";

/** How tiles are drawn once it is known how many there are; px but for `columns` and `grow`. */
export interface TileSize {
  columns: number;
  /** Letters are so many times as large as the layout's. */
  grow: number;
  rowHeight: number;
  /** Width between a tile's borders and padding. */
  inner: number;
  /** The room of a tile's cookie: beside all its words, or in the corner beside its number. */
  art: { isBeside: boolean; width: number; height: number };
}

/** Letters and cookies grow no more than so, and rows beyond that by so much. */
const [GROW_MOST, STRETCH_MOST] = [2, 1.5];
/** A cookie beside the words, in parts of a tile's height; one in the corner takes no more of its width, and of its number's height. */
const [BESIDE, CORNER_WIDTH, CORNER_HEIGHT] = [0.75, 0.4, 0.88];
/** Less room than so many secondary letters is none. */
const LEAST_ART_EM = 2;

/** Sizes with which so many tiles best fill `roomPx` of height: with the largest letters, and of these with most columns. */
export function growTiles(layout: WallLayout, tiles: number, roomPx: number): TileSize {
  const counts = Array.from({ length: layout.columns }, (_, k) => layout.columns - k);
  const sizes = counts.flatMap((columns) => sizeWith(layout, tiles, roomPx, columns) ?? []);
  return (
    sizes.toSorted((a, b) => b.grow - a.grow)[0] ?? tileSize(layout, layout.columns, 1, layout.tileHeight)
  );
}

/**
 * Whether a design's name has room between a tile's number and its cookie in the corner, with no word broken, in two lines at
 * most. Widths of the number, the name and its longest word in px.
 */
export function hasNameRoom(
  { inner, art }: TileSize,
  numberPx: number,
  namePx: number,
  wordPx: number,
): boolean {
  const roomPx = inner - numberPx - sideOf(art);
  return art.isBeside ? wordPx <= art.width : Math.max(wordPx, namePx * TWO_LINES) <= roomPx * CLEAR;
}
/** Two lines are seldom filled; and what stands beside the name keeps clear of it. */
const [TWO_LINES, CLEAR] = [0.6, 0.85];

/** Sizes that need no more than the layout's own. */
export const plainTiles = (layout: WallLayout): TileSize =>
  tileSize(layout, layout.columns, 1, layout.tileHeight);

function sizeWith(layout: WallLayout, tiles: number, roomPx: number, columns: number): TileSize | undefined {
  const { gap, tileHeight, tileWords } = layout;
  const rows = Math.max(1, Math.ceil(tiles / columns));
  const rowRoom = (roomPx - (rows - 1) * gap) / rows;
  if (rowRoom < tileHeight) return undefined;
  const byWidth = innerWidth(layout, columns) / tileWords;
  const beside = innerWidth(layout, columns) / (tileWords + BESIDE * tileHeight);
  // A cookie beside its words is worth some of their size.
  const wanted = beside >= 1 ? beside : byWidth;
  const grow = Math.max(1, Math.min(wanted, rowRoom / tileHeight, GROW_MOST));
  return tileSize(layout, columns, grow, Math.min(rowRoom, tileHeight * grow * STRETCH_MOST));
}

/** Between a tile's borders and padding. */
const innerWidth = ({ handsWidth, gap, unit }: WallLayout, columns: number): number =>
  (handsWidth - (columns - 1) * gap) / columns - 40 * unit;

/** Between words and what is beside them, in units. */
const GAPS = 56;
/** How wide and high a round cookie is there. */
const sideOf = ({ width, height }: TileSize["art"]): number => Math.min(width, height);

function tileSize(layout: WallLayout, columns: number, grow: number, rowHeight: number): TileSize {
  const { form, unit, number, second, tileHeight, tileWords } = layout;
  const inner = innerWidth(layout, columns);
  const height = rowHeight - 24 * unit;
  const beside = { isBeside: true, width: inner - tileWords * grow - GAPS * unit, height };
  const corner = {
    isBeside: false,
    width: inner * CORNER_WIDTH,
    height: CORNER_HEIGHT * number * grow + (rowHeight - tileHeight * grow),
  };
  const art = form === "row" || sideOf(beside) > sideOf(corner) ? beside : corner;
  const hasRoom = art.width >= LEAST_ART_EM * second;
  const { isBeside } = art;
  return { columns, grow, rowHeight, inner, art: hasRoom ? art : { isBeside, width: 0, height: 0 } };
}
