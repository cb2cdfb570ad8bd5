import { formatHex, modeRgb, parse, useMode } from "culori/fn";

useMode(modeRgb);

/** How an element is painted: what it says itself, else what its parents say. Nothing else of a style is read. */
export interface Paint {
  /** As written; "none" for nothing. */
  fill?: string;
  stroke?: string;
  strokeWidth?: string;
  fillRule?: string;
  isHidden: boolean;
}

const PROPERTIES = {
  fill: "fill",
  stroke: "stroke",
  "stroke-width": "strokeWidth",
  "fill-rule": "fillRule",
} as const;

/** No value of these is longer; longer ones are not read. */
const LONGEST = 64;
/** Nor is an inline style. */
const LONGEST_STYLE = 4_000;

/** An element's paint within its parent's. */
export function paintOf(attributes: ReadonlyMap<string, string>, parent: Paint): Paint {
  const paint: Paint = { ...parent };
  const own = new Map(attributes);
  for (const [property, value] of inlineStyle(attributes.get("style"))) own.set(property, value);
  for (const [property, key] of Object.entries(PROPERTIES)) {
    const value = own.get(property)?.trim();
    if (value !== undefined && value !== "inherit" && value.length <= LONGEST) paint[key] = value;
  }
  if (own.get("display")?.trim() === "none") paint.isHidden = true;
  return paint;
}

const inlineStyle = (style = ""): [string, string][] =>
  style.length > LONGEST_STYLE
    ? []
    : style.split(";").flatMap((declaration): [string, string][] => {
        const colon = declaration.indexOf(":");
        if (colon < 0) return [];
        return [[declaration.slice(0, colon).trim().toLowerCase(), declaration.slice(colon + 1)]];
      });

/** A colour as #rrggbb; undefined of gradients and what is none. */
export function colourOf(value: string | undefined): string | undefined {
  const colour = value === undefined ? undefined : parse(value);
  return colour === undefined ? undefined : formatHex({ ...colour, alpha: 1 });
}
