import { english } from "#shared/words/en/index.ts";
import { readFileSync } from "node:fs";
import { fileURLToPath } from "node:url";
import { brotliDecompressSync } from "node:zlib";
import { describe, expect, it } from "vitest";
import {
  ACROSS_THE_ROOM_ARCMIN,
  CAP_HEIGHT_EM,
  characterHeightM,
  leastFontPx,
  leastFonts,
  NEARBY_ARCMIN,
} from "#display/model/legibility.ts";
import { handsRoom, layOutWall as layOut, wallTooSmall } from "#display/model/wall-layout.ts";

const FONT = fileURLToPath(
  new URL(
    "../../node_modules/@fontsource-variable/atkinson-hyperlegible-next/files/atkinson-hyperlegible-next-latin-wght-normal.woff2",
    import.meta.url,
  ),
);

/** Tags of WOFF2's table directory, by their number (W3C WOFF File Format 2.0, §4.1), as far as this font needs them. */
const TAGS = ["cmap", "head", "hhea", "hmtx", "maxp", "name", "OS/2", "post", "cvt ", "fpgm", "glyf", "loca"];

/** A font's tables, decompressed. */
function tablesOf(file: Buffer): Map<string, Buffer> {
  let at = 48;
  const base128 = (): number => {
    let value = 0;
    for (;;) {
      const byte = file[at++]!;
      value = value * 128 + (byte & 127);
      if ((byte & 128) === 0) return value;
    }
  };
  const lengths = Array.from({ length: file.readUInt16BE(12) }, () => {
    const flags = file[at++]!;
    const known = flags & 63;
    const tag = known === 63 ? file.toString("latin1", at, (at += 4)) : (TAGS[known] ?? `#${known}`);
    const length = base128();
    const isOutline = tag === "glyf" || tag === "loca";
    const isTransformed = isOutline ? flags >> 6 === 0 : flags >> 6 !== 0;
    return { tag, length: isTransformed ? base128() : length };
  });
  const data = brotliDecompressSync(file.subarray(at, at + file.readUInt32BE(20)));
  let from = 0;
  return new Map(lengths.map(({ tag, length }) => [tag, data.subarray(from, (from += length))]));
}

describe("character height", () => {
  it("H = 2 D tan(arcmin/2): NUREG-0700's and ISO 9241-3's least heights", () => {
    // 16 arcmin (NUREG-0700) at 2 m and 20 arcmin (ISO 9241-3, preferred) at 5 m, by the formula, in mm.
    expect(characterHeightM(2, 16) * 1000).toBeCloseTo(9.308, 3);
    expect(characterHeightM(5, 20) * 1000).toBeCloseTo(29.089, 3);
    // Small angles: the arc itself, D × radians, within a part in 100 000.
    expect(characterHeightM(5, 20) / (5 * (20 / 60) * (Math.PI / 180))).toBeCloseTo(1, 5);
    expect([NEARBY_ARCMIN, ACROSS_THE_ROOM_ARCMIN]).toEqual([16, 20]);
  });

  it("the cap height is the font's own: OS/2 sCapHeight over head unitsPerEm", () => {
    const tables = tablesOf(readFileSync(FONT));
    // OpenType: OS/2 version 2 and later has sCapHeight at byte 88; head has unitsPerEm at byte 18.
    const capHeight = tables.get("OS/2")!.readInt16BE(88);
    expect(capHeight / tables.get("head")!.readUInt16BE(18)).toBe(CAP_HEIGHT_EM);
  });

  it("C5 a font of that size has capitals of that height on that screen", () => {
    const screen = { widthPx: 1920, heightPx: 1080, diagonalCm: 140 };
    const px = leastFontPx(6, 20, screen);
    const pxCm = 140 / Math.hypot(1920, 1080);
    expect((px * CAP_HEIGHT_EM * pxCm) / 100).toBeCloseTo(characterHeightM(6, 20), 9);
  });
});

/** "Top-coat layer 12" in bold, in parts of the font size. */
const WIDEST_ACT_EM = 8.4;
const layOutWall = (width: number, height: number, wall: Parameters<typeof layOut>[2]) =>
  layOut(width, height, wall, WIDEST_ACT_EM);

const SCREENS = [
  [1920, 1080],
  [3840, 2160],
  [1280, 720],
  [1080, 1920],
] as const;

describe("the layout", () => {
  it("C5 tray numbers, acts and alarms are never smaller than the farthest reader needs, unless the wall says so", () => {
    for (const [width, height] of SCREENS)
      for (const diagonalCm of [60, 80, 109, 140, 190])
        for (const farthestM of [1.5, 2.2, 3, 5, 8, 12]) {
          const wall = { diagonalCm, farthestM };
          const layout = layOutWall(width, height, wall);
          const { acrossPx, nearbyPx } = leastFonts(wall, width, height);
          const told = wallTooSmall(layout, wall);
          const share = layout.readableM / farthestM;
          expect(share === 1).toBe(told === undefined);
          for (const font of [layout.act, layout.number, layout.pill])
            expect(font).toBeGreaterThanOrEqual(acrossPx * share - 1e-6);
          expect(layout.second).toBeGreaterThanOrEqual(nearbyPx * share - 1e-6);
        }
  });

  it("larger letters leave room for fewer tiles and rows, never for none", () => {
    const at = (farthestM: number) => layOutWall(1920, 1080, { diagonalCm: 140, farthestM });
    const tiles = [2, 3, 4, 5, 6].map((farthestM) => handsRoom(at(farthestM), 0).tiles);
    expect(tiles).toEqual(tiles.toSorted((a, b) => b - a));
    for (const farthestM of [2, 3, 4, 5, 6, 9]) {
      const layout = at(farthestM);
      expect(handsRoom(layout, 9).tiles).toBeGreaterThanOrEqual(1);
      expect(handsRoom(layout, 9).alerts).toBeGreaterThanOrEqual(1);
      expect(layout.rows).toBeGreaterThanOrEqual(4);
    }
  });

  it("A3 urgent alerts take the last row of tiles where its trays can wait, and fit", () => {
    let gained = 0;
    for (const [width, height] of SCREENS)
      for (const farthestM of [2, 3, 4, 5, 6]) {
        const layout = layOutWall(width, height, { diagonalCm: 140, farthestM });
        const beside = handsRoom(layout, 9);
        const over = handsRoom(layout, 9, 9);
        expect(over.alerts).toBeGreaterThanOrEqual(beside.alerts);
        gained += over.alerts - beside.alerts;
        expect(over.alerts * (layout.alertHeight + layout.gap)).toBeLessThan(layout.handsHeight);
        expect(handsRoom(layout, 9, beside.alerts)).toEqual(beside);
      }
    expect(gained).toBeGreaterThan(0);
  });

  it("what is laid out fits the screen", () => {
    for (const [width, height] of SCREENS)
      for (const farthestM of [2, 4, 6]) {
        const layout = layOutWall(width, height, { diagonalCm: 140, farthestM });
        const rows = layout.rows * layout.row;
        const side = layout.isPortrait ? layout.handsHeight + rows : Math.max(layout.handsHeight, rows);
        expect(layout.top + layout.bottom + side).toBeLessThanOrEqual(height);
        const across = layout.isPortrait ? 0 : layout.handsWidth;
        expect(across + layout.laneLabel + layout.axis).toBeLessThan(width);
      }
  });

  it("a wall twice as many pixels wide and high is the same wall", () => {
    const wall = { diagonalCm: 109, farthestM: 4 };
    const [hd, uhd] = [layOutWall(1920, 1080, wall), layOutWall(3840, 2160, wall)];
    expect(uhd.rows).toBe(hd.rows);
    expect(handsRoom(uhd, 2)).toEqual(handsRoom(hd, 2));
    expect(uhd.act / hd.act).toBeCloseTo(2, 9);
  });

  it("a wall too small for its reader says from where it can be read, and what it would take", () => {
    const wall = { diagonalCm: 109, farthestM: 9 };
    const layout = layOutWall(1920, 1080, wall);
    expect(layout.readableM).toBeLessThan(9);
    const small = wallTooSmall(layout, wall)!;
    expect(english("metric", "UTC").wall.menu.tooSmall(small)).toMatch(
      /^This wall is too small for 9 m: .* can be read from \d+(\.\d)? m/,
    );
    // The size it asks for is enough.
    const { needCm } = small;
    expect(
      wallTooSmall(layOutWall(1920, 1080, { ...wall, diagonalCm: needCm }), { ...wall, diagonalCm: needCm }),
    ).toBeUndefined();
  });
});
