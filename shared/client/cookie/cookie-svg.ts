import {
  type CookiePart,
  type CookiePicture,
  cookiePicture,
  type CookiePoint,
  type LayerState,
} from "#shared/kitchen/tray/cookie-picture.ts";
import { lightnessOf } from "#shared/icing/contrast.ts";
import type { Design, Icing } from "#shared/kitchen/model/vocabulary.ts";

/** The same by day and night: a biscuit with its icing stands on any ground. */
const [BISCUIT, BISCUIT_EDGE, INK] = ["#e2b779", "#7d4f1b", "#1c1830"];
/** What stripes stand on: dark under pale icing, pale under all else. */
const [UNDER_PALE, UNDER_DARK] = ["#6b4a26", "#fff8ea"];
/** Pixels of the picture's longer side: larger than it is ever shown, so that a class need only say how large it may be. */
const SIDE_PX = 2000;
/** Lengths in parts of the cookie's longer side. */
const [EDGE, THINNEST_LINE, DASH, STRIPE] = [0.014, 0.02, 0.045, 0.045];

/** A cookie's picture as the text of an SVG. What is next is striped with a dashed edge; what comes later has a faint one. */
export function cookieSvg({ box, outline, parts }: CookiePicture): string {
  const side = Math.max(box.width, box.height);
  const edge = side * EDGE;
  const { x, y, width, height } = box;
  const [wide, high] = [width + 2 * edge, height + 2 * edge];
  const viewBox = [x - edge, y - edge, wide, high].map(short).join(" ");
  const size = [wide, high].map((one) => Math.round((one / Math.max(wide, high)) * SIDE_PX));
  const draw = (is: CookiePart["is"], state: LayerState): string =>
    parts
      .filter((part) => part.is === is && part.state === state)
      .map((part) => DRAWN[state](part, side))
      .join("");
  const stripes = [...new Set(parts.flatMap(({ state, hex }) => (state === "next" ? hex : [])))];
  return [
    `<svg xmlns="http://www.w3.org/2000/svg" width="${size[0]}" height="${size[1]}" viewBox="${viewBox}" stroke-linejoin="round" stroke-linecap="round">`,
    `<defs>${stripes.map((hex) => stripesOf(hex, side)).join("")}</defs>`,
    `<path d="${outline}" fill="${BISCUIT}" stroke="${BISCUIT_EDGE}" stroke-width="${short(edge * 1.6)}"/>`,
    // A piped line stands above the icing that is poured up to it, whichever was laid first.
    ...(["area", "line"] as const).flatMap((is) => [draw(is, "laid"), draw(is, "later"), draw(is, "next")]),
    "</svg>",
  ].join("");
}

/** How a part is drawn in each state, on a cookie of so many mm. */
const DRAWN: Readonly<Record<LayerState, (part: CookiePart, side: number) => string>> = {
  laid(part, side) {
    const { path, hex } = part;
    const edge = `stroke="${INK}" stroke-opacity="0.5"`;
    if (part.is === "area")
      return `<path d="${path}" fill="${hex}" fill-rule="evenodd" ${edge} stroke-width="${short(side * EDGE)}"/>`;
    return onEdge(part, edge, side, hex);
  },
  next(part, side) {
    const { path, hex } = part;
    const dashes = `stroke="${INK}" stroke-linecap="butt" stroke-dasharray="${short(side * DASH)} ${short(side * DASH * 0.6)}"`;
    const fill = `url(#${idOf(hex)})`;
    if (part.is === "area")
      return `<path d="${path}" fill="${fill}" fill-rule="evenodd" ${dashes} stroke-width="${short(side * EDGE * 1.8)}"/>`;
    return onEdge(part, dashes, side, fill);
  },
  later({ path }, side) {
    const dash = short(side * DASH * 0.5);
    return `<path d="${path}" fill="none" stroke="${INK}" stroke-opacity="0.4" stroke-width="${short(side * EDGE * 0.8)}" stroke-dasharray="${dash} ${dash}"/>`;
  },
};

/** A line of icing over a wider one that shows as its edge; a thin one is drawn as wide as can be seen. */
function onEdge(
  { path, widthMm }: Extract<CookiePart, { is: "line" }>,
  edge: string,
  side: number,
  paint: string,
): string {
  const width = Math.max(widthMm, side * THINNEST_LINE);
  return (
    `<path d="${path}" fill="none" ${edge} stroke-width="${short(width + side * EDGE)}"/>` +
    `<path d="${path}" fill="none" stroke="${paint}" stroke-width="${short(width)}"/>`
  );
}

/** Named by its colour, so that of two pictures in one page either may stand for the other. */
const idOf = (hex: string): string => `next-${hex.slice(1)}`;

function stripesOf(hex: string, side: number): string {
  const [wide, half] = [short(side * STRIPE * 2), short(side * STRIPE)];
  const under = isPale(hex) ? UNDER_PALE : UNDER_DARK;
  return (
    `<pattern id="${idOf(hex)}" width="${wide}" height="${wide}" patternUnits="userSpaceOnUse" patternTransform="rotate(45)">` +
    `<path d="M 0 0 H ${wide} V ${wide} H 0 Z" fill="${under}"/><path d="M 0 0 H ${half} V ${wide} H 0 Z" fill="${hex}"/></pattern>`
  );
}

/** Lightness above which dark stripes stand out better than pale ones: a luminance of 0.31. */
const PALE = 62.5;

const isPale = (hex: string): boolean => lightnessOf(hex) > PALE;

const short = (lengthMm: number): number => Math.round(lengthMm * 100) / 100;

/** Addresses of designs' pictures. A design never changes in place. */
const known = new WeakMap<Design, Map<string, string>>();

/** A cookie's picture as the address of an image: made once for each point of a design, however often it is shown. */
export function cookieAddress(point: CookiePoint, icings: Readonly<Record<string, Icing>>): string {
  const ofDesign = known.get(point.design) ?? new Map<string, string>();
  known.set(point.design, ofDesign);
  const colours = point.design.layers.map(({ icingId }) => icings[icingId]?.hex);
  const key = [point.laid, ...colours].join();
  const address =
    ofDesign.get(key) ?? `data:image/svg+xml,${encodeURIComponent(cookieSvg(cookiePicture(point, icings)))}`;
  ofDesign.set(key, address);
  return address;
}
