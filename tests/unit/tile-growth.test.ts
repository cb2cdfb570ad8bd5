import { describe, expect, it } from "vitest";
import { growTiles, hasNameRoom, plainTiles } from "#display/model/tile-growth.ts";
import { layOutWall, tilesRoomOf, type WallLayout } from "#display/model/wall-layout.ts";

const WIDEST_ACT_EM = 8.4;
const wall = (farthestM: number, [width, height]: readonly [number, number] = [1920, 1080]): WallLayout =>
  layOutWall(width, height, { diagonalCm: 140, farthestM }, WIDEST_ACT_EM);

const SCREENS = [
  [1920, 1080],
  [3840, 2160],
  [1280, 720],
  [1080, 1920],
] as const;

describe("C23 few tiles grow", () => {
  it.each([2.2, 3, 4, 6])(
    "none leaves half the column empty, nor is higher than it, read from %d m",
    (farthestM) => {
      for (const screen of SCREENS) {
        const layout = wall(farthestM, screen);
        const roomPx = tilesRoomOf(layout, 0);
        for (let tiles = 1; tiles <= layout.columns * layout.tileRows; tiles += 1) {
          const { columns, rowHeight } = growTiles(layout, tiles, roomPx);
          const rows = Math.ceil(tiles / columns);
          const filled = rows * rowHeight + (rows - 1) * layout.gap;
          expect(filled).toBeLessThanOrEqual(roomPx + 1e-6);
          expect(rowHeight).toBeGreaterThanOrEqual(layout.tileHeight - 1e-6);
          if (!layout.isPortrait && layout.form === "stacked") expect(filled).toBeGreaterThan(roomPx / 2);
        }
      }
    },
  );

  it("letters only grow, and most where there is least to show", () => {
    const layout = wall(2.2);
    const grow = [1, 2, 4, 6].map((tiles) => growTiles(layout, tiles, tilesRoomOf(layout, 0)).grow);
    expect(grow).toEqual(grow.toSorted((a, b) => b - a));
    expect(Math.min(...grow)).toBeGreaterThanOrEqual(1);
    expect(grow[0]).toBeGreaterThan(1.2);
  });

  it("two tiles stand one over the other, each as wide as the column", () => {
    const layout = wall(2.2);
    expect(growTiles(layout, 2, tilesRoomOf(layout, 0)).columns).toBe(1);
    expect(growTiles(layout, 4, tilesRoomOf(layout, 0)).columns).toBe(2);
  });

  it("where there is no room to grow they are as the layout has them, each with its cookie", () => {
    const layout = wall(2.2);
    expect(growTiles(layout, 6, layout.tileHeight)).toEqual(plainTiles(layout));
    const { grow, rowHeight, art } = plainTiles(layout);
    expect([grow, rowHeight]).toEqual([1, layout.tileHeight]);
    expect(art.height).toBeGreaterThan(3 * layout.second);
    expect(art.height).toBeLessThan(layout.number);
  });

  it("a cookie takes no room that an act needs", () => {
    for (const farthestM of [2.2, 3, 4, 5, 6]) {
      const layout = wall(farthestM);
      const { inner, grow, art } = growTiles(layout, 1, tilesRoomOf(layout, 0));
      if (art.isBeside) expect(layout.tileWords * grow + art.width).toBeLessThanOrEqual(inner);
    }
  });

  it("a design's name stands between number and cookie only where no word of it breaks", () => {
    const size = plainTiles(wall(2.2));
    const roomPx = size.inner - 100 - size.art.height;
    expect(hasNameRoom(size, 100, roomPx * 0.8, roomPx * 0.8)).toBe(true);
    expect(hasNameRoom(size, 100, roomPx * 1.2, roomPx * 0.6)).toBe(true);
    expect(hasNameRoom(size, 100, roomPx * 1.2, roomPx)).toBe(false);
    expect(hasNameRoom(size, 100, roomPx * 2, roomPx * 0.5)).toBe(false);
  });
});
