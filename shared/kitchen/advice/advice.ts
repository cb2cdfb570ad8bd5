import { type Band, type ReachedBand, isReached } from "#shared/drying/uncertainty/band.ts";
import type { Learned } from "#shared/drying/uncertainty/learning.ts";
import { type Choice, choicesFor, type HelpAct } from "./choices.ts";
import { filmsWith, type Trial } from "./trial.ts";
import { byName } from "#shared/collections.ts";
import { spareAfterPacking } from "#shared/kitchen/orders/pick-up.ts";
import { type Pace, paceOf } from "#shared/kitchen/plan/pace.ts";
import type { Outlook, PlanSubject } from "#shared/kitchen/plan/plan.ts";
import type { PlanQuestion, SetsBy } from "#shared/kitchen/plan/plan-work.ts";
import { questionSteps } from "#shared/kitchen/plan/question.ts";
import type { Forecasts, OrderForecast } from "#shared/kitchen/model/forecast.ts";
import { type TimeLeft, timeLeftOf } from "#shared/kitchen/orders/time-left.ts";
import { plannedFilmOf, plannedKey, type Spans, spansAt } from "#shared/kitchen/forecast/films.ts";
import { dryingPlaceOf } from "#shared/kitchen/model/lookups.ts";
import { aliveTrays } from "#shared/kitchen/model/lookups.ts";
import type { Kitchen, Tray } from "#shared/kitchen/model/state.ts";
import type { Order } from "#shared/kitchen/model/vocabulary.ts";
import { MIN_MS } from "#shared/time.ts";
import type { Steps } from "#shared/steps.ts";

/** One thing the kitchen could do, and what comes of it. */
export type Help = HelpAct & {
  /** Minutes won at the likeliest time, and from the least to the most; absent where without it the icing never dries. */
  gain?: { likelyMin: number; leastMin: number; mostMin: number };
  /** Of an order: how likely it is then in time, and how likely it is now. */
  chance?: { before: number; after: number };
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

/** What it is worked out from. */
export interface AdviceGround {
  kitchen: Kitchen;
  forecasts: Forecasts;
  learned: Learned;
  nowMs: number;
}

/** Whoever works a plan's outlook out. */
export type OutlookSteps = (question: PlanQuestion, subject: PlanSubject) => Steps<Outlook>;

/** Whom the advice is for. */
export type AdviceFor = PlanSubject;

/** Gains under this are not worth the walk, min; nor a chance that grows by less. */
const GAIN_LEAST_MIN = 5;
const CHANCE_LEAST = 0.05;
const HELP_MOST = 3;

/**
 * Plans the day again with each of the kitchen's own choices, for a tray or an order's trays, and keeps the two or three that win
 * most: of its chance to be in time, else of its time. Undefined for what is not known, or has no forecast yet. Each step asks the drying model at most once.
 */
export function* adviceSteps(
  { kitchen, forecasts, learned, nowMs }: AdviceGround,
  subject: AdviceFor,
  outlook: OutlookSteps,
): Steps<Advice | undefined> {
  const { trays, order, now } = subjectOf(kitchen, forecasts, subject, nowMs);
  if (order === undefined || now === undefined) return undefined;
  const pace = paceOf(kitchen);
  const advising: Advising = { kitchen, forecasts, learned, pace, spans: new Map(), nowMs, outlook };
  const help: Help[] = [];
  for (const choice of choicesFor(kitchen, trays, nowMs, now.closedAtMs)) {
    const plan = yield* outlookWith(advising, trays, choice, subject);
    const then =
      "trayId" in subject ? forecastAlone(kitchen, order, plan, subject, nowMs) : plan.orders[order.id];
    const helps = then === undefined ? undefined : helpFrom(choice.act, now, then);
    if (helps !== undefined) help.push(helps);
  }
  const best = bestPlaceOnly(help.toSorted(byEffect));
  // To the minute, as the words beside it say it.
  const isLate = !isReached(now.finish) || (now.spareMin ?? 0) < 0;
  return { finish: now.finish, isLate, help: best.slice(0, HELP_MOST) };
}

/** What an act comes to; undefined where it is too little. An order gains by when it is packed, a tray by when it can be. */
function helpFrom(act: HelpAct, now: OrderForecast, then: OrderForecast): Help | undefined {
  const [before, after] = [now.packed ?? now.finish, then.packed ?? then.finish];
  if (!isReached(then.finish) || !isReached(after)) return undefined;
  const gain = isReached(before) ? gainFrom(before, after) : undefined;
  const chance = then.chance === undefined ? undefined : { before: now.chance ?? 0, after: then.chance };
  const isMoreLikely = chance !== undefined && chance.after - chance.before >= CHANCE_LEAST;
  if (gain !== undefined && gain.likelyMin < GAIN_LEAST_MIN && !isMoreLikely) return undefined;
  const pickUp = timeLeftOf(then);
  return {
    ...act,
    finish: then.finish,
    pickUp,
    meetsPickUp: pickUp.code === "spare" || pickUp.code === "may-be-late",
    ...(gain && { gain }),
    ...(isMoreLikely && { chance }),
  };
}

/** What is won at the earliest, the likeliest and the latest; the least may be a loss. */
function gainFrom(before: ReachedBand, after: ReachedBand): NonNullable<Help["gain"]> {
  const won = (point: "earliestMs" | "likelyMs" | "latestMs"): number =>
    Math.round((before[point] - after[point]) / MIN_MS);
  const gains = [won("earliestMs"), won("likelyMs"), won("latestMs")];
  return { likelyMin: won("likelyMs"), leastMin: Math.min(...gains), mostMin: Math.max(...gains) };
}

/** What one advice is worked out from. */
interface Advising extends Omit<Trial, "spans" | "answers"> {
  pace: Pace;
  outlook: OutlookSteps;
  /** Of layers as they would be laid as things stand, by place and film. */
  spans: Map<string, Spans>;
}

/** Trays that stand alike: one design, as many films, one place. The drying model answers for them together. */
const groupsOf = (trays: readonly Tray[]): Tray[][] => [
  ...byName(trays, (tray) => `${tray.designId}/${tray.films.length}/${dryingPlaceOf(tray).placeId}`).values(),
];

/** What the day's plan comes to if these trays had what the choice gives them. */
function* outlookWith(
  advising: Advising,
  trays: readonly Tray[],
  choice: Choice,
  subject: AdviceFor,
): Steps<Outlook> {
  const { kitchen, forecasts, learned, pace, nowMs } = advising;
  const changed: Record<string, Tray> = {};
  const films = { ...forecasts.films };
  const ahead = new Map<string, readonly Spans[]>();
  const heated = new Map<string, SetsBy>();
  for (const alike of groupsOf(trays)) {
    const trial: Trial = { ...advising, spans: [], answers: new Map() };
    for (const tray of alike) {
      const tried = choice.on(tray);
      if (tried === undefined) continue;
      const own = yield* filmsWith(trial, tried);
      changed[tray.id] = tried.tray;
      if (tried.heat !== undefined) heated.set(tray.id, tried.heat);
      ahead.set(tray.id, own.spans);
      Object.assign(films, own.films);
    }
  }
  const question = yield* questionSteps({
    kitchen: {
      ...kitchen,
      trays: { ...kitchen.trays, ...changed },
      settings: { ...kitchen.settings, ...choice.settings },
    },
    films,
    spansOf: (tray, layer) => ahead.get(tray.id)?.[layer] ?? spansAsIs(advising, tray, layer),
    pace,
    heated,
    learned,
    nowMs,
  });
  return yield* advising.outlook(question, subject);
}

function spansAsIs({ kitchen, learned, spans, nowMs }: Advising, tray: Tray, layer: number): Spans {
  const { placeId } = dryingPlaceOf(tray);
  const film = plannedFilmOf(kitchen, kitchen.designs[tray.designId]!, layer);
  const key = plannedKey(placeId, film);
  const known = spans.get(key) ?? spansAt(kitchen, placeId, film, learned, nowMs);
  spans.set(key, known);
  return known;
}

/** Of one tray: as if it were its order's last. */
function forecastAlone(
  kitchen: Kitchen,
  order: Order,
  plan: Pick<Outlook, "trays">,
  { trayId }: { trayId: string },
  nowMs: number,
): OrderForecast | undefined {
  const finish = plan.trays[trayId];
  if (!isReached(finish)) return finish === undefined ? undefined : { finish };
  const spareMin = (finishMs: number): number => spareAfterPacking(kitchen, order, finishMs, nowMs);
  return { finish, spareMin: spareMin(finish.likelyMs), spareWorstMin: spareMin(finish.latestMs) };
}

/** What makes it likelier to be in time goes first, then what makes it sooner; chances that differ by less are alike. */
const byEffect = (a: Help, b: Help): number => chanceWon(b) - chanceWon(a) || timeWon(b) - timeWon(a);
const chanceWon = ({ chance }: Help): number =>
  chance === undefined ? 0 : Math.round((chance.after - chance.before) / CHANCE_LEAST);
const timeWon = ({ gain, finish }: Help): number =>
  gain?.likelyMin ?? Number.MAX_SAFE_INTEGER - finish.likelyMs;

/** One move is enough to think about: the one that wins most. */
const bestPlaceOnly = (help: readonly Help[]): Help[] =>
  help.filter((one, k) => one.kind !== "move" || help.findIndex(({ kind }) => kind === "move") === k);

/** The trays in question, those that finish last first, with the order they are for and its (or the tray's) forecast. */
function subjectOf(
  kitchen: Kitchen,
  forecasts: Forecasts,
  subject: AdviceFor,
  nowMs: number,
): { trays: Tray[]; order: Order | undefined; now: OrderForecast | undefined } {
  const finishOf = ({ id }: Tray): Band | undefined => forecasts.trays[id]?.finish;
  if ("trayId" in subject) {
    const tray = kitchen.trays[subject.trayId];
    const order = kitchen.orders[tray?.orderId ?? ""];
    if (tray === undefined || tray.status.stage === "packed") return { trays: [], order, now: undefined };
    const finish = finishOf(tray);
    const now =
      order === undefined || finish === undefined
        ? undefined
        : forecastAlone(kitchen, order, { trays: { [tray.id]: finish } }, subject, nowMs);
    return { trays: [tray], order, now };
  }
  const lastMs = (tray: Tray): number => {
    const finish = finishOf(tray);
    return isReached(finish) ? finish.likelyMs : Number.MAX_SAFE_INTEGER;
  };
  const trays = aliveTrays(kitchen).filter((tray) => tray.orderId === subject.orderId);
  return {
    trays: trays.toSorted((a, b) => lastMs(b) - lastMs(a) || a.number - b.number),
    order: kitchen.orders[subject.orderId],
    now: forecasts.orders[subject.orderId],
  };
}
