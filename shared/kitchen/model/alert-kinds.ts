import * as v from "valibot";
import { moment, oneOf, whole } from "#shared/fields.ts";
import { DeviceId, IcingId, OrderId, PersonId, PlaceId, ToolId, TrayId } from "#shared/ids.ts";
import { Consistency, DeviceKind, ToolKind } from "./vocabulary.ts";

/** Alerts that are checked together: a rule that fails leaves those of the other groups alone. */
export type AlertGroup = "heat" | "tools" | "films" | "icing" | "orders" | "air" | "people";

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

/** What decides who is alerted, as far as a kind's rule looks at it. */
export interface Concerned {
  people?: readonly PersonId[];
  /** The wall speaks for a holder whose phone is lost. */
  isPhoneLost?: boolean;
  /** Long enough past its limit that the leads end it. */
  isForLeads?: boolean;
}

/** Everything about one kind of alert but what screens do with it (`active-alert.ts`), its rule (`kitchen/alerts`) and its words (`words`, section `alerts`). */
interface Definition {
  group: AlertGroup;
  class: AlertClass;
  /** The facts it carries. */
  facts: v.ObjectEntries;
  recipients: (who: Concerned) => Partial<Recipients>;
  /** It rests on forecasts of this: while they are missing, as just after a start, it stays as it is. */
  forecastOf?: "film" | "order" | "place";
  /** The wall shows it in its own place: the line of changes, a lane, a tile, an order's card. */
  isElsewhereOnWall?: true;
}

const seconds = v.pipe(v.number(), v.minValue(0));
const tray = { trayId: TrayId, trayNumber: whole(1, 9999) };
const heat = {
  ...tray,
  toolId: ToolId,
  toolKind: ToolKind,
  holderId: v.optional(PersonId),
  /** When this cookie's lap, or the chamber's heat, began: the alert counts up from then. */
  sinceMs: moment,
};
const film = { ...tray, layer: whole(0, 99) };
const trayNumbers = v.array(whole(1, 9999));
const cookies = whole(1, 1_000_000);

/** One entry a kind. To add an alert: its entry here, its rule, its words. */
export const ALERTS = {
  "heat-running-long": {
    group: "heat",
    class: "urgent",
    facts: heat,
    recipients: ({ people = [], isForLeads = false }) => ({
      wall: true,
      everyone: true,
      leads: isForLeads,
      people: [...people],
    }),
  },
  "heat-near-stop": {
    group: "heat",
    class: "prompt",
    facts: { ...heat, stopByS: seconds, isPhoneLost: v.boolean() },
    // There may be no wall in sight: the leads' phones are alerted with it.
    recipients: ({ people = [], isPhoneLost = false }) => ({
      wall: isPhoneLost,
      leads: isPhoneLost,
      people: [...people],
    }),
  },
  "heat-unwatched": {
    group: "heat",
    class: "prompt",
    facts: { ...heat, checkFromS: seconds, stopByS: seconds },
    recipients: () => ({ wall: true }),
  },
  /** Never stored: a phone without a connection that cannot work its own heat out. */
  "heat-unchecked": {
    group: "heat",
    class: "urgent",
    facts: {},
    recipients: ({ people = [] }) => ({ people: [...people] }),
  },
  "set-check-by-touch": {
    group: "heat",
    class: "prompt",
    facts: { ...heat, isPhoneLost: v.boolean() },
    recipients: ({ people = [], isPhoneLost = false }) => ({ wall: isPhoneLost, people: [...people] }),
  },
  "tool-left-on": {
    group: "tools",
    class: "urgent",
    facts: { toolId: ToolId, holderId: PersonId, sinceMs: moment },
    recipients: ({ people = [] }) => ({ wall: true, leads: true, people: [...people] }),
  },
  "oven-too-hot": {
    group: "tools",
    class: "urgent",
    facts: { toolId: ToolId, toolKind: ToolKind, sinceMs: moment },
    recipients: ({ people = [] }) => ({ wall: true, leads: people.length === 0, people: [...people] }),
  },
  "bubbles-last-chance": {
    group: "films",
    class: "prompt",
    /** `isInHand`: the tray is still being flooded, and its first cookies are the oldest. */
    facts: { ...film, isInHand: v.boolean() },
    recipients: ({ people = [] }) => ({ people: [...people] }),
    forecastOf: "film",
  },
  "will-sink": {
    group: "films",
    class: "prompt",
    facts: { ...film, risk: oneOf(["some", "most"]) },
    recipients: ({ people = [] }) => ({ people: [...people] }),
    forecastOf: "film",
  },
  "icing-too-old": {
    group: "icing",
    class: "prompt",
    facts: {
      ...tray,
      icingId: IcingId,
      consistency: Consistency,
      useByAtMs: moment,
      /** When the layer was begun that it is for. */
      startedAtMs: moment,
    },
    recipients: ({ people = [] }) => ({ people: [...people] }),
  },
  "waiting-long": {
    group: "orders",
    class: "prompt",
    facts: {
      orderId: OrderId,
      trays: trayNumbers,
      hurry: v.variant("is", [
        v.object({ is: v.literal("before closing"), packBeforeMs: moment }),
        v.object({ is: v.literal("short of time") }),
        v.object({ is: v.literal("little to spare") }),
      ]),
      sinceMs: moment,
    },
    recipients: () => ({ wall: true, leads: true }),
    forecastOf: "order",
    isElsewhereOnWall: true,
  },
  "pick-up-at-risk": {
    group: "orders",
    /** A note where only the latest finish misses. */
    class: "prompt",
    facts: {
      orderId: OrderId,
      risk: v.variant("is", [
        v.object({ is: v.literal("not on trays"), cookies }),
        v.object({ is: v.literal("spoiled"), cookies }),
        v.object({ is: v.literal("never dries") }),
        v.object({
          is: v.literal("late"),
          hasMissed: v.boolean(),
          help: oneOf(["advice", "pack", "touch, then pack"]),
        }),
        v.object({ is: v.literal("may be late") }),
      ]),
    },
    recipients: ({ isForLeads = true }) => ({ wall: true, leads: isForLeads }),
    forecastOf: "order",
    isElsewhereOnWall: true,
  },
  "order-short": {
    group: "orders",
    class: "prompt",
    facts: { orderId: OrderId, cookies },
    recipients: () => ({ leads: true }),
  },
  "will-not-dry-here": {
    group: "air",
    class: "prompt",
    facts: { placeId: PlaceId, trays: trayNumbers },
    recipients: () => ({ wall: true, leads: true }),
    forecastOf: "place",
    isElsewhereOnWall: true,
  },
  "air-changed": {
    group: "air",
    class: "note",
    facts: {
      placeId: PlaceId,
      /** Whole points of relative humidity; trays that now come later or sooner. */
      rhPctBy: whole(-100, 100),
      later: whole(0, 9999),
      sooner: whole(0, 9999),
      sinceMs: moment,
    },
    recipients: () => ({ wall: true }),
    isElsewhereOnWall: true,
  },
  "sensor-silent": {
    group: "air",
    class: "note",
    facts: { placeId: PlaceId, sinceMs: moment },
    recipients: () => ({ wall: true }),
    isElsewhereOnWall: true,
  },
  "device-waits": {
    group: "people",
    class: "prompt",
    /** `holderId`: whose name it typed; with `isLead` it would lead. */
    facts: { deviceId: DeviceId, holderId: PersonId, as: DeviceKind, isLead: v.boolean(), sinceMs: moment },
    recipients: () => ({ leads: true }),
  },
} as const satisfies Record<string, Definition>;

export type AlertKind = keyof typeof ALERTS;
export const ALERT_KINDS = Object.keys(ALERTS) as [AlertKind, ...AlertKind[]];
export const definitionOf = (kind: AlertKind): Definition => ALERTS[kind];
