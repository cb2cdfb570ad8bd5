import { isReached } from "#shared/drying/uncertainty/band.ts";
import type { PersonId } from "#shared/ids.ts";
import type { Forecasts } from "#shared/kitchen/model/forecast.ts";
import { comparePlanned, placeOf, plannedTurn } from "#shared/kitchen/tray/ready.ts";
import { nextAct, readiness } from "#shared/kitchen/tray/route.ts";
import type { PlannedTurn } from "#shared/kitchen/tray/ready.ts";
import type { Readiness } from "#shared/kitchen/tray/route.ts";
import { aliveTrays, filmKey, heatHolder } from "#shared/kitchen/model/lookups.ts";
import { stillHotUntilMs } from "#shared/kitchen/tray/tool-heat.ts";
import type { Kitchen, Tray } from "#shared/kitchen/model/state.ts";
import type { FirstWords } from "#shared/words/words.ts";
import { unreachable } from "#shared/outcome.ts";
import { MIN_MS } from "#shared/time.ts";

/** A tray in a list: what wants doing or what is being waited for, and how long. */
export interface TrayCard {
  number: number;
  /** hands: someone should take it up. heat: under a tool. calm: it is drying. trouble: it will not dry. */
  tone: "hands" | "heat" | "calm" | "trouble";
  title: string;
  /** "Harbour choir · Boat": whom it is for, and what it is; absent where the order is gone. */
  order?: string;
  detail: string;
  wait: string;
  /** By when the plan has it begun, and for what. */
  why?: string;
}

export function trayCard(
  words: FirstWords,
  kitchen: Kitchen,
  forecasts: Forecasts,
  tray: Tray,
  nowMs: number,
): TrayCard {
  const names = [kitchen.orders[tray.orderId]?.name, kitchen.designs[tray.designId]?.name];
  const order = names.flatMap((name) => (name === undefined ? [] : words.format.name(name))).join(" · ");
  const card = { ...coldCard(words, kitchen, forecasts, tray, nowMs), ...(order !== "" && { order }) };
  const untilMs = stillHotUntilMs(kitchen, tray, nowMs);
  if (untilMs === undefined) return card;
  const hot = words.trays.hot(untilMs);
  return { ...card, detail: `${hot} ${words.format.sentence(card.detail)}` };
}

function coldCard(
  words: FirstWords,
  kitchen: Kitchen,
  forecasts: Forecasts,
  tray: Tray,
  nowMs: number,
): TrayCard {
  const { trays, format, terms } = words;
  const state = readiness(kitchen, forecasts, tray, nowMs);
  const next = nextAct(kitchen, tray);
  const { number } = tray;
  const icing = "icing" in next ? next.icing?.name : undefined;
  const where = [icing, terms.cookies(tray.count), terms.place(placeOf(kitchen, [tray]))]
    .filter((part) => part !== undefined)
    .join(" · ");
  switch (state.is) {
    case "ready": {
      const why = whyNow(words, kitchen, forecasts, tray, nowMs);
      const toStart = why === undefined ? trays.waitToStart : "";
      return {
        number,
        tone: "hands",
        title: trays.act(next),
        detail: where,
        wait: tray.status.stage === "queued" ? toStart : waited(words, state.sinceMs, nowMs),
        ...(why === undefined ? {} : { why }),
      };
    }
    case "check by touch":
      return {
        number,
        tone: "hands",
        title: trays.act({ kind: "touch" }),
        detail: `${trays.thenAct(next)} · ${where}`,
        wait: trays.pastLatest,
      };
    case "coming": {
      const minutes = (atMs: number): number => (atMs - nowMs) / MIN_MS;
      return {
        number,
        tone: "calm",
        title: dryingTitle(words, tray),
        detail: trays.readyTo(next, format.bandTimes(state.band, nowMs)),
        wait: format.band(minutes(state.band.earliestMs), minutes(state.band.latestMs)),
      };
    }
    case "in hand":
      return inHand(words, kitchen, forecasts, tray, state.sinceMs, nowMs);
    case "never":
      return {
        number,
        tone: "trouble",
        title: trays.willNotDry,
        detail: words.drying.why(state.why),
        wait: trays.moveIt,
      };
    case "unknown":
      return {
        number,
        tone: "calm",
        title: dryingTitle(words, tray),
        detail: trays.noForecast,
        wait: "",
      };
    case "done":
      return { number, tone: "calm", title: trays.act(next), detail: where, wait: "" };
    default:
      return unreachable(state);
  }
}

/** "start by 15:05 for Sun 14:00": the plan's word on a tray that someone may take up. */
function whyNow(
  { trays, format }: FirstWords,
  kitchen: Kitchen,
  forecasts: Forecasts,
  tray: Tray,
  nowMs: number,
): string | undefined {
  const byMs = plannedTurn(forecasts, tray, nowMs)?.startByMs;
  const order = kitchen.orders[tray.orderId];
  if (byMs === undefined || order === undefined) return undefined;
  const start = byMs - nowMs < MIN_MS ? trays.startNow : trays.startBy(byMs, nowMs);
  return `${start} ${trays.forPickUp(format.whenWithDay(order.pickUpAtMs, nowMs))}`;
}

function inHand(
  words: FirstWords,
  kitchen: Kitchen,
  forecasts: Forecasts,
  tray: Tray,
  sinceMs: number,
  nowMs: number,
): TrayCard {
  const { status, number } = tray;
  const { trays, format, terms } = words;
  const lasted = format.span((nowMs - sinceMs) / MIN_MS);
  if (status.stage === "heat-set") {
    const { heat } = status;
    const tool = kitchen.tools[heat.toolId]?.name ?? terms.toolKinds[heat.toolKind];
    const who = kitchen.people[heatHolder(kitchen, heat)]?.name ?? trays.someone;
    return {
      number,
      tone: "heat",
      title: heat.pausedSinceMs === undefined ? trays.underHeat(heat.layer + 1) : trays.heatPaused,
      detail: `${tool} · ${who}`,
      wait: heat.pausedSinceMs === undefined ? format.stopwatch((nowMs - sinceMs) / 1000) : "",
    };
  }
  const layer = status.stage === "flooding" ? status.layer : 0;
  const skin = forecasts.films[filmKey(tray.id, layer)]?.skin;
  const minutes = (atMs: number): number => (atMs - nowMs) / MIN_MS;
  const closing =
    isReached(skin) && skin.latestMs > nowMs
      ? trays.needleUntil(format.band(minutes(skin.earliestMs), minutes(skin.latestMs)))
      : trays.needle;
  return { number, tone: "calm", title: trays.inHand(layer + 1), detail: closing, wait: lasted };
}

const dryingTitle = ({ trays }: FirstWords, tray: Tray): string =>
  tray.status.stage === "full-dry" ? trays.fullDry : trays.crusting(tray.films.length);

function waited({ trays }: FirstWords, sinceMs: number, nowMs: number): string {
  const minutes = (nowMs - sinceMs) / MIN_MS;
  return minutes < 1 ? trays.readyNow : trays.waiting(minutes);
}

/** One person's trays: heat, in hand, ready by the plan (without one the longest wait first), to start, then the soonest. */
export interface NextUp {
  /** Ready, in hand, coming: theirs, or whoever's when `whose` is everyone. */
  trays: readonly Tray[];
  /** Not begun, by the plan (without one by pick-up), first those it has for this person: nobody's; or whoever's when `whose` is everyone. */
  toStart: readonly Tray[];
}

export function nextUp(
  kitchen: Kitchen,
  forecasts: Forecasts,
  nowMs: number,
  whose: PersonId | "everyone",
): NextUp {
  const alive = aliveTrays(kitchen);
  const isTheirs = (tray: Tray): boolean =>
    whose === "everyone" ||
    tray.assignedTo === whose ||
    (tray.status.stage === "heat-set" && heatHolder(kitchen, tray.status.heat) === whose);
  const pickUpMs = (tray: Tray): number =>
    kitchen.orders[tray.orderId]?.pickUpAtMs ?? Number.MAX_SAFE_INTEGER;
  const turn = (tray: Tray): PlannedTurn | undefined => plannedTurn(forecasts, tray, nowMs);
  const isPlannedForOther = ({ id }: Tray): number => {
    const who = forecasts.trays[id]?.plan?.who;
    return Number(whose !== "everyone" && who !== undefined && who !== whose);
  };
  const isFresh = (tray: Tray): boolean =>
    tray.status.stage === "queued" && (whose === "everyone" || !isTheirs(tray));
  const ranked = alive
    .filter((tray) => !isFresh(tray) && isTheirs(tray))
    .map((tray) => ({
      tray,
      turn: turn(tray),
      rank: rankOf(readiness(kitchen, forecasts, tray, nowMs), tray, whose),
    }));
  const fresh = alive
    .filter((tray) => isFresh(tray) && (whose === "everyone" || (tray.assignedTo ?? null) === null))
    .map((tray) => ({
      tray,
      turn: turn(tray),
      isForOther: isPlannedForOther(tray),
      pickUpMs: pickUpMs(tray),
    }));
  return {
    trays: ranked
      .toSorted(
        (a, b) =>
          a.rank[0] - b.rank[0] ||
          (a.rank[0] === READY_RANK ? comparePlanned(a.turn, b.turn) : 0) ||
          a.rank[1] - b.rank[1] ||
          a.tray.number - b.tray.number,
      )
      .map(({ tray }) => tray),
    toStart: fresh
      .toSorted(
        (a, b) =>
          a.isForOther - b.isForOther ||
          comparePlanned(a.turn, b.turn) ||
          a.pickUpMs - b.pickUpMs ||
          a.tray.number - b.tray.number,
      )
      .map(({ tray }) => tray),
  };
}

const READY_RANK = 2;

/** Group, then time within it. One's own tray in hand comes before what is ready; what others have in hand, after. */
function rankOf(state: Readiness, { status }: Tray, whose: PersonId | "everyone"): readonly [number, number] {
  switch (state.is) {
    case "in hand":
      return [status.stage === "heat-set" ? 0 : whose === "everyone" ? 4 : 1, state.sinceMs];
    case "ready":
    case "check by touch":
      return [status.stage === "queued" ? READY_RANK + 1 : READY_RANK, state.sinceMs];
    case "never":
      return [5, 0];
    case "coming":
      return [6, state.band.likelyMs];
    case "unknown":
      return [7, 0];
    case "done":
      return [8, 0];
    default:
      return unreachable(state);
  }
}
