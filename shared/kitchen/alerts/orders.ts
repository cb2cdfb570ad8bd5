import type { AlertFact } from "../alert.ts";
import { byName } from "../by-name.ts";
import { openSinceMs } from "../day.ts";
import { readiness, waitsOf } from "../route.ts";
import type { Kitchen, Tray } from "../state.ts";
import type { Order } from "../vocabulary.ts";
import { clip, keyOf, MIN_MS, type Scene, standing, told, trayWords } from "./scene.ts";

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
  return [
    ...sparing(
      scene.kitchen,
      orders.flatMap((order) => atRisk(scene, order)),
    ),
    ...sparing(scene.kitchen, waiting(scene, orders)),
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

function atRisk(scene: Scene, order: Order): AlertFact[] {
  const outlook = scene.forecasts.orders[order.id];
  if (outlook === undefined) return [];
  const key = `pick-up-at-risk:${order.id}:${order.pickUpAtMs}`;
  const isNever = "never" in outlook.finish;
  const about = { kind: "pick-up-at-risk", orderId: order.id } as const;
  if (isNever || isShort(scene, key, outlook.spareMin)) {
    return [
      {
        ...about,
        key,
        class: "prompt",
        what: clip(
          `${order.name} ${isNever ? "will not dry where it stands" : "is likely to miss its pick-up"}`,
        ),
        todo: "See what would help it: a fan, a warm cabinet, heat-set, drier air",
        told: told({ wall: true, leads: true }),
      },
    ];
  }
  const noteKey = `${key}:latest`;
  if (!isShort(scene, noteKey, outlook.spareWorstMin)) return [];
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

/** Below nothing to spare; once told, until there is some again. */
function isShort({ kitchen }: Scene, key: string, spareMin: number | undefined): boolean {
  const isStanding = kitchen.alerts[key] !== undefined || kitchen.alerts[`${key}:wall`] !== undefined;
  return spareMin !== undefined && spareMin < (isStanding ? SPARE_AGAIN_MIN : 0);
}

/** One alert an order, however many of its trays wait. Only while the kitchen is open, and counted from its opening. */
function waiting(scene: Scene, orders: readonly Order[]): AlertFact[] {
  const { kitchen, forecasts, nowMs } = scene;
  const openMs = openSinceMs(kitchen.settings, nowMs);
  if (openMs === undefined) return [];
  const traysOf = byName(Object.values(kitchen.trays), (tray) => tray.orderId);
  return orders.flatMap((order): AlertFact[] => {
    const spareMin = forecasts.orders[order.id]?.spareMin;
    if (spareMin === undefined || spareMin >= NO_HURRY_MIN) return [];
    const prefix = `waiting-long:${order.id}`;
    const share = standing(kitchen, prefix) === undefined ? 1 : WAIT_AGAIN;
    const longest = share * mayWaitMs(spareMin);
    const late = (traysOf.get(order.id) ?? [])
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
        todo: clip(
          `${order.name} ${spareMin < 0 ? "is short of time" : "has little time to spare"}: take them up next`,
        ),
        told: told({ wall: true, leads: true }),
        orderId: order.id,
        sinceMs: first.sinceMs,
      },
    ];
  });
}

/** A key that stands may end in ":wall": `sparing` adds that. */
const waitKey = (scene: Scene, prefix: string, sinceMs: number): string =>
  keyOf(scene, prefix, sinceMs).replace(/:wall$/, "");

/** A quarter of the spare time, at least 10 min and at most an hour. */
const mayWaitMs = (spareMin: number): number => Math.max(10, Math.min(60, spareMin / 4)) * MIN_MS;

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
