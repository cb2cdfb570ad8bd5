import type { WallLayout } from "./wall-layout.ts";

/** The heading over the tiles and the two lines below them: further trays, heat tools. */
export const wordsHeight = (second: number, unit: number): number => second * 4.2 + 10 * unit;

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
