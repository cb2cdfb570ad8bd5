import { sortedByName } from "#shared/collections.ts";
import type { Learned } from "#shared/drying/uncertainty/learning.ts";
import { asId, type DesignId, type PlaceId, type TrayId } from "#shared/ids.ts";
import { plannedFilmOf, type Spans, spansAt } from "#shared/kitchen/forecast/films.ts";
import { currentDesigns, goodOn, originalOf, standsAt, traysOf } from "#shared/kitchen/model/lookups.ts";
import { cookiesOnTrays } from "#shared/kitchen/model/order-cookies.ts";
import type { Kitchen, OrderState, Tray } from "#shared/kitchen/model/state.ts";
import type { Place } from "#shared/kitchen/model/vocabulary.ts";
import { latestStartMin } from "#shared/kitchen/plan/hours.ts";
import { momentsFrom } from "#shared/kitchen/plan/moments.ts";
import { paceOf } from "#shared/kitchen/plan/pace.ts";
import type { Never } from "#shared/kitchen/plan/plan-films.ts";
import type { PlanWork } from "#shared/kitchen/plan/plan-work.ts";
import { HANDS } from "#shared/kitchen/plan/resources.ts";
import { latestStarts } from "#shared/kitchen/plan/start-by.ts";
import { planWorkSteps } from "#shared/kitchen/plan/tasks.ts";
import { newTray } from "#shared/kitchen/tray/fold.ts";
import { MIN_MS } from "#shared/time.ts";
import { splitCookies, USUAL_PER_TRAY } from "./tray-plans.ts";

/** Trays that would make up what an order lacks. */
export interface MakeUp {
  cookies: number;
  designId: DesignId;
  placeId: PlaceId;
  perTray: number;
  /** How many cookies go on each tray. */
  counts: readonly number[];
}

/** By when make-up trays must be begun, or why it is of no use. */
export type MakeUpStart = { startByMs: number } | Never;

/** Where trays may stand before they are iced. */
export const takesNewTrays = ({ kind }: Place): boolean => kind !== "oven" && kind !== "warm-cabinet";

/** What to put on trays for an order that lacks cookies: more of the design that lost most. Undefined where none was begun, or nothing lacks. */
export function makeUpFor(kitchen: Kitchen, order: OrderState): MakeUp | undefined {
  const trays = traysOf(kitchen, order.id).toSorted((a, b) => a.addedAtMs - b.addedAtMs);
  const cookies = order.cookies - cookiesOnTrays(order, trays);
  const lost = (tray: Tray): number => tray.count - goodOn(tray);
  const like = trays.toSorted((a, b) => lost(b) - lost(a))[0];
  const design = like && currentDesigns(kitchen)[originalOf(kitchen, like.designId)];
  const place = trays
    .map((tray) => kitchen.places[standsAt(tray).placeId])
    .findLast((place) => place !== undefined && takesNewTrays(place));
  const placeId = (place ?? sortedByName(kitchen.places).find(takesNewTrays))?.id;
  if (cookies <= 0 || like === undefined || design === undefined || placeId === undefined) return undefined;
  const own = trays.filter(({ designId }) => originalOf(kitchen, designId) === design.id);
  const perTray = own.length === 0 ? USUAL_PER_TRAY : Math.max(...own.map(({ count }) => count));
  return { cookies, designId: design.id, placeId, perTray, counts: splitCookies(cookies, perTray) };
}

/**
 * The latest start of make-up trays, as the plan says it of any tray (plan/start-by.ts): hands in their hours, each layer's drying
 * in the air of their place, packing, all by pick-up. With more trays than hands each further round is due a tray's work earlier.
 * In steps that ask the drying model at most once.
 */
export function* makeUpStartSteps(
  kitchen: Kitchen,
  learned: Learned,
  order: OrderState,
  makeUp: MakeUp,
  nowMs: number,
): Generator<void, MakeUpStart> {
  const trays = madeUp(order, makeUp, nowMs);
  const design = kitchen.designs[makeUp.designId]!;
  const spans: Spans[] = [];
  for (let layer = 0; layer < design.layers.length; layer += 1) {
    spans.push(spansAt(kitchen, makeUp.placeId, plannedFilmOf(kitchen, design, layer), learned, nowMs));
    yield;
  }
  const work = yield* planWorkSteps({
    kitchen: { ...kitchen, trays: Object.fromEntries(trays.map((tray) => [tray.id, tray])) },
    films: {},
    spansOf: (_tray, layer) => spans[layer]!,
    pace: paceOf(kitchen),
    nowMs,
  });
  const [why] = work.never.values();
  if (why !== undefined) return why;
  const pickUpMin = (order.pickUpAtMs - nowMs) / MIN_MS;
  const starts = latestStarts(work, duesOf(trays, work, pickUpMin));
  return { startByMs: momentsFrom(nowMs)(Math.min(...starts)) };
}

const madeUp = ({ id: orderId }: OrderState, { counts, designId, placeId }: MakeUp, nowMs: number): Tray[] =>
  counts.map((count, k) =>
    newTray({ id: asId<TrayId>(`make-up ${k}`), number: k + 1, designId, orderId, count, placeId }, nowMs),
  );

/** When each task's tray is due: one for each pair of hands by pick-up, the next ones earlier by the work of those after them. */
function duesOf(trays: readonly Tray[], { tasks, crew, hours }: PlanWork, pickUpMin: number): number[] {
  const workOf = (trayId: string): number =>
    tasks
      .filter((task) => task.trayId === trayId && task.pool === HANDS)
      .reduce((sum, { durationMin }) => sum + durationMin, 0);
  const dues = new Map<string, number>();
  let [dueMin, roundMin] = [pickUpMin, 0];
  // The last round is the smallest trays': they are begun last.
  for (const [k, { id }] of trays.toReversed().entries()) {
    if (k > 0 && k % crew.length === 0) {
      const earlierMin = latestStartMin(hours, dueMin, roundMin, true);
      dueMin = earlierMin === -Infinity ? dueMin - roundMin : earlierMin;
      roundMin = 0;
    }
    roundMin = Math.max(roundMin, workOf(id));
    dues.set(id, dueMin);
  }
  return tasks.map(({ trayId }) => dues.get(trayId)!);
}
