import type { AlertFact } from "#shared/kitchen/model/alert.ts";
import { byName } from "#shared/kitchen/model/by-name.ts";
import { openSinceMs } from "#shared/kitchen/model/opening-hours.ts";
import { isLongPast, type OffTrays, offTraysOf, type Slack, slackOf } from "#shared/kitchen/plan/pick-up.ts";
import { nextAct, readiness, waitsOf } from "#shared/kitchen/tray/route.ts";
import {
  isOrderPacked,
  type Kitchen,
  type OrderState,
  spoiledShort,
  type Tray,
} from "#shared/kitchen/model/state.ts";
import type { Order } from "#shared/kitchen/model/vocabulary.ts";
import { clockTime, cookies } from "#shared/words/wording.ts";
import { clip, keyOf, type Scene, standing, told } from "./scene.ts";
import { trayWords } from "#shared/words/tray-numbers.ts";
import { MIN_MS } from "#shared/time.ts";

/** An order is out of danger again only with this much likely spare, min. */
const SPARE_AGAIN_MIN = 5;
/** So many orders of a kind are told to the leads at once; further ones only to the wall. */
const LEADS_TOLD_OF = 3;
/** Orders with more spare than this can wait, min. */
const NO_HURRY_MIN = 240;
/** A wait alert goes once the longest wait is below this share of what raised it. */
const WAIT_AGAIN = 0.8;

/** Orders likely late, perhaps late, and with trays that wait for hands longer than they can. */
export function orderAlerts(scene: Scene): AlertFact[] {
  const orders = Object.values(scene.kitchen.orders).toSorted(
    (a, b) => a.pickUpAtMs - b.pickUpAtMs || (a.id < b.id ? -1 : 1),
  );
  const byOrder = byName(Object.values(scene.kitchen.trays), (tray) => tray.orderId);
  const traysOf = (order: Order): readonly Tray[] => byOrder.get(order.id) ?? [];
  return [
    ...sparing(
      scene.kitchen,
      orders.flatMap((order) => atRisk(scene, order, traysOf(order))),
    ),
    ...sparing(scene.kitchen, waiting(scene, orders, traysOf)),
    ...orders.flatMap((order) => short(scene, order, traysOf(order))),
  ];
}

/** Keeps a bad hour from flooding the leads: those that stand come first, then by pick-up. */
function sparing(kitchen: Kitchen, alerts: readonly AlertFact[]): AlertFact[] {
  const isTold = (alert: AlertFact): boolean => kitchen.alerts[alert.key]?.told.leads === true;
  let left = LEADS_TOLD_OF - alerts.filter(isTold).length;
  return alerts.map((alert) => {
    if (!alert.told.leads || isTold(alert)) return alert;
    left -= 1;
    return left >= 0 && kitchen.alerts[`${alert.key}:wall`] === undefined
      ? alert
      : { ...alert, key: `${alert.key}:wall`, told: told({ wall: true }) };
  });
}

/** One alert an order: what is on no tray comes first, since nothing else can save that; then what must be packed or dried. */
function atRisk(scene: Scene, order: OrderState, trays: readonly Tray[]): AlertFact[] {
  const { kitchen, forecasts, nowMs } = scene;
  if (isLongPast(order, nowMs) || isOrderPacked(order, trays)) return [];
  const key = `pick-up-at-risk:${order.id}:${order.pickUpAtMs}`;
  const about = { kind: "pick-up-at-risk", orderId: order.id } as const;
  const toLeads = { class: "prompt", told: told({ wall: true, leads: true }) } as const;
  const missing = offTraysOf(kitchen, order, trays, nowMs);
  if (missing?.shortMin !== undefined) {
    const [what, todo] = offTrayWords(order, missing);
    return [{ ...about, ...toLeads, key: `${key}:off`, what, todo }];
  }
  const outlook = forecasts.orders[order.id];
  if (outlook === undefined) return [];
  if ("never" in outlook.finish) {
    const what = clip(`${order.name} will not dry where it stands`);
    return [{ ...about, ...toLeads, key, what, todo: MAY_HELP }];
  }
  const dryKey = `${key}:dry`;
  if (isShort(scene, [key, dryKey], outlook.spareMin)) {
    const what = clip(
      `${order.name} ${order.pickUpAtMs < nowMs ? "has missed" : "is likely to miss"} its pick-up`,
    );
    const toPack = packWords(scene, trays, isTold(kitchen, dryKey));
    return [
      { ...about, ...toLeads, what, key: toPack === undefined ? key : dryKey, todo: toPack ?? MAY_HELP },
    ];
  }
  const noteKey = `${key}:latest`;
  if (!isShort(scene, [noteKey], outlook.spareWorstMin)) return [];
  return [
    {
      ...about,
      key: noteKey,
      class: "note",
      what: clip(`${order.name} could miss its pick-up`),
      todo: "Likely in time, but not if it dries as late as it may",
      told: told({ wall: true }),
    },
  ];
}

/** Cookies that were spoiled are missing: a make-up tray closes it, or an order for fewer. */
function short(scene: Scene, order: OrderState, trays: readonly Tray[]): AlertFact[] {
  const missing = spoiledShort(order, trays);
  const off = offTraysOf(scene.kitchen, order, trays, scene.nowMs);
  // Where they cannot be ready by its pick-up, that is said, and more.
  if (missing === 0 || off?.shortMin !== undefined || isLongPast(order, scene.nowMs)) return [];
  return [
    {
      key: keyOf(scene, `order-short:${order.id}`, scene.nowMs),
      kind: "order-short",
      class: "prompt",
      what: clip(`${order.name} is ${cookies(missing)} short`),
      todo: "Spoiled cookies: begin a make-up tray, or change the order",
      told: told({ leads: true }),
      orderId: order.id,
    },
  ];
}

/** Below nothing to spare; once told, until there is some again. */
function isShort({ kitchen }: Scene, keys: readonly string[], spareMin: number | undefined): boolean {
  const isStanding = keys.some((key) => isTold(kitchen, key));
  return spareMin !== undefined && spareMin < (isStanding ? SPARE_AGAIN_MIN : 0);
}

/** Whether an alert stands, be it for the wall only. */
const isTold = ({ alerts }: Kitchen, key: string): boolean =>
  alerts[key] !== undefined || alerts[`${key}:wall`] !== undefined;

const MAY_HELP = "See what would help it: a fan, a warm cabinet, heat-set, drier air";

function offTrayWords(
  { name }: Order,
  { cookies: missing, areSpoiled }: OffTrays,
): [what: string, todo: string] {
  const where = areSpoiled ? "short: they were spoiled" : "not on trays yet";
  const what = clip(`${name}: ${cookies(missing)} ${where}`);
  return [what, "They cannot be ready by its pick-up: begin them now, or change the order"];
}

/** What to do once every tray only waits to be packed: no heat helps then. Once told so, until one has a layer to be laid. */
function packWords(scene: Scene, trays: readonly Tray[], wasToldSo: boolean): string | undefined {
  const { kitchen, forecasts, nowMs } = scene;
  const alive = trays.filter(({ standing }) => standing.stage !== "packed");
  if (!alive.every((tray) => nextAct(kitchen, tray).kind === "pack")) return undefined;
  const states = alive.map((tray) => readiness(kitchen, forecasts, tray, nowMs).is);
  if (!wasToldSo && !states.every((is) => is === "ready" || is === "check by touch")) return undefined;
  return states.includes("check by touch") ? "Check it by touch, then pack it" : "Pack it: it is dry";
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
    const share = standing(kitchen, prefix) === undefined ? 1 : WAIT_AGAIN;
    const longest = share * mayWaitMs(slack.min);
    const late = traysOf(order)
      .map((tray) => ({ tray, sinceMs: Math.max(openMs, waitsSinceMs(scene, tray) ?? nowMs) }))
      .filter(({ sinceMs }) => nowMs - sinceMs > longest)
      .toSorted((a, b) => a.sinceMs - b.sinceMs || a.tray.number - b.tray.number);
    const [first] = late;
    if (first === undefined) return [];
    return [
      {
        key: waitKey(scene, prefix, first.sinceMs),
        kind: "waiting-long",
        class: "prompt",
        what: clip(`${trayWords(late.map(({ tray }) => tray.number))} waiting too long for hands`),
        trays: late.map(({ tray }) => tray.number),
        todo: clip(`${order.name} ${hurryWords(slack, kitchen.settings.timeZone)}: take them up next`),
        told: told({ wall: true, leads: true }),
        orderId: order.id,
        sinceMs: first.sinceMs,
      },
    ];
  });
}

function hurryWords({ min, beforeMs }: Slack, timeZone: string): string {
  if (beforeMs !== undefined) return `must be packed before ${clockTime(beforeMs, timeZone)}`;
  return min < 0 ? "is short of time" : "has little time to spare";
}

/** A key that stands may end in ":wall": `sparing` adds that. */
const waitKey = (scene: Scene, prefix: string, sinceMs: number): string =>
  keyOf(scene, prefix, sinceMs).replace(/:wall$/, "");

/** A quarter of the spare time, at least 10 min and at most an hour. */
const mayWaitMs = (slackMin: number): number => Math.max(10, Math.min(60, slackMin / 4)) * MIN_MS;

/** Since when a tray waits for hands; past its latest time it still waits since its likeliest. */
function waitsSinceMs({ kitchen, forecasts, nowMs }: Scene, tray: Tray): number | undefined {
  const { stage } = tray.standing;
  if (stage !== "crusting" && stage !== "full-dry") return undefined;
  const ready = readiness(kitchen, forecasts, tray, nowMs);
  if (ready.is === "ready") return ready.sinceMs;
  if (ready.is !== "check by touch") return undefined;
  const ends = waitsOf(kitchen, forecasts, tray).map(({ reached, band }) => {
    if (reached !== undefined) return reached;
    return band === undefined || "never" in band ? 0 : band.likelyMs;
  });
  return Math.max(tray.films.at(-1)?.clockStartMs ?? 0, ...ends);
}
