// Path data of what sketches are made of, in their units.

export const circle = (x: number, y: number, r: number): string => ellipse(x, y, r, r);

export const ellipse = (x: number, y: number, rx: number, ry: number): string =>
  `M${x - rx} ${y}A${rx} ${ry} 0 1 1 ${x + rx} ${y}A${rx} ${ry} 0 1 1 ${x - rx} ${y}Z`;

/** An upright rectangle with rounded corners. */
export function rectangle(x: number, y: number, width: number, height: number, r = 0): string {
  if (r === 0) return `M${x} ${y}h${width}v${height}h${-width}Z`;
  const corner = (dx: number, dy: number): string => `a${r} ${r} 0 0 1 ${dx} ${dy}`;
  return (
    `M${x + r} ${y}h${width - 2 * r}${corner(r, r)}v${height - 2 * r}${corner(-r, r)}` +
    `h${2 * r - width}${corner(-r, -r)}v${2 * r - height}${corner(r, -r)}Z`
  );
}

/** The point at a distance from another; 0° is upwards, and degrees go clockwise. */
export function polar(x: number, y: number, r: number, degrees: number): string {
  const turn = (degrees * Math.PI) / 180;
  return `${(x + r * Math.sin(turn)).toFixed(3)} ${(y - r * Math.cos(turn)).toFixed(3)}`;
}

/** A star, or with both radii the same a regular polygon of twice as many corners. */
export const star = (x: number, y: number, outer: number, inner: number, tips: number): string =>
  `M${Array.from({ length: 2 * tips }, (_, k) => polar(x, y, k % 2 === 0 ? outer : inner, (180 * k) / tips)).join("L")}Z`;

/** Round bumps between points on a circle, from one angle to another. The first point is not drawn to. */
export const bumps = (
  x: number,
  y: number,
  r: number,
  from: number,
  to: number,
  count: number,
  bumpR: number,
): string =>
  Array.from(
    { length: count },
    (_, k) => `A${bumpR} ${bumpR} 0 0 1 ${polar(x, y, r, from + ((to - from) * (k + 1)) / count)}`,
  ).join("");
