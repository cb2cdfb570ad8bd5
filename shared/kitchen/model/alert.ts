import * as v from "valibot";
import { line, moment, oneOf, whole } from "#shared/fields.ts";
import { type DeviceId, OrderId, PersonId, PlaceId, ToolId, TrayId } from "#shared/ids.ts";
import {
  ALERT_KINDS,
  AlertClass,
  type ALERTS,
  type AlertKind,
  type Concerned,
  definitionOf,
  Recipients,
} from "./alert-kinds.ts";
import type { ToolKind } from "./vocabulary.ts";

export type { AlertKind };

/** `key` is made from what it is about and when that began, so one matter is raised once. */
interface Raised {
  key: string;
  class: AlertClass;
  recipients: Recipients;
}
type OwnFacts<Kind extends AlertKind> = (typeof ALERTS)[Kind]["facts"] extends infer Entries extends
  v.ObjectEntries
  ? v.InferOutput<v.ObjectSchema<Entries, undefined>>
  : never;
export type FactOf<Kind extends AlertKind> = Raised & { kind: Kind } & OwnFacts<Kind>;

/** What an alert of any kind may be about. */
export interface AlertAbout {
  trayId?: TrayId | undefined;
  trayNumber?: number | undefined;
  toolId?: ToolId | undefined;
  toolKind?: ToolKind | undefined;
  holderId?: PersonId | undefined;
  orderId?: OrderId | undefined;
  placeId?: PlaceId | undefined;
  /** The device that waits to be let in. */
  deviceId?: DeviceId | undefined;
  /** The trays it names, by number, where it is about several. */
  trays?: number[] | undefined;
  /** What the alert counts up from, where it does. */
  sinceMs?: number | undefined;
}

/** An alert as it was raised: facts, which `words` turns into sentences where it is shown. */
export type AlertFact = { [Kind in AlertKind]: FactOf<Kind> }[AlertKind] & AlertAbout;

const raised = { key: line(120), class: AlertClass, recipients: Recipients };
/** One shape a kind. That these are the shapes of the type above is beyond what can be inferred. */
export const AlertFact = v.variant(
  "kind",
  ALERT_KINDS.map((kind) => v.object({ kind: v.literal(kind), ...raised, ...definitionOf(kind).facts })),
) as unknown as v.GenericSchema<unknown, AlertFact>;

/** An alert of the first logs, which kept its sentences; it stands in them until it is reconciled. */
const OldAlert = v.object({
  key: line(120),
  kind: oneOf(ALERT_KINDS),
  class: AlertClass,
  what: line(140),
  todo: line(140),
  told: Recipients,
  trayId: v.optional(TrayId),
  trayNumber: v.optional(v.number()),
  toolId: v.optional(ToolId),
  orderId: v.optional(OrderId),
  trays: v.optional(v.array(whole(1, 9999))),
  placeId: v.optional(PlaceId),
  sinceMs: v.optional(moment),
});
type OldAlert = v.InferOutput<typeof OldAlert>;

/** An alert as a log may hold it. */
export const StoredAlert = v.union([AlertFact, OldAlert]);
export type StoredAlert = v.InferOutput<typeof StoredAlert>;

interface AlertState {
  raisedAtMs: number;
  acknowledged?: { by: PersonId; atMs: number };
  putOffUntilMs?: number;
  /** This phone's own warning while it hears nothing from the server. */
  isOffline?: true;
}

/** An alert that is raised and not cleared. */
export type ActiveAlert = (AlertFact | (OldAlert & Raised & AlertAbout)) & AlertState;

/** Makes an alert of a kind, with the class and recipients of its definition. */
export const makeAlert = <Kind extends AlertKind>(
  kind: Kind,
  who: Concerned,
  facts: OwnFacts<Kind> & { key: string; class?: AlertClass },
): AlertFact => {
  const { class: usual, recipients } = definitionOf(kind);
  const named: Recipients = {
    wall: false,
    everyone: false,
    leads: false,
    people: [],
    ...recipients(who),
  };
  return { kind, class: usual, recipients: named, ...facts } as unknown as AlertFact;
};
