import { formatBand, formatSpan } from "#shared/units.ts";
import { byName } from "#shared/kitchen/model/by-name.ts";
import type { Forecasts, OrderOutlook } from "#shared/kitchen/model/forecast.ts";
import { nextAct, type Readiness, readiness } from "#shared/kitchen/tray/route.ts";
import { type OffTrays, offTraysOf, type Slack, slackOf } from "#shared/kitchen/plan/pick-up.ts";
import { type Kitchen, type OrderState, type Tray, traysOf } from "#shared/kitchen/model/state.ts";
import { cookiesOnTrays, isOrderPacked } from "#shared/kitchen/model/order-cookies.ts";
import { clockTime, dayTime } from "#shared/words/wording.ts";
import { DAY_MS } from "#shared/time.ts";

/** One order at the foot of the wall. Shares are parts of its cookies, 0 to 1, and sum to 1. */
export interface OrderCard {
  key: string;
  name: string;
  cookies: number;
  pickUp: string;
  /** Spare or missing time before pick-up, from likeliest to latest finish; or where it stands, or when it must be packed. */
  words: string;
  is: "short" | "may be short" | "spare" | "ready to pack" | "packed" | "unknown";
  done: number;
  inHand: number;
  toDo: number;
}

/** Orders not yet packed, those most short of time first; then those packed. */
export function orderStrip(kitchen: Kitchen, forecasts: Forecasts, nowMs: number): OrderCard[] {
  const traysOf = byName(Object.values(kitchen.trays), (tray) => tray.orderId);
  return Object.values(kitchen.orders)
    .map((order) => cardOf(kitchen, forecasts, order, traysOf.get(order.id) ?? [], nowMs))
    .toSorted((a, b) => a.rank - b.rank || a.pickUpAtMs - b.pickUpAtMs || (a.card.key < b.card.key ? -1 : 1))
    .map(({ card }) => card);
}

/** One order's card. */
export function orderCard(
  kitchen: Kitchen,
  forecasts: Forecasts,
  order: OrderState,
  nowMs: number,
): OrderCard {
  const trays = traysOf(kitchen, order.id);
  return cardOf(kitchen, forecasts, order, trays, nowMs).card;
}

interface Ranked {
  card: OrderCard;
  /** Spare minutes at worst, or until a closing it must be packed before; packed orders last. */
  rank: number;
  pickUpAtMs: number;
}

function cardOf(
  kitchen: Kitchen,
  forecasts: Forecasts,
  order: OrderState,
  trays: readonly Tray[],
  nowMs: number,
): Ranked {
  const count = (wanted: (tray: Tray) => boolean): number => cookiesOnTrays(order, trays.filter(wanted));
  const isPacked = (tray: Tray): boolean => tray.standing.stage === "packed";
  const waitsToBePacked = (tray: Tray, ...states: readonly Readiness["is"][]): boolean =>
    nextAct(kitchen, tray).kind === "pack" && states.includes(readiness(kitchen, forecasts, tray, nowMs).is);
  const isDone = (tray: Tray): boolean => isPacked(tray) || waitsToBePacked(tray, "ready", "check by touch");
  const share = (cookies: number): number => Math.min(1, cookies / order.cookies);
  const done = share(count(isDone));
  const begun = share(count((tray) => tray.standing.stage !== "queued"));
  const outlook = forecasts.orders[order.id];
  const missing = offTraysOf(kitchen, order, trays, nowMs);
  const slack = slackOf(kitchen, order, outlook, nowMs);
  const inTimeWords = closingWords(kitchen, slack, nowMs);
  const readyWords = trays.some((tray) => waitsToBePacked(tray, "check by touch"))
    ? "check by touch, then pack"
    : (inTimeWords ?? "ready to pack");
  const { words, is } = isOrderPacked(order, trays)
    ? { words: "packed", is: "packed" as const }
    : done === 1
      ? { words: readyWords, is: "ready to pack" as const }
      : knownWords(outlook, missing, inTimeWords);
  const spareMin = outlook?.spareWorstMin ?? outlook?.spareMin ?? UNKNOWN_RANK;
  return {
    card: {
      key: order.id,
      name: order.name,
      cookies: order.cookies,
      pickUp: dayTime(order.pickUpAtMs, kitchen.settings.timeZone),
      words,
      is,
      done,
      inHand: Math.max(0, begun - done),
      toDo: 1 - Math.max(begun, done),
    },
    rank:
      is === "packed"
        ? Number.MAX_SAFE_INTEGER
        : Math.min(spareMin, slack?.min ?? UNKNOWN_RANK, -(missing?.shortMin ?? -UNKNOWN_RANK)),
    pickUpAtMs: order.pickUpAtMs,
  };
}

/** Behind every order of which something is known, before those packed. */
const UNKNOWN_RANK = Number.MAX_SAFE_INTEGER / 2;

/** "pack before 20:00", where closing ends what is spare. */
function closingWords({ settings }: Kitchen, slack: Slack | undefined, nowMs: number): string | undefined {
  if (slack?.beforeMs === undefined) return undefined;
  const say = slack.beforeMs - nowMs < DAY_MS ? clockTime : dayTime;
  return `pack before ${say(slack.beforeMs, settings.timeZone)}`;
}

/** Nothing is promised of an order while some of its cookies are on no tray; what is short without them is short. */
function knownWords(
  outlook: OrderOutlook | undefined,
  missing: OffTrays | undefined,
  inTimeWords: string | undefined,
): Pick<OrderCard, "words" | "is"> {
  const known = spareWords(outlook);
  const isOpen = known.is === "spare" || known.is === "unknown";
  if (missing !== undefined && (isOpen || missing.shortMin !== undefined)) {
    return {
      words: missing.areSpoiled ? `${missing.cookies} short` : `${missing.cookies} not on trays yet`,
      is: missing.shortMin === undefined ? "unknown" : "short",
    };
  }
  return known.is === "spare" && inTimeWords !== undefined ? { ...known, words: inTimeWords } : known;
}

/** "40 min–1½ h short", "may be 30 min short", "2–3½ h spare". Spare at worst comes from the latest finish. */
export function spareWords(outlook: OrderOutlook | undefined): Pick<OrderCard, "words" | "is"> {
  if (outlook !== undefined && "never" in outlook.finish) return { words: "will not dry", is: "short" };
  if (outlook?.spareMin === undefined) return { words: "no forecast yet", is: "unknown" };
  const { spareMin } = outlook;
  const worstMin = Math.min(spareMin, outlook.spareWorstMin ?? spareMin);
  if (spareMin < 0) return { words: `${formatBand(-spareMin, -worstMin)} short`, is: "short" };
  if (worstMin < 0) return { words: `may be ${formatSpan(-worstMin)} short`, is: "may be short" };
  return { words: `${formatBand(worstMin, spareMin)} spare`, is: "spare" };
}
