import { LEARNING_PRIOR } from "./belief.ts";
import { type FactorPosterior, indexOf, partsOf } from "./parts.ts";
import { newIcingVariance } from "./prior.ts";
import type { FilmOf } from "./learning.ts";

/** Standard normal numbers of a named quantity, one a draw: the same name gives the same numbers. */
export type Normals = (name: string) => Float64Array;

/**
 * How far a film lies from its own median in joint draws, in standard deviations of its own, one number a draw. Films share the
 * kitchen's factor, today's, their icing's, place's and bowl's as far as these are not known; what is left is each film's own.
 */
export function jointScores(
  posterior: FactorPosterior,
  draws: number,
  normals: Normals,
): (film: FilmOf) => Float64Array {
  const parts = drawnParts(posterior, draws, normals);
  const shared = new Map<string, Shared>();
  return ({ icing, place, bowl = "", film }) => {
    const key = `${icing}\n${place}\n${bowl}`;
    const common = shared.get(key) ?? sharedOf(posterior, parts, { icing, place, bowl }, draws, normals);
    shared.set(key, common);
    const own = normals(`film ${film}`);
    const sd = Math.sqrt(common.variance + posterior.filmSd ** 2);
    const scores = new Float64Array(draws);
    for (let draw = 0; draw < draws; draw += 1)
      scores[draw] = (common.ln[draw]! + posterior.filmSd * own[draw]!) / sd;
    return scores;
  };
}

/** What films of one icing, place and bowl share: ln of the factor less its mean, draw by draw. */
interface Shared {
  ln: Float64Array;
  variance: number;
}

function sharedOf(
  posterior: FactorPosterior,
  drawn: readonly Float64Array[],
  { icing, place, bowl }: { icing: string; place: string; bowl: string },
  draws: number,
  normals: Normals,
): Shared {
  const known = posterior.bowls[indexOf(posterior.bowls, bowl)];
  const ln = new Float64Array(draws);
  let variance = 0;
  const add = (numbers: Float64Array, by: number): void => {
    for (let draw = 0; draw < draws; draw += 1) ln[draw]! += by * numbers[draw]!;
  };
  const rows = partsOf(posterior, { icing, place });
  for (const [row, by] of rows) {
    add(drawn[row]!, by);
    for (const [column, other] of rows) variance += by * other * posterior.covariance[row]![column]!;
  }
  const ownPart = (name: string, partVariance: number): void => {
    add(normals(name), Math.sqrt(partVariance));
    variance += partVariance;
  };
  ownPart("today", LEARNING_PRIOR.daySd ** 2);
  if (indexOf(posterior.icings, icing) < 0) ownPart(`icing ${icing}`, newIcingVariance(LEARNING_PRIOR));
  if (indexOf(posterior.places, place) < 0) ownPart(`place ${place}`, LEARNING_PRIOR.placeSd ** 2);
  ownPart(`bowl ${bowl}`, known?.variance ?? posterior.bowlSd ** 2);
  return { ln, variance };
}

/** The joint normal's parts in each draw, less their means: its Cholesky factor on independent numbers. */
function drawnParts(posterior: FactorPosterior, draws: number, normals: Normals): Float64Array[] {
  const { covariance, icings, places } = posterior;
  const names = ["kitchen", "seconds", ...[...icings, ...places].map(({ name }) => `part ${name}`)];
  const lower = covariance.map(() => new Float64Array(covariance.length));
  return covariance.map((line, row) => {
    for (let column = 0; column <= row; column += 1) {
      let left = line[column]!;
      for (let k = 0; k < column; k += 1) left -= lower[row]![k]! * lower[column]![k]!;
      const pivot = lower[column]![column]!;
      if (column === row) lower[row]![row] = Math.sqrt(Math.max(0, left));
      else lower[row]![column] = pivot > 0 ? left / pivot : 0;
    }
    const numbers = new Float64Array(draws);
    for (let k = 0; k <= row; k += 1) {
      const by = lower[row]![k]!;
      const each = normals(names[k] ?? `part ${k}`);
      for (let draw = 0; draw < draws; draw += 1) numbers[draw]! += by * each[draw]!;
    }
    return numbers;
  });
}
