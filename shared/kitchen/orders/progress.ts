import type { DesignId } from "#shared/ids.ts";
import { byName } from "#shared/collections.ts";
import type { Forecasts, HangsOn, OrderForecast } from "#shared/kitchen/model/forecast.ts";
import { nextAct, type Readiness, readiness } from "#shared/kitchen/tray/route.ts";
import { type OffTrays, offTraysOf, type Slack, slackOf } from "./pick-up.ts";
import { traysOf } from "#shared/kitchen/model/lookups.ts";
import type { Kitchen, OrderState, Tray } from "#shared/kitchen/model/state.ts";
import { cookiesOnTrays, isOrderPacked } from "#shared/kitchen/model/order-cookies.ts";
import { type TimeLeft, timeLeftOf } from "./time-left.ts";

/** One order in the list of orders. Shares are parts of its cookies, 0 to 1, and sum to 1. */
export interface OrderCard {
  key: string;
  name: string;
  cookies: number;
  /** Designs on its trays, by their trays' numbers. */
  designIds: readonly DesignId[];
  pickUpAtMs: number;
  status: OrderStatus;
  is: OrderTone;
  /** How likely it is packed by its pick-up, 0 to 1, and what that hangs on; absent where nothing is promised of it, or nothing is left to do. */
  chance?: number;
  hangsOn?: HangsOn;
  /** Likely late only because the kitchen closes then. */
  closedAtMs?: number;
  done: number;
  inHand: number;
  toDo: number;
}

/** Where an order stands, in one line. */
export type OrderStatus =
  | { code: "packed" | "ready-to-pack" | "touch-then-pack" }
  /** Packed after this closing it would miss its pick-up. */
  | { code: "pack-before"; beforeMs: number }
  | { code: "spoiled" | "off-trays"; cookies: number }
  | TimeLeft;

/** How an order is marked. */
export type OrderTone = "short" | "may be short" | "spare" | "ready to pack" | "packed" | "unknown";

const TONES = {
  never: "short",
  "no-forecast": "unknown",
  late: "short",
  "may-be-late": "may be short",
  spare: "spare",
} as const satisfies Record<TimeLeft["code"], OrderTone>;

/** Orders by pick-up: those at risk first, then the others, then those packed. */
export function orderStrip(kitchen: Kitchen, forecasts: Forecasts, nowMs: number): OrderCard[] {
  const traysOf = byName(Object.values(kitchen.trays), (tray) => tray.orderId);
  return Object.values(kitchen.orders)
    .map((order) => cardOf(kitchen, forecasts, order, traysOf.get(order.id) ?? [], nowMs))
    .toSorted(
      (a, b) => GROUPS[a.is] - GROUPS[b.is] || a.pickUpAtMs - b.pickUpAtMs || (a.key < b.key ? -1 : 1),
    );
}

/** One order's card. */
export const orderCard = (
  kitchen: Kitchen,
  forecasts: Forecasts,
  order: OrderState,
  nowMs: number,
): OrderCard => cardOf(kitchen, forecasts, order, traysOf(kitchen, order.id), nowMs);

/** In which part of the list an order stands. */
const GROUPS = {
  short: 0,
  "may be short": 0,
  spare: 1,
  "ready to pack": 1,
  unknown: 1,
  packed: 2,
} as const satisfies Record<OrderTone, number>;

function cardOf(
  kitchen: Kitchen,
  forecasts: Forecasts,
  order: OrderState,
  trays: readonly Tray[],
  nowMs: number,
): OrderCard {
  const waitsToBePacked = (tray: Tray, ...states: readonly Readiness["is"][]): boolean =>
    nextAct(kitchen, tray).kind === "pack" && states.includes(readiness(kitchen, forecasts, tray, nowMs).is);
  const share = (wanted: (tray: Tray) => boolean): number =>
    Math.min(1, cookiesOnTrays(order, trays.filter(wanted)) / order.cookies);
  const done = share(
    (tray) => tray.status.stage === "packed" || waitsToBePacked(tray, "ready", "check by touch"),
  );
  const begun = share((tray) => tray.status.stage !== "queued");
  const outlook = forecasts.orders[order.id];
  const missing = offTraysOf(kitchen, order, trays, nowMs);
  const slack = slackOf(kitchen, order, outlook, nowMs);
  const place = (): { status: OrderStatus; is: OrderTone } => {
    if (isOrderPacked(order, trays)) return { status: { code: "packed" }, is: "packed" };
    if (done < 1) return underWay(timeLeftOf(outlook), missing, slack);
    const mustTouch = trays.some((tray) => waitsToBePacked(tray, "check by touch"));
    const status = mustTouch
      ? ({ code: "touch-then-pack" } as const)
      : (packBefore(slack) ?? ({ code: "ready-to-pack" } as const));
    return { status, is: "ready to pack" };
  };
  const { status, is } = place();
  const { id: key, name, cookies, pickUpAtMs } = order;
  const inHand = Math.max(0, begun - done);
  const toDo = 1 - Math.max(begun, done);
  const promise =
    is === "short" || is === "may be short" || is === "spare" ? promiseOf(outlook, missing) : {};
  const byNumber = trays.toSorted((a, b) => a.number - b.number);
  const designIds = [...new Set(byNumber.map(({ designId }) => designId))];
  return { key, name, cookies, designIds, pickUpAtMs, status, is, ...promise, done, inHand, toDo };
}

/** What the plan promises of an order all of whose cookies are on trays. */
function promiseOf(
  outlook: OrderForecast | undefined,
  missing: OffTrays | undefined,
): Pick<OrderCard, "chance" | "hangsOn" | "closedAtMs"> {
  if (outlook?.chance === undefined || missing !== undefined) return {};
  const { chance, hangsOn, closedAtMs } = outlook;
  return {
    chance,
    ...(hangsOn === undefined ? {} : { hangsOn }),
    ...(closedAtMs === undefined ? {} : { closedAtMs }),
  };
}

/** Nothing is promised of an order while some of its cookies are on no tray; what is late without them is late. */
function underWay(
  timeLeft: TimeLeft,
  missing: OffTrays | undefined,
  slack: Slack | undefined,
): { status: OrderStatus; is: OrderTone } {
  const tone = TONES[timeLeft.code];
  const isOpen = tone === "spare" || tone === "unknown";
  if (missing !== undefined && (isOpen || missing.shortMin !== undefined)) {
    const { cookies, areSpoiled, shortMin } = missing;
    return {
      status: { code: areSpoiled ? "spoiled" : "off-trays", cookies },
      is: shortMin === undefined ? "unknown" : "short",
    };
  }
  return { status: (tone === "spare" ? packBefore(slack) : undefined) ?? timeLeft, is: tone };
}

const packBefore = (slack: Slack | undefined): OrderStatus | undefined =>
  slack?.beforeMs === undefined ? undefined : { code: "pack-before", beforeMs: slack.beforeMs };
