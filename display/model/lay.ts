import { createMemo, createSignal, onCleanup } from "solid-js";
import type { Accessor } from "solid-js";
import type { Kitchen } from "#shared/kitchen/model/state.ts";
import { LAID_BY } from "#shared/kitchen/tray/route.ts";
import type { Words } from "#shared/words/words.ts";
import { layOutWall, type WallLayout } from "./wall-layout.ts";

/** How wide a text is, in parts of its font size, in the wall's own font. */
export type MeasureEm = (text: string) => number;

/** Measures with the font as it is loaded now: ask again when `document.fonts` is ready. */
export function measureIn(document: Document, font: string): MeasureEm {
  const canvas = document.createElement("canvas").getContext("2d");
  return (text) => {
    if (canvas === null) return 0.52 * text.length;
    canvas.font = `700 100px ${font}`;
    // The wall's figures are all as wide as the widest; a canvas knows no such setting.
    return canvas.measureText(text.replaceAll(/\d/g, "0")).width / 100;
  };
}

/** The widest act this kitchen's designs can ask for, in parts of the font size. */
export function widestActEm({ trays }: Words, designs: Kitchen["designs"], measure: MeasureEm): number {
  const verbs = Object.values(designs).flatMap((design) =>
    design.layers.map(({ consistency }, layer) =>
      trays.act({ kind: "flood", layer, how: LAID_BY[consistency] }),
    ),
  );
  const ofEveryKitchen = [trays.act({ kind: "touch" }), trays.act({ kind: "pack", count: 200 })];
  return Math.max(...[...new Set([...ofEveryKitchen, ...verbs])].map(measure)) + 0.05;
}

export interface Screen {
  width: number;
  height: number;
}

/** The window's size, followed. */
export function screenSize(window: Window): Accessor<Screen> {
  const read = (): Screen => ({ width: window.innerWidth, height: window.innerHeight });
  const [size, setSize] = createSignal(read());
  const follow = (): void => void setSize(read());
  window.addEventListener("resize", follow);
  onCleanup(() => window.removeEventListener("resize", follow));
  return size;
}

/** The layout that follows from screen, settings and designs, and from nothing else: it moves when one of them does. */
export function createLayout(
  words: Accessor<Words>,
  screen: Accessor<Screen>,
  kitchen: Accessor<Kitchen>,
  measure: Accessor<MeasureEm>,
): Accessor<WallLayout> {
  const wall = createMemo(() => kitchen().settings.wall);
  const designs = createMemo(() => kitchen().designs);
  const actEm = createMemo(() => widestActEm(words(), designs(), measure()));
  return createMemo(() => layOutWall(screen().width, screen().height, wall(), actEm()));
}

/** The layout's numbers as CSS custom properties on the wall, by their own names: `--pill-height`. */
export function layoutVars({
  tile,
  columns,
  orderCards,
  unit,
  ...sizes
}: WallLayout): Record<string, string> {
  const px = Object.entries({ ...sizes, u: unit, tileHeight: tile.height }).flatMap(([name, size]) =>
    typeof size === "number"
      ? [[`--${name.replaceAll(/[A-Z]/g, (one) => `-${one.toLowerCase()}`)}`, `${size.toFixed(3)}px`]]
      : [],
  );
  return { ...Object.fromEntries(px), "--columns": String(columns), "--order-cards": String(orderCards) };
}
