import { ellipse } from "#shared/drawing/templates/strokes.ts";
import { userUnits } from "./lengths.ts";

/** Path data of a shape's element; undefined of other elements, and of a shape without size. */
export function elementPath(name: string, attributes: ReadonlyMap<string, string>): string | undefined {
  const number = (key: string, otherwise = 0): number => userUnits(attributes.get(key)) ?? otherwise;
  switch (name) {
    case "path":
      return attributes.get("d");
    case "rect":
      return rect(number("x"), number("y"), number("width"), number("height"), radii(attributes));
    case "circle":
      return round(number("cx"), number("cy"), number("r"), number("r"));
    case "ellipse":
      return round(number("cx"), number("cy"), number("rx"), number("ry"));
    case "polygon":
      return attributes.has("points") ? `M${attributes.get("points")}Z` : undefined;
    case "polyline":
      return attributes.has("points") ? `M${attributes.get("points")}` : undefined;
    case "line":
      return `M${number("x1")} ${number("y1")}L${number("x2")} ${number("y2")}`;
    default:
      return undefined;
  }
}

const round = (x: number, y: number, rx: number, ry: number): string | undefined =>
  rx > 0 && ry > 0 ? ellipse(x, y, rx, ry) : undefined;

/** One radius given stands for both: SVG 2, section 10.2. */
function radii(attributes: ReadonlyMap<string, string>): [number, number] {
  const [rx, ry] = [userUnits(attributes.get("rx")), userUnits(attributes.get("ry"))];
  return [rx ?? ry ?? 0, ry ?? rx ?? 0];
}

function rect(
  x: number,
  y: number,
  width: number,
  height: number,
  corner: [number, number],
): string | undefined {
  if (!(width > 0 && height > 0)) return undefined;
  const rx = Math.min(Math.max(0, corner[0]), width / 2);
  const ry = Math.min(Math.max(0, corner[1]), height / 2);
  if (rx === 0 || ry === 0) return `M${x} ${y}h${width}v${height}h${-width}Z`;
  const arc = (dx: number, dy: number): string => `a${rx} ${ry} 0 0 1 ${dx} ${dy}`;
  return (
    `M${x + rx} ${y}h${width - 2 * rx}${arc(rx, ry)}v${height - 2 * ry}${arc(-rx, ry)}` +
    `h${2 * rx - width}${arc(-rx, -ry)}v${2 * ry - height}${arc(rx, -ry)}Z`
  );
}
