/** The part of a photo that is in sight, in its pixels. */
export interface ViewBox {
  x: number;
  y: number;
  width: number;
  height: number;
}

export interface Size {
  widthPx: number;
  heightPx: number;
}

const ZOOM_MOST = 8;

/** All of it. */
export const wholeOf = ({ widthPx, heightPx }: Size): ViewBox => ({
  x: 0,
  y: 0,
  width: widthPx,
  height: heightPx,
});

/** Nearer by a factor, the photo's point at (x, y) staying where it is seen. */
export function zoomed(
  box: ViewBox,
  size: Size,
  factor: number,
  { x, y }: { x: number; y: number },
): ViewBox {
  const width = Math.min(size.widthPx, Math.max(size.widthPx / ZOOM_MOST, box.width / factor));
  const by = width / box.width;
  return within({ x: x - (x - box.x) * by, y: y - (y - box.y) * by, width, height: box.height * by }, size);
}

/** Moved by so many of the photo's pixels, no farther than its edge. */
export const panned = (box: ViewBox, size: Size, byX: number, byY: number): ViewBox =>
  within({ ...box, x: box.x - byX, y: box.y - byY }, size);

const within = (box: ViewBox, { widthPx, heightPx }: Size): ViewBox => ({
  ...box,
  x: Math.min(widthPx - box.width, Math.max(0, box.x)),
  y: Math.min(heightPx - box.height, Math.max(0, box.y)),
});
