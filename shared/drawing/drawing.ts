import * as v from "valibot";
import { between, hexColour, line, list, must, mustBe } from "#shared/fields.ts";

/** What a drawing may hold. */
export const DRAWING_LIMITS = {
  areas: 40,
  lines: 60,
  /** Of the outline, the areas and the lines together, control points with them. */
  points: 2_000,
  sizeMm: { min: 10, max: 400 },
  lineMm: { min: 0.3, max: 20 },
} as const;

const { sizeMm, lineMm, areas, lines } = DRAWING_LIMITS;
/** Characters of a path with the most points, two numbers each, and a letter. */
const PATH_CHARACTERS = DRAWING_LIMITS.points * 16;

const NUMBER = String.raw`-?\d{1,4}(?:\.\d{1,2})?`;
const POINT = `${NUMBER} ${NUMBER}`;
const PATH = new RegExp(`^(?:M${POINT}(?:L${POINT}|C${POINT} ${POINT} ${POINT})+Z?)+$`);
const CLOSED_PATH = new RegExp(`^(?:M${POINT}(?:L${POINT}|C${POINT} ${POINT} ${POINT})+Z)+$`);

const pathData = (form: RegExp) =>
  v.pipe(
    v.string(mustBe("path data")),
    v.maxLength(PATH_CHARACTERS, mustBe("path data")),
    v.regex(form, mustBe("path data")),
  );

/** SVG path data in millimetres, absolute, of M, L, C and Z alone, to a hundredth; each subpath closed. */
export const ClosedPathData = pathData(CLOSED_PATH);
/** The same; a subpath may be open. */
export const PathData = pathData(PATH);

/** What a layer names an area or a line by: unique within its drawing. */
export const PartId = v.pipe(
  v.string(must({ is: "id", of: "PartId" })),
  v.regex(/^[\w-]{1,40}$/, must({ is: "id", of: "PartId" })),
  // Nor a key that every object inherits.
  v.check((id) => !(id in Object.prototype), must({ is: "id", of: "PartId" })),
);

const part = {
  id: PartId,
  /** As a person named it; parts of templates are named by their id, in each language. */
  name: v.optional(line(40)),
  /** The colour it had in the file it came from. */
  colourHint: v.optional(hexColour),
};

/** Somewhere icing is poured. A subpath inside another is a hole, by the even-odd rule. */
export const DrawnArea = v.object({ ...part, d: ClosedPathData });
export type DrawnArea = v.InferOutput<typeof DrawnArea>;

/** Something piped: its centre line, and how wide. */
export const DrawnLine = v.object({ ...part, d: PathData, widthMm: between(lineMm.min, lineMm.max, "mm") });
export type DrawnLine = v.InferOutput<typeof DrawnLine>;

/**
 * A cookie from above, in millimetres: x to the right and y down from the corner of the box around its outline, which
 * is so wide and high. Later areas lie over earlier ones, and lines over areas.
 */
export const Drawing = v.object({
  widthMm: between(sizeMm.min, sizeMm.max, "mm"),
  heightMm: between(sizeMm.min, sizeMm.max, "mm"),
  outline: ClosedPathData,
  areas: list(DrawnArea, "areas", areas, 0),
  lines: list(DrawnLine, "lines", lines, 0),
});
export type Drawing = v.InferOutput<typeof Drawing>;
