import { MIN_MS } from "#shared/time.ts";

/** Minutes within which the axis is near enough even; beyond, each doubling takes the same width. */
const EVEN_MIN = 5.5;
/** Where the axis ends, minutes from now. */
export const AXIS_END_MIN = 24 * 60;

/** The marks of the axis, minutes from now. */
export const AXIS_TICKS_MIN = [0, 5, 15, 30, 60, 120, 240, 480, 900, AXIS_END_MIN] as const;

/** Place on the axis, 0 (now, or past) to 1 (a day ahead, or later) of a moment `minutes` from now. Symmetric-log scale. */
export const axisPlace = (minutes: number): number =>
  Math.log1p(Math.min(Math.max(minutes, 0), AXIS_END_MIN) / EVEN_MIN) / Math.log1p(AXIS_END_MIN / EVEN_MIN);

/** From earliest to latest, with the likeliest between; ms. */
export interface Stretch {
  earliestMs: number;
  likelyMs: number;
  latestMs: number;
}

/** A stretch drawn on an axis; all px from the axis' start. The mark stands at the likeliest moment. */
export interface StretchBox {
  leftPx: number;
  widthPx: number;
  markPx: number;
  /** The stretch itself, where the box had to grow beyond it. */
  fromPx: number;
  toPx: number;
}

/** Whether a box covers its whole stretch, or in a crowded lane only stands at its mark, its label just having room. */
export type BoxCover = "stretch" | "mark";

/**
 * Where a stretch is drawn at `nowMs`. Narrower than `leastPx` it grows about its middle, within the axis, so that its
 * label has room; the mark stays where it belongs.
 */
export function boxOf(
  stretch: Stretch,
  nowMs: number,
  axisPx: number,
  leastPx: number,
  cover: BoxCover = "stretch",
): StretchBox {
  const px = (atMs: number): number => axisPx * axisPlace((atMs - nowMs) / MIN_MS);
  const fromPx = px(stretch.earliestMs);
  const toPx = px(stretch.latestMs);
  const markPx = px(stretch.likelyMs);
  const [widthPx, middlePx] =
    cover === "mark"
      ? [Math.min(axisPx, leastPx), markPx]
      : [Math.min(axisPx, Math.max(leastPx, toPx - fromPx)), (fromPx + toPx) / 2];
  const leftPx = Math.min(Math.max(middlePx - widthPx / 2, 0), axisPx - widthPx);
  return { leftPx, widthPx, markPx, fromPx, toPx };
}
