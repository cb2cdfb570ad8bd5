/** A point in millimetres: x to the right, y downwards. */
export interface Point {
  readonly x: number;
  readonly y: number;
}

/** A ring's points in order; the last joins the first. */
export type Ring = readonly Point[];

/** The smallest upright rectangle around something, mm. */
export interface Box {
  left: number;
  top: number;
  right: number;
  bottom: number;
}

export const distanceMm = (a: Point, b: Point): number => Math.hypot(b.x - a.x, b.y - a.y);

/** The point a share `t` (0–1) of the way from one to another. */
export const between = (a: Point, b: Point, t: number): Point => ({
  x: a.x + (b.x - a.x) * t,
  y: a.y + (b.y - a.y) * t,
});

/** The box around points; undefined of none. */
export function boxOf(points: Iterable<Point>): Box | undefined {
  const box = { left: Infinity, top: Infinity, right: -Infinity, bottom: -Infinity };
  for (const { x, y } of points) {
    box.left = Math.min(box.left, x);
    box.top = Math.min(box.top, y);
    box.right = Math.max(box.right, x);
    box.bottom = Math.max(box.bottom, y);
  }
  return box.left <= box.right ? box : undefined;
}

/** How far a point lies from a straight edge, mm. */
export function distanceToEdgeMm(point: Point, from: Point, to: Point): number {
  const [dx, dy] = [to.x - from.x, to.y - from.y];
  const square = dx * dx + dy * dy;
  const along = square === 0 ? 0 : ((point.x - from.x) * dx + (point.y - from.y) * dy) / square;
  return distanceMm(point, between(from, to, Math.min(1, Math.max(0, along))));
}

/** Twice a ring's signed area: above nought where it runs clockwise on the screen. */
export function twiceArea(ring: Ring): number {
  let sum = 0;
  ring.forEach((a, k) => {
    const b = ring[(k + 1) % ring.length]!;
    sum += a.x * b.y - b.x * a.y;
  });
  return sum;
}

/** How often a ring winds round a point, by direction; 0 outside. */
export function windingOf(ring: Ring, { x, y }: Point): number {
  let turns = 0;
  ring.forEach((a, k) => {
    const b = ring[(k + 1) % ring.length]!;
    if (a.y <= y === b.y <= y) return;
    const side = (b.x - a.x) * (y - a.y) - (x - a.x) * (b.y - a.y);
    if (a.y <= y && side > 0) turns++;
    if (b.y <= y && side < 0) turns--;
  });
  return turns;
}
