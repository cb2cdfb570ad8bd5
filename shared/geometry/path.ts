import svgpath from "svgpath";
import { ok, type Outcome, refused } from "#shared/outcome.ts";
import { boxOf, type Box, type Point } from "./point.ts";

/** A step of a path: move, straight line, cubic curve, back to the subpath's start. Absolute, in millimetres. */
export type Step =
  | readonly ["M" | "L", x: number, y: number]
  | readonly ["C", x1: number, y1: number, x2: number, y2: number, x: number, y: number]
  | readonly ["Z"];

/** SVG path data in one form: each subpath begins with M; only M, L, C and Z. */
export type Path = readonly Step[];

/** The most points of a path unless told, and how far from nought they may lie. */
const MOST_POINTS = 2_000;
const REACH = 1e6;
/** Letters and numbers to a point, at most: a letter and two numbers. */
const TOKENS_A_POINT = 3;
/** Characters to a letter or number, at most, spaces counted. */
const CHARACTERS_A_TOKEN = 25;

export type PathFault =
  | { code: "bad path" }
  | { code: "empty path" }
  | { code: "too many points"; most: number };

/** Any SVG path data as absolute M, L, C and Z: shorthands written out, arcs and quadratic curves as cubic ones. */
export function parsePath(data: string, most = MOST_POINTS): Outcome<Path, PathFault> {
  const tooMany = refused({ code: "too many points", most } as const);
  // The library takes long over very long data: what has too many numbers is not given to it.
  const mostTokens = TOKENS_A_POINT * most + 10;
  if (data.length > CHARACTERS_A_TOKEN * mostTokens) return tooMany;
  if ((data.match(/[a-df-z]|\d+\.?\d*|\.\d+/gi)?.length ?? 0) > mostTokens) return tooMany;
  const parsed = svgpath(data);
  // The library keeps what it read before a fault, as a browser does; a drawing with a part missing is no use here.
  if ((parsed as unknown as { err: string }).err !== "") return refused({ code: "bad path" });
  const steps: Step[] = [];
  let start: Point = { x: 0, y: 0 };
  parsed
    .abs()
    .unshort()
    .unarc()
    .iterate((segment, _k, x, y) => {
      // After Z a path may go on from where its subpath began.
      if (steps.at(-1)?.[0] === "Z" && segment[0] !== "M" && segment[0] !== "Z")
        steps.push(["M", start.x, start.y]);
      const step = stepOf(segment, x, y);
      if (step?.[0] === "M") start = { x: step[1], y: step[2] };
      if (step !== undefined && !(step[0] === "Z" && steps.at(-1)?.[0] === "Z")) steps.push(step);
    });
  const points = pointCount(steps);
  if (points > most) return tooMany;
  if (points < 2 && steps.length > 0) return refused({ code: "empty path" });
  const isSound = steps.every((step) => step.slice(1).every((n) => Math.abs(Number(n)) <= REACH));
  return points > 1 && isSound ? ok(steps) : refused({ code: "bad path" });
}

/** One of the library's segments as a step of ours, from where the pen is. */
function stepOf(segment: readonly [string, ...number[]], fromX: number, fromY: number): Step | undefined {
  const [letter, a = 0, b = 0, c = 0, d = 0, e = 0, f = 0] = segment;
  switch (letter) {
    case "M":
    case "L":
      return [letter, a, b];
    case "H":
      return ["L", a, fromY];
    case "V":
      return ["L", fromX, a];
    case "C":
      return ["C", a, b, c, d, e, f];
    case "Q":
      // A quadratic curve raised by one degree is the same curve.
      return [
        "C",
        fromX + (2 / 3) * (a - fromX),
        fromY + (2 / 3) * (b - fromY),
        c + (2 / 3) * (a - c),
        d + (2 / 3) * (b - d),
        c,
        d,
      ];
    case "Z":
      return ["Z"];
    default:
      return ["L", Number.NaN, Number.NaN];
  }
}

/** How many points a path has, control points counted. */
export const pointCount = (path: Path): number => path.reduce((sum, step) => sum + (step.length - 1) / 2, 0);

/** The points a path names, control points with them. */
export function* pointsOf(path: Path): Generator<Point> {
  for (const step of path)
    for (let k = 1; k < step.length; k += 2) yield { x: Number(step[k]), y: Number(step[k + 1]) };
}

/** An affine map: x' = a x + c y + e, y' = b x + d y + f, as SVG's matrix(a b c d e f). */
export type Matrix = readonly [a: number, b: number, c: number, d: number, e: number, f: number];

export const IDENTITY: Matrix = [1, 0, 0, 1, 0, 0];

export const moved = ([a, b, c, d, e, f]: Matrix, { x, y }: Point): Point => ({
  x: a * x + c * y + e,
  y: b * x + d * y + f,
});

/** The longest transform that is read. */
const TRANSFORM_CHARACTERS = 1_000;

/** The map of an SVG transform such as "translate(5) rotate(30)"; undefined where it cannot be read. */
export function matrixOf(transform: string): Matrix | undefined {
  if (transform.length > TRANSFORM_CHARACTERS) return undefined;
  // Where it takes nought and the two unit points tells all of it.
  const points: Point[] = [];
  svgpath("M0 0L1 0L0 1")
    .transform(transform)
    .iterate(([, x, y]) => void points.push({ x: Number(x), y: Number(y) }));
  const [origin, right, down] = points as [Point, Point, Point];
  const { x: e, y: f } = origin;
  const matrix: Matrix = [right.x - e, right.y - f, down.x - e, down.y - f, e, f];
  return matrix.every(Number.isFinite) ? matrix : undefined;
}

/** By how much a map enlarges lengths, on average over directions. */
export const scaleOf = ([a, b, c, d]: Matrix): number => Math.sqrt(Math.abs(a * d - b * c));

/** The map that applies `inner` first, then `outer`. */
export function combined(outer: Matrix, [a, b, c, d, e, f]: Matrix): Matrix {
  const [p, q, r, s, t, u] = outer;
  return [p * a + r * b, q * a + s * b, p * c + r * d, q * c + s * d, p * e + r * f + t, q * e + s * f + u];
}

/** The path with each of its points moved. */
export function transformed(path: Path, matrix: Matrix): Path {
  const to = (x: number, y: number): [number, number] => {
    const point = moved(matrix, { x, y });
    return [point.x, point.y];
  };
  return path.map((step): Step => {
    if (step[0] === "Z") return step;
    if (step[0] !== "C") return [step[0], ...to(step[1], step[2])];
    return ["C", ...to(step[1], step[2]), ...to(step[3], step[4]), ...to(step[5], step[6])];
  });
}

/** A path's subpaths, each from its M; a lone M is none. */
export function subpathsOf(path: Path): Path[] {
  const subpaths: Step[][] = [];
  for (const step of path) {
    if (step[0] === "M") subpaths.push([step]);
    else subpaths.at(-1)?.push(step);
  }
  return subpaths.filter((subpath) => subpath.some(([letter]) => letter === "L" || letter === "C"));
}

/** The path with each subpath closed. */
export const closed = (path: Path): Path =>
  subpathsOf(path).flatMap((subpath): Step[] =>
    subpath.at(-1)![0] === "Z" ? [...subpath] : [...subpath, ["Z"]],
  );

/** Rings as a path of straight lines. */
export const pathOfRings = (rings: readonly (readonly Point[])[], isClosed = true): Path =>
  rings.flatMap((ring): Step[] => [
    ...ring.map(({ x, y }, k): Step => [k === 0 ? "M" : "L", x, y]),
    ...(isClosed ? ([["Z"]] as const) : []),
  ]);

/** SVG path data, to a hundredth of a millimetre. */
export const pathText = (path: Path): string =>
  path
    .map(
      ([letter, ...numbers]) => letter + numbers.map((n) => String(Math.round(n * 100) / 100 + 0)).join(" "),
    )
    .join("");

/** The box around a path's points and control points: never smaller than the path's own. */
export const roughBoxOf = (path: Path): Box | undefined => boxOf(pointsOf(path));
