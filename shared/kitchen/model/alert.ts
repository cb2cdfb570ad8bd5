import * as v from "valibot";
import { line, moment, oneOf, whole } from "#shared/fields.ts";
import { OrderId, PersonId, PlaceId, ToolId, TrayId } from "#shared/ids.ts";

/** The rows of the alert table (SPEC, A rules): something abnormal that needs someone now. */
export const AlertKind = oneOf([
  "heat-running-long",
  "heat-near-stop",
  "heat-unwatched",
  "tool-left-on",
  "oven-too-hot",
  "bubbles-last-chance",
  "will-sink",
  "set-check-by-touch",
  "waiting-long",
  "pick-up-at-risk",
  "order-short",
  "will-not-dry-here",
  "air-changed",
  "sensor-silent",
  "icing-too-old",
]);
export type AlertKind = v.InferOutput<typeof AlertKind>;

/** Alerts that are checked together: a rule that fails leaves those of the other groups be. */
export type AlertGroup = "heat" | "tools" | "films" | "icing" | "orders" | "air";
export const GROUP_OF: Readonly<Record<AlertKind, AlertGroup>> = {
  "heat-running-long": "heat",
  "heat-near-stop": "heat",
  "heat-unwatched": "heat",
  "set-check-by-touch": "heat",
  "tool-left-on": "tools",
  "oven-too-hot": "tools",
  "bubbles-last-chance": "films",
  "will-sink": "films",
  "icing-too-old": "icing",
  "waiting-long": "orders",
  "pick-up-at-risk": "orders",
  "order-short": "orders",
  "will-not-dry-here": "air",
  "air-changed": "air",
  "sensor-silent": "air",
};

export const AlertClass = oneOf(["urgent", "prompt", "note"]);
export type AlertClass = v.InferOutput<typeof AlertClass>;

/** Who an alert is for, besides the log. */
export const Recipients = v.object({
  wall: v.boolean(),
  everyone: v.boolean(),
  leads: v.boolean(),
  people: v.array(PersonId),
});
export type Recipients = v.InferOutput<typeof Recipients>;

/** An alert as it was raised. `key` is made from what it is about and when that began, so one matter fires once. */
export const AlertFact = v.object({
  key: line(120),
  kind: AlertKind,
  class: AlertClass,
  /** What is wrong, and what to do: one short line each. */
  what: line(140),
  todo: line(140),
  told: Recipients,
  trayId: v.optional(TrayId),
  trayNumber: v.optional(v.number()),
  toolId: v.optional(ToolId),
  orderId: v.optional(OrderId),
  /** The trays it names, by number, where it is about several. */
  trays: v.optional(v.array(whole(1, 9999))),
  placeId: v.optional(PlaceId),
  /** What the alert counts up from, where it does (a heat-set's start). */
  sinceMs: v.optional(moment),
});
export type AlertFact = v.InferOutput<typeof AlertFact>;

/** An alert that stands: raised and not cleared. */
export interface ActiveAlert extends AlertFact {
  raisedAtMs: number;
  acknowledged?: { by: PersonId; atMs: number };
  putOffUntilMs?: number;
}

/**
 * An alert that stands, as it is now. It was raised when it was, and sounds no second time; but one that was seen, and now
 * names a tray that it did not, wants to be seen again.
 */
export function changedTo(was: ActiveAlert, is: AlertFact): ActiveAlert {
  const { raisedAtMs, acknowledged, putOffUntilMs } = was;
  const isSeen = is.trays?.every((number) => was.trays?.includes(number)) ?? true;
  return {
    ...is,
    raisedAtMs,
    ...(acknowledged !== undefined && isSeen && { acknowledged }),
    ...(putOffUntilMs !== undefined && isSeen && { putOffUntilMs }),
  };
}

/** What is told of heat that is running: it does not wait. */
export const OF_HEAT: ReadonlySet<AlertKind> = new Set<AlertKind>([
  "set-check-by-touch",
  "heat-unwatched",
  "heat-near-stop",
  "heat-running-long",
]);

/** Whether an alert can be put off: neither what is urgent nor what is told of running heat. */
export const mayPutOff = (alert: Pick<AlertFact, "class" | "kind">): boolean =>
  alert.class !== "urgent" && !OF_HEAT.has(alert.kind);
