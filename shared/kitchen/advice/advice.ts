import { type Band, type ReachedBand, isReached } from "#shared/drying/uncertainty/band.ts";
import type { Learned } from "#shared/drying/uncertainty/learning.ts";
import { type Choice, choicesFor, type HelpAct, layersToLay } from "./choices.ts";
import { finishWith, type Trial } from "./trial.ts";
import { byName } from "#shared/kitchen/model/by-name.ts";
import { latestOf, orderForecast, spareAfterPacking, turnsOf } from "#shared/kitchen/plan/finish.ts";
import type { Forecasts } from "#shared/kitchen/model/forecast.ts";
import { type TimeLeft, timeLeftOf } from "#shared/kitchen/orders/time-left.ts";
import { dryingPlaceOf } from "#shared/kitchen/forecast/films.ts";
import { aliveTrays, type Kitchen, type Tray } from "#shared/kitchen/model/state.ts";
import type { Order } from "#shared/kitchen/model/vocabulary.ts";
import { MIN_MS } from "#shared/time.ts";

/** One thing the kitchen could do, and what comes of it. */
export type Help = HelpAct & {
  /** Minutes won at the likeliest time, and from the least to the most; absent where without it the icing never dries. */
  gain?: { likelyMin: number; leastMin: number; mostMin: number };
  finish: ReachedBand;
  pickUp: TimeLeft;
  meetsPickUp: boolean;
};

/** What would help a tray or an order; empty when nothing the kitchen has makes a difference. */
export interface Advice {
  finish: Band;
  isLate: boolean;
  help: readonly Help[];
}

/** Why there is nothing to say. */
export type NoAdvice = "no-trays" | "packed" | "no-forecast";

/** Whom the advice is for. */
export type AdviceFor = { trayId: string } | { orderId: string };

/** Gains under this are not worth the walk, min. */
const GAIN_LEAST_MIN = 5;
const HELP_MOST = 3;

/**
 * Works the chain of a tray, or of an order's trays, out again for each of the kitchen's own choices, and keeps the two or
 * three that win most. Undefined for what is not known, or has no forecast yet. Each step asks the drying model at most once.
 */
export function* adviceSteps(
  kitchen: Kitchen,
  forecasts: Forecasts,
  learned: Learned,
  subject: AdviceFor,
  nowMs: number,
): Generator<void, Advice | undefined> {
  const { trays, order, finish } = subjectOf(kitchen, forecasts, subject, nowMs);
  if (order === undefined || finish === undefined) return undefined;
  const advising: Advising = { kitchen, forecasts, learned, turns: turnsOf(kitchen, nowMs), nowMs };
  const spareMin = (finishMs: number): number => spareAfterPacking(kitchen, order, finishMs, nowMs);
  const help: Help[] = [];
  for (const choice of choicesFor(kitchen, trays, nowMs)) {
    const finishes: (Band | undefined)[] = [];
    for (const alike of groupsOf(trays)) finishes.push(...(yield* finishesWith(advising, alike, choice)));
    const changed = latestOf(finishes);
    if (!isReached(changed)) continue;
    const gain = isReached(finish) ? gainFrom(finish, changed) : undefined;
    if (gain !== undefined && gain.likelyMin < GAIN_LEAST_MIN) continue;
    const pickUp = timeLeftOf({
      finish: changed,
      spareMin: spareMin(changed.likelyMs),
      spareWorstMin: spareMin(changed.latestMs),
    });
    help.push({
      ...choice.act,
      finish: changed,
      pickUp,
      meetsPickUp: pickUp.code === "spare" || pickUp.code === "may-be-late",
      ...(gain && { gain }),
    });
  }
  const best = bestPlaceOnly(help.toSorted((a, b) => rankOf(b) - rankOf(a)));
  // To the minute, as the words beside it say it.
  const isLate = !isReached(finish) || spareMin(finish.likelyMs) < 0;
  return { finish, isLate, help: best.slice(0, HELP_MOST) };
}

/** What is won at the earliest, the likeliest and the latest; the least may be a loss. */
function gainFrom(before: ReachedBand, after: ReachedBand): NonNullable<Help["gain"]> {
  const won = (point: "earliestMs" | "likelyMs" | "latestMs"): number =>
    Math.round((before[point] - after[point]) / MIN_MS);
  const gains = [won("earliestMs"), won("likelyMs"), won("latestMs")];
  return { likelyMin: won("likelyMs"), leastMin: Math.min(...gains), mostMin: Math.max(...gains) };
}

/** What one advice is worked out from. */
type Advising = Omit<Trial, "spans" | "answers">;

/** Trays that stand alike: one design, as many films, one place. Each with the one that finishes last first. */
const groupsOf = (trays: readonly Tray[]): Tray[][] => [
  ...byName(trays, (tray) => `${tray.designId}/${tray.films.length}/${dryingPlaceOf(tray).placeId}`).values(),
];

/**
 * Trays that stand alike with every layer laid gain alike: the model is asked about the last one only. One with layers to lay
 * is followed by itself, for opening hours make its gain its own.
 */
function* finishesWith(
  advising: Advising,
  alike: readonly Tray[],
  choice: Choice,
): Generator<void, (Band | undefined)[]> {
  const { kitchen, forecasts } = advising;
  const trial: Trial = { ...advising, spans: [], answers: new Map() };
  let laid: { from: Band | undefined; to: Band | undefined } | undefined;
  const finishes: (Band | undefined)[] = [];
  for (const tray of alike) {
    const before = forecasts.trays[tray.id]?.finish;
    const tried = choice.on(tray);
    const isLaid = layersToLay(kitchen, tray).length === 0;
    if (tried === undefined) finishes.push(before);
    else if (isLaid && laid !== undefined) finishes.push(shifted(before, laid.from, laid.to));
    else {
      const to = yield* finishWith(trial, tried);
      if (isLaid) laid = { from: before, to };
      finishes.push(to);
    }
  }
  return finishes;
}

/** A finish moved as far as another one was. */
function shifted(finish: Band | undefined, from: Band | undefined, to: Band | undefined): Band | undefined {
  if (finish === undefined || from === undefined || to === undefined) return undefined;
  if ("never" in finish || "never" in from || "never" in to) return to;
  return {
    earliestMs: finish.earliestMs + to.earliestMs - from.earliestMs,
    likelyMs: finish.likelyMs + to.likelyMs - from.likelyMs,
    latestMs: finish.latestMs + to.latestMs - from.latestMs,
  };
}

const rankOf = ({ gain, finish }: Help): number =>
  gain?.likelyMin ?? Number.MAX_SAFE_INTEGER - finish.likelyMs;

/** One move is enough to think about: the one that wins most. */
const bestPlaceOnly = (help: readonly Help[]): Help[] =>
  help.filter((one, k) => one.kind !== "move" || help.findIndex(({ kind }) => kind === "move") === k);

/** The trays in question, those that finish last first, with the order they are for and its (or the tray's) finish. */
function subjectOf(
  kitchen: Kitchen,
  forecasts: Forecasts,
  subject: AdviceFor,
  nowMs: number,
): { trays: Tray[]; order: Order | undefined; finish: Band | undefined } {
  if ("trayId" in subject) {
    const tray = kitchen.trays[subject.trayId];
    const isAlive = tray !== undefined && tray.status.stage !== "packed";
    const trays = isAlive ? [tray] : [];
    return {
      trays,
      order: kitchen.orders[tray?.orderId ?? ""],
      finish: forecasts.trays[subject.trayId]?.finish,
    };
  }
  const order = kitchen.orders[subject.orderId];
  const lastMs = (tray: Tray): number => {
    const finish = forecasts.trays[tray.id]?.finish;
    return finish === undefined || "never" in finish ? Number.MAX_SAFE_INTEGER : finish.likelyMs;
  };
  const trays = aliveTrays(kitchen).filter((tray) => tray.orderId === subject.orderId);
  const outlook = order === undefined ? undefined : orderForecast(kitchen, order, forecasts.trays, nowMs);
  return {
    trays: trays.toSorted((a, b) => lastMs(b) - lastMs(a) || a.number - b.number),
    order,
    finish: outlook?.finish,
  };
}
