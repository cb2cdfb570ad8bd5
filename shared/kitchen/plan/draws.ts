import { jointScores, type Normals } from "#shared/drying/uncertainty/joint-scores.ts";
import { beliefFor, type Learned } from "#shared/drying/uncertainty/learning.ts";
import { TENTH_Z } from "#shared/drying/uncertainty/normal.ts";
import { DRAWS, placesOf, QUANTILES } from "./normals.ts";
import type { Pace } from "./pace.ts";
import type { PlanFilm, FilmWait } from "./plan-films.ts";
import { type Band, isReached, type ReachedBand } from "#shared/drying/uncertainty/band.ts";
import { MIN_MS } from "#shared/time.ts";
import type { Drawn } from "#shared/scheduling/work.ts";
import type { PlanTask, PlanWork } from "./plan-work.ts";

/** Joint draws of everything about the work that is not known: the minutes of one (0 to `DRAWS` − 1), overwritten by the next. */
export type Draws = (draw: number) => Drawn;

/** Tasks between two steps. */
const STEP_TASKS = 20;

/**
 * One draw of the kitchen's factor, each icing's, place's, bowl's and film's, of the air to come and of people's pace, for all
 * films and acts together. Each film's own times are as its forecast has them: a tenth of the draws are earlier than its earliest,
 * a half than its likeliest. What was found of a film is in its forecast.
 */
export function* drawSteps(
  work: PlanWork,
  learned: Learned,
  pace: Pace,
  normals: Normals,
): Generator<void, Draws> {
  const { tasks, films } = work;
  const timesOf = filmTimes(films, learned, normals);
  const kitchenPace = normals("pace");
  const durations: Float64Array[] = [];
  const froms: (Float64Array | undefined)[] = [];
  const waits: (Float64Array | undefined)[] = [];
  const fixedWaits: number[] = [];
  for (const [k, task] of tasks.entries()) {
    const own = normals(`${task.act} ${task.trayId} ${task.layer}`);
    const minutes = new Float64Array(DRAWS);
    for (let draw = 0; draw < DRAWS; draw += 1)
      minutes[draw] = minutesOf(task, Math.exp(pace.meanSd * kitchenPace[draw]! + pace.traySd * own[draw]!));
    durations.push(minutes);
    froms.push(lastOf(task.waits, films, timesOf));
    for (const { ends, waitMin } of task.after) {
      waits.push(ends === undefined ? undefined : timesOf(ends));
      fixedWaits.push(waitMin);
    }
    if (k % STEP_TASKS === 0) yield;
  }
  const drawn = {
    durationsMin: new Float64Array(tasks.length),
    fromMin: Float64Array.from(tasks, ({ fromMin = 0 }) => fromMin),
    waitsMin: Float64Array.from(fixedWaits),
  };
  return (draw) => {
    for (let k = 0; k < tasks.length; k += 1) {
      drawn.durationsMin[k] = durations[k]![draw]!;
      const from = froms[k];
      if (from !== undefined) drawn.fromMin[k] = from[draw]!;
    }
    for (let k = 0; k < waits.length; k += 1) {
      const wait = waits[k];
      if (wait !== undefined) drawn.waitsMin[k] = wait[draw]!;
    }
    return drawn;
  };
}

/** When the last of films laid already is so far, minutes from the plan's start; undefined where nothing is waited for. */
function lastOf(
  waits: readonly FilmWait[],
  films: readonly PlanFilm[],
  timesOf: (wait: FilmWait) => Float64Array,
): Float64Array | undefined {
  if (waits.length === 0) return undefined;
  const last = new Float64Array(DRAWS);
  for (const wait of waits) {
    const { clockMin = 0 } = films[wait.film]!;
    const times = timesOf(wait);
    for (let draw = 0; draw < DRAWS; draw += 1) {
      const atMin = clockMin + times[draw]!;
      if (atMin > last[draw]!) last[draw] = atMin;
    }
  }
  return last;
}

/** Of an act under way, what is left of its minutes; a tenth at least. */
function minutesOf({ act, alsoPool, durationMin, begunMin, isUnderWay }: PlanTask, slower: number): number {
  // An oven or a cabinet takes its own time.
  if (act === "heat" && alsoPool === undefined) return durationMin;
  if (isUnderWay !== true) return durationMin * slower;
  const fullMin = durationMin + begunMin;
  return Math.max(fullMin * slower - begunMin, 0.1 * durationMin);
}

/** A film's times draw by draw, minutes from its clock's start; worked out once for each. */
function filmTimes(
  films: readonly PlanFilm[],
  learned: Learned,
  normals: Normals,
): (wait: FilmWait) => Float64Array {
  const scores = {
    skin: jointScores(learned.posterior.skin, DRAWS, normals),
    dryThrough: jointScores(learned.posterior.dryThrough, DRAWS, normals),
  };
  const air = normals("air");
  const known: Record<"skin" | "dryThrough", (Float64Array | undefined)[]> = { skin: [], dryThrough: [] };
  const believed = new Map<string, ReturnType<typeof beliefFor>>();
  return ({ film, need }) => {
    const quantity = need === "skin" ? "skin" : "dryThrough";
    const kept = known[quantity][film];
    if (kept !== undefined) return kept;
    const { key, icing, place, bowl, [quantity]: span } = films[film]!;
    const kind = `${icing}\n${place}\n${bowl}`;
    const belief = believed.get(kind) ?? beliefFor(learned, { icing, place, bowl });
    believed.set(kind, belief);
    const likelyMin = isReached(span) ? span.likelyMs / MIN_MS : Infinity;
    const own = !isDoubtful(span)
      ? new Float64Array(DRAWS).fill(likelyMin)
      : times(span, scores[quantity]({ film: key, icing, place, bowl }), air, belief[quantity].sdLn);
    known[quantity][film] = own;
    return own;
  };
}

/** Less of a spread is none, ms. */
const LEAST_SPREAD_MS = 600;
const isDoubtful = (span: Band): span is ReachedBand =>
  isReached(span) && span.likelyMs > 0 && span.latestMs - span.earliestMs >= LEAST_SPREAD_MS;

/**
 * Times between the percentiles are log-normal, with a spread of their own below and above the likeliest. What of the spread is not
 * the factor's is the air's, which all films share. Each film's draws are set to the exact quantiles in the order of its scores, so
 * that by itself it is promised what its forecast says.
 */
function times(
  { earliestMs, likelyMs, latestMs }: ReachedBand,
  scores: Float64Array,
  air: Float64Array,
  believedSd: number,
): Float64Array {
  const below = Math.log(likelyMs / Math.max(earliestMs, LEAST_SPREAD_MS)) / TENTH_Z;
  const above = Math.log(latestMs / likelyMs) / TENTH_Z;
  const share = Math.min(1, (2 * believedSd) / Math.max(below + above, 1e-9));
  const airShare = Math.sqrt(1 - share ** 2);
  const drawn = new Float64Array(DRAWS);
  for (let draw = 0; draw < DRAWS; draw += 1) drawn[draw] = share * scores[draw]! + airShare * air[draw]!;
  const places = placesOf(drawn);
  for (let draw = 0; draw < DRAWS; draw += 1) {
    const z = QUANTILES[places[draw]!]!;
    drawn[draw] = (likelyMs / MIN_MS) * Math.exp(z * (z < 0 ? below : above));
  }
  return drawn;
}
