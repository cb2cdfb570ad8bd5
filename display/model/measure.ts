import { createMemo, createSignal, onCleanup } from "solid-js";
import type { Accessor } from "solid-js";
import type { Kitchen } from "#shared/kitchen/model/state.ts";
import { LAID_BY } from "#shared/kitchen/tray/route.ts";
import type { Words } from "#shared/words/words.ts";
import { layOutWall, type WallLayout } from "./wall-layout.ts";

/** How wide a bold text is, in parts of its font size, in the wall's own font; tray numbers are extra bold, `weight` 800. */
export type MeasureEm = (text: string, weight?: number) => number;

/** Measures with the font as it is loaded now: ask again when `document.fonts` is ready. */
export function measureIn(document: Document, font: string): MeasureEm {
  const canvas = document.createElement("canvas").getContext("2d");
  const known = new Map<string, number>();
  return (text, weight = 700) => {
    if (canvas === null) return 0.52 * text.length;
    // The wall's figures are all as wide as a 6; a canvas knows no such setting.
    const letters = text.replaceAll(/\d/g, "6");
    const key = `${weight} ${letters}`;
    const held = known.get(key);
    if (held !== undefined) return held;
    canvas.font = `${weight} 100px ${font}`;
    const em = canvas.measureText(letters).width / 100;
    known.set(key, em);
    return em;
  };
}

/** The widest act this kitchen's designs can ask for, in parts of the font size. */
function widestActEm({ trays }: Words, designs: Kitchen["designs"], measure: MeasureEm): number {
  const floods = Object.values(designs).flatMap((design) =>
    design.layers.map(
      ({ consistency }, layer) => ({ kind: "flood", layer, how: LAID_BY[consistency] }) as const,
    ),
  );
  const acts = [{ kind: "touch" } as const, { kind: "pack", count: 200 } as const, ...floods];
  return Math.max(...[...new Set(acts.map(trays.act))].map((act) => measure(act))) + 0.05;
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

/** The layout's sizes as CSS custom properties on the wall, by their own names: `--pill-height`. */
export function layoutVars({
  columns,
  orderCards,
  flagRows,
  unit,
  ...sizes
}: WallLayout): Record<string, string> {
  const px = Object.entries({ ...sizes, u: unit }).map(([name, size]) => [
    `--${name.replaceAll(/[A-Z]/g, (one) => `-${one.toLowerCase()}`)}`,
    typeof size === "number" ? `${size.toFixed(3)}px` : String(size),
  ]);
  const counts = { "--columns": columns, "--order-cards": orderCards, "--flag-rows": flagRows };
  const plain = Object.entries(counts).map(([name, count]) => [name, String(count)]);
  return Object.fromEntries([...px, ...plain]) as Record<string, string>;
}
