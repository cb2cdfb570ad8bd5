import { type AlertFact, type FactOf, makeAlert } from "#shared/kitchen/model/alert.ts";
import { byName, remembered } from "#shared/collections.ts";
import { openSinceMs } from "#shared/kitchen/model/opening-hours.ts";
import { isLongPast, offTraysOf, type Slack, slackOf } from "#shared/kitchen/orders/pick-up.ts";
import { latestWait, nextAct, readiness, waitsOf } from "#shared/kitchen/tray/route.ts";
import type { Forecasts } from "#shared/kitchen/model/forecast.ts";
import type { Kitchen, OrderState, Tray } from "#shared/kitchen/model/state.ts";
import { cookiesOnTrays, isOrderPacked, spoiledShort } from "#shared/kitchen/model/order-cookies.ts";
import type { Order } from "#shared/kitchen/model/vocabulary.ts";
import { activeKey, keyOf, type Scene } from "./scene.ts";
import { MIN_MS } from "#shared/time.ts";

/** An order is out of danger again only with this much likely spare, min. */
const SPARE_AGAIN_MIN = 5;
/** The leads are alerted to so many orders of a kind at once; the wall shows further ones. */
const LEADS_ALERTED_TO = 3;
/** Orders with more spare than this can wait, min. */
const NO_HURRY_MIN = 240;
/** A wait alert goes once the longest wait is below this share of what raised it. */
const WAIT_AGAIN = 0.8;

/** Orders likely late, perhaps late, and with trays that wait for hands longer than they can. */
export function orderAlerts(scene: Scene): AlertFact[] {
  const orders = Object.values(scene.kitchen.orders).toSorted(
    (a, b) => a.pickUpAtMs - b.pickUpAtMs || (a.id < b.id ? -1 : 1),
  );
  const byOrder = traysByOrder(scene.kitchen.trays);
  const traysOf = (order: Order): readonly Tray[] => byOrder.get(order.id) ?? NO_TRAYS;
  return [
    ...sparing(
      scene.kitchen,
      orders.flatMap((order) => atRisk(scene, order, traysOf(order))),
    ),
    ...sparing(scene.kitchen, waiting(scene, orders, traysOf)),
    ...orders.flatMap((order) => short(scene, order, traysOf(order))),
  ];
}

const traysByOrder = remembered((trays: Kitchen["trays"]) =>
  byName(Object.values(trays), (tray) => tray.orderId),
);

const NO_TRAYS: readonly Tray[] = [];

/** What of an order's cookies is where: of the same trays the same. */
const countsOf = remembered((trays: readonly Tray[], order: OrderState) => ({
  isPacked: isOrderPacked(order, trays),
  areOnTrays: cookiesOnTrays(order, trays) >= order.cookies,
  spoiled: spoiledShort(order, trays),
}));

const offTrays = ({ kitchen, nowMs }: Scene, order: OrderState, trays: readonly Tray[]) =>
  countsOf(trays, order).areOnTrays ? undefined : offTraysOf(kitchen, order, trays, nowMs);

/** Keeps a bad hour from flooding the leads: those that stand come first, then by pick-up. */
function sparing(kitchen: Kitchen, alerts: readonly AlertFact[]): AlertFact[] {
  const isRaised = (alert: AlertFact): boolean => kitchen.alerts[alert.key]?.recipients.leads === true;
  let left = LEADS_ALERTED_TO - alerts.filter(isRaised).length;
  return alerts.map((alert) => {
    if (!alert.recipients.leads || isRaised(alert)) return alert;
    left -= 1;
    return left >= 0 && kitchen.alerts[`${alert.key}:wall`] === undefined
      ? alert
      : { ...alert, key: `${alert.key}:wall`, recipients: { ...alert.recipients, leads: false } };
  });
}

/** One alert an order: what is on no tray comes first, since nothing else can save that; then what must be packed or dried. */
function atRisk(scene: Scene, order: OrderState, trays: readonly Tray[]): AlertFact[] {
  const { kitchen, forecasts, nowMs } = scene;
  if (isLongPast(order, nowMs) || countsOf(trays, order).isPacked) return [];
  const key = `pick-up-at-risk:${order.id}:${order.pickUpAtMs}`;
  const missing = offTrays(scene, order, trays);
  if (missing?.shortMin !== undefined) {
    const is = missing.areSpoiled ? "spoiled" : "not on trays";
    return [riskAlert(order, `${key}:off`, { is, cookies: missing.cookies })];
  }
  const outlook = forecasts.orders[order.id];
  if (outlook === undefined) return [];
  if ("never" in outlook.finish) return [riskAlert(order, key, { is: "never dries" })];
  const dryKey = `${key}:dry`;
  if (isShort(scene, [key, dryKey], outlook.spareMin)) {
    const help = packingHelp(scene, trays, isActive(kitchen, dryKey));
    const hasMissed = order.pickUpAtMs < nowMs;
    return [riskAlert(order, help === "advice" ? key : dryKey, { is: "late", hasMissed, help })];
  }
  const noteKey = `${key}:latest`;
  if (!isShort(scene, [noteKey], outlook.spareWorstMin)) return [];
  return [riskAlert(order, noteKey, { is: "may be late" })];
}

type Risk = FactOf<"pick-up-at-risk">["risk"];

function riskAlert({ id: orderId }: OrderState, key: string, risk: Risk): AlertFact {
  const isNote = risk.is === "may be late";
  const facts = { key, orderId, risk };
  return makeAlert("pick-up-at-risk", { isForLeads: !isNote }, isNote ? { ...facts, class: "note" } : facts);
}

/** Cookies that were spoiled are missing: a make-up tray closes it, or an order for fewer. */
function short(scene: Scene, order: OrderState, trays: readonly Tray[]): AlertFact[] {
  const missing = countsOf(trays, order).spoiled;
  if (missing === 0 || isLongPast(order, scene.nowMs)) return [];
  // Where they cannot be ready by its pick-up, that is said, and more.
  if (offTrays(scene, order, trays)?.shortMin !== undefined) return [];
  const key = keyOf(scene, `order-short:${order.id}`, scene.nowMs);
  return [makeAlert("order-short", {}, { key, orderId: order.id, cookies: missing })];
}

/** Below nothing to spare; once raised, until there is some again. */
function isShort({ kitchen }: Scene, keys: readonly string[], spareMin: number | undefined): boolean {
  const isRaised = keys.some((key) => isActive(kitchen, key));
  return spareMin !== undefined && spareMin < (isRaised ? SPARE_AGAIN_MIN : 0);
}

/** Whether an alert is active, be it for the wall only. */
const isActive = ({ alerts }: Kitchen, key: string): boolean =>
  alerts[key] !== undefined || alerts[`${key}:wall`] !== undefined;

/** What to do once every tray only waits to be packed: no heat helps then. Once said, until one has a layer to be laid. */
function packingHelp(
  scene: Scene,
  trays: readonly Tray[],
  wasSaid: boolean,
): (Risk & { is: "late" })["help"] {
  const { kitchen, forecasts, nowMs } = scene;
  const alive = trays.filter(({ status }) => status.stage !== "packed");
  if (!alive.every((tray) => nextAct(kitchen, tray).kind === "pack")) return "advice";
  const states = alive.map((tray) => readiness(kitchen, forecasts, tray, nowMs).is);
  if (!wasSaid && !states.every((is) => is === "ready" || is === "check by touch")) return "advice";
  return states.includes("check by touch") ? "touch, then pack" : "pack";
}

/** One alert an order, however many of its trays wait. Only while the kitchen is open, and counted from its opening. */
function waiting(
  scene: Scene,
  orders: readonly Order[],
  traysOf: (order: Order) => readonly Tray[],
): AlertFact[] {
  const { kitchen, forecasts, nowMs } = scene;
  const openMs = openSinceMs(kitchen.settings, nowMs);
  if (openMs === undefined) return [];
  return orders.flatMap((order): AlertFact[] => {
    const slack = slackOf(kitchen, order, forecasts.orders[order.id], nowMs);
    if (slack === undefined || slack.min >= NO_HURRY_MIN) return [];
    const prefix = `waiting-long:${order.id}`;
    const share = activeKey(kitchen, prefix) === undefined ? 1 : WAIT_AGAIN;
    const longest = share * mayWaitMs(slack.min);
    const late = traysOf(order)
      .map((tray) => ({ tray, sinceMs: Math.max(openMs, waitsSinceMs(scene, tray) ?? nowMs) }))
      .filter(({ sinceMs }) => nowMs - sinceMs > longest)
      .toSorted((a, b) => a.sinceMs - b.sinceMs || a.tray.number - b.tray.number);
    const [first] = late;
    if (first === undefined) return [];
    return [
      makeAlert(
        "waiting-long",
        {},
        {
          key: waitKey(scene, prefix, first.sinceMs),
          orderId: order.id,
          trays: late.map(({ tray }) => tray.number),
          hurry: hurryOf(slack),
          sinceMs: first.sinceMs,
        },
      ),
    ];
  });
}

function hurryOf({ min, beforeMs }: Slack): FactOf<"waiting-long">["hurry"] {
  if (beforeMs !== undefined) return { is: "before closing", packBeforeMs: beforeMs };
  return { is: min < 0 ? "short of time" : "little to spare" };
}

/** An active key may end in ":wall": `sparing` adds that. */
const waitKey = (scene: Scene, prefix: string, sinceMs: number): string =>
  keyOf(scene, prefix, sinceMs).replace(/:wall$/, "");

/** A quarter of the spare time, at least 10 min and at most an hour. */
const mayWaitMs = (slackMin: number): number => Math.max(10, Math.min(60, slackMin / 4)) * MIN_MS;

const rememberedWaits = remembered((tray: Tray, designs: Kitchen["designs"], forecasts: Forecasts) =>
  waitsOf({ designs }, forecasts, tray),
);

/** Since when a tray waits for hands; past its latest time it still waits since its likeliest. */
function waitsSinceMs({ kitchen, forecasts, nowMs }: Scene, tray: Tray): number | undefined {
  const { stage } = tray.status;
  if (stage !== "crusting" && stage !== "full-dry") return undefined;
  const waits = rememberedWaits(tray, kitchen.designs, forecasts);
  const ready = latestWait(waits, tray, nowMs);
  if (ready.is === "ready") return ready.sinceMs;
  if (ready.is !== "check by touch") return undefined;
  const ends = waits.map(({ reached, band }) => {
    if (reached !== undefined) return reached;
    return band === undefined || "never" in band ? 0 : band.likelyMs;
  });
  return Math.max(tray.films.at(-1)?.clockStartMs ?? 0, ...ends);
}
