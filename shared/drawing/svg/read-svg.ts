import { SaxesParser } from "saxes";
import type { SvgFault } from "#shared/drawing/drawing-fault.ts";
import { DRAWING_LIMITS } from "#shared/drawing/drawing.ts";
import {
  combined,
  IDENTITY,
  type Matrix,
  matrixOf,
  parsePath,
  type Path,
  pointCount,
  transformed,
} from "#shared/geometry/path.ts";
import { ok, type Outcome, refused } from "#shared/outcome.ts";
import { elementPath } from "./element-path.ts";
import { absoluteMm, userUnits } from "./lengths.ts";
import { type Paint, paintOf } from "./style.ts";

export const SVG_LIMITS = {
  bytes: 1_000_000,
  depth: 64,
  elements: 2_000,
  shapes: 200,
  attributes: 100,
} as const;

/** A shape as it lies in the picture, in the picture's units. */
export interface SvgShape {
  path: Path;
  paint: Paint;
  /** What lies round it multiplies its line's width by this. */
  matrix: Matrix;
}

export interface SvgPicture {
  shapes: SvgShape[];
  /** Millimetres of a unit, where the file says how large it is. */
  unitMm?: number;
}

/** Elements whose children are drawn as they stand. Of everything else nothing is kept: scripts, styles, texts, images. */
const GROUPS: ReadonlySet<string> = new Set(["svg", "g", "a", "switch"]);

interface Level {
  matrix: Matrix;
  paint: Paint;
}

class Stop extends Error {
  readonly fault: SvgFault;
  constructor(fault: SvgFault) {
    super(fault.code);
    this.fault = fault;
  }
}

/** The shapes of an SVG. Reading stops at the first limit that is passed. */
export function readSvg(text: string): Outcome<SvgPicture, SvgFault> {
  const { bytes } = SVG_LIMITS;
  if (text.length > bytes) return refused({ code: "too large", bytes: text.length, mostBytes: bytes });
  if (hasDeclarations(text)) return refused({ code: "entities" });
  try {
    return ok(read(withoutAsides(text)));
  } catch (fault) {
    if (fault instanceof Stop) return refused(fault.fault);
    throw fault;
  }
}

/** Whether a file declares things of its own. An entity can stand for any amount of text, itself included. */
function hasDeclarations(text: string): boolean {
  const doctype = text.search(/<!DOCTYPE/i);
  if (doctype < 0) return false;
  const bracket = text.indexOf("[", doctype);
  return bracket >= 0 && bracket < text.indexOf(">", doctype);
}

/** The text without comments and character data, which may be long; its lines keep their numbers. */
function withoutAsides(text: string): string {
  const opening = /<!--|<!\[CDATA\[/g;
  const kept: string[] = [];
  let from = 0;
  for (let found = opening.exec(text); found !== null; found = opening.exec(text)) {
    const closing = found[0] === "<!--" ? "-->" : "]]>";
    const end = text.indexOf(closing, opening.lastIndex);
    if (end < 0) throw new Stop({ code: "broken svg", line: text.slice(0, found.index).split("\n").length });
    kept.push(text.slice(from, found.index), text.slice(found.index, end).replaceAll(/[^\n]+/g, ""));
    from = end + closing.length;
    opening.lastIndex = from;
  }
  return kept.concat(text.slice(from)).join("");
}

function read(text: string): SvgPicture {
  const parser = new SaxesParser({ xmlns: false, position: true });
  const picture: SvgPicture = { shapes: [] };
  const levels: Level[] = [];
  let [depth, elements, skippedFrom, points] = [0, 0, Infinity, 0];
  parser.on("error", () => {
    throw new Stop(elements === 0 ? { code: "not svg" } : { code: "broken svg", line: parser.line });
  });
  let attributeCount = 0;
  parser.on("opentagstart", () => {
    attributeCount = 0;
  });
  parser.on("attribute", () => {
    if (++attributeCount > SVG_LIMITS.attributes)
      throw new Stop({ code: "too many elements", most: SVG_LIMITS.elements });
  });
  parser.on("opentag", ({ name: fullName, attributes: raw }) => {
    depth++;
    if (++elements > SVG_LIMITS.elements)
      throw new Stop({ code: "too many elements", most: SVG_LIMITS.elements });
    if (depth > SVG_LIMITS.depth) throw new Stop({ code: "too deep", most: SVG_LIMITS.depth });
    const name = fullName.replace(/^svg:/, "");
    if (depth === 1 && name !== "svg") throw new Stop({ code: "not svg" });
    if (depth >= skippedFrom) return;
    const attributes = new Map(Object.entries(raw));
    if (depth === 1) Object.assign(picture, scaleOfRoot(attributes));
    if (name === "use") throw new Stop({ code: "copies" });
    const level = levelOf(attributes, levels.at(-1));
    if (level.paint.isHidden) skippedFrom = depth;
    else if (GROUPS.has(name)) levels.push(level);
    else {
      skippedFrom = depth;
      const data = elementPath(name, attributes);
      if (data === undefined || data.trim() === "") return;
      if (picture.shapes.length >= SVG_LIMITS.shapes)
        throw new Stop({ code: "too many shapes", most: SVG_LIMITS.shapes });
      const path = parsePath(data, DRAWING_LIMITS.points - points);
      if (!path.ok && path.refusal.code === "too many points")
        throw new Stop({ code: "too many points", most: DRAWING_LIMITS.points });
      // A stray click leaves a lone point.
      if (!path.ok && path.refusal.code === "empty path") return;
      if (!path.ok) throw new Stop({ code: "bad path", part: attributes.get("id") ?? name });
      points += pointCount(path.value);
      picture.shapes.push({ path: transformed(path.value, level.matrix), ...level });
    }
  });
  parser.on("closetag", () => {
    if (depth === skippedFrom) skippedFrom = Infinity;
    else if (depth < skippedFrom) levels.pop();
    depth--;
  });
  parser.write(text).close();
  return picture;
}

function levelOf(attributes: ReadonlyMap<string, string>, parent: Level | undefined): Level {
  const outer = parent ?? { matrix: IDENTITY, paint: { isHidden: false } };
  const transform = attributes.get("transform");
  const matrix = transform === undefined ? IDENTITY : matrixOf(transform);
  if (matrix === undefined) throw new Stop({ code: "bad path", part: attributes.get("id") ?? "transform" });
  return { matrix: combined(outer.matrix, matrix), paint: paintOf(attributes, outer.paint) };
}

/** The width on paper over the width in units, where both are said. */
function scaleOfRoot(attributes: ReadonlyMap<string, string>): { unitMm?: number } {
  const widthMm = absoluteMm(attributes.get("width") ?? "");
  if (widthMm === undefined) return {};
  const box = (attributes.get("viewBox") ?? "")
    .slice(0, 200)
    .trim()
    .split(/[\s,]+/);
  const units = box.length === 4 ? userUnits(box[2]) : userUnits(attributes.get("width"));
  return units !== undefined && units > 0 && widthMm > 0 ? { unitMm: widthMm / units } : {};
}
