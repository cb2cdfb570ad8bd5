import type { EventOf, KitchenEvent } from "#shared/kitchen/model/event.ts";
import type { DeviceKind } from "#shared/kitchen/model/vocabulary.ts";
import type { Formats } from "#shared/words/formats.ts";
import { terms as makeTerms } from "#shared/words/en/terms.ts";

type EventType = KitchenEvent["type"];
/** Whatever an event is about, by its name now; absent where that is gone. */
export interface EventNames {
  tray?: number | undefined;
  /** What it is about: a tool, place, icing, design, order, recipe or person. */
  subject?: string | undefined;
  /** Whom or what it went to. */
  to?: string | undefined;
  /** An act on a tray in its own words. */
  act?: string | undefined;
}
/** A kind of event without words is told as `other`. */
export type DoneWords = { [Type in EventType]?: (names: EventNames, event: EventOf<Type>) => string };

const DEVICES: Record<DeviceKind, string> = {
  phone: "phone",
  wall: "wall",
  bench: "bench",
  sensor: "sensor",
};

/** What was done, by whom and on which device: what a lead reads to find out. */
export const done = (format: Formats) => {
  const { name } = format;
  const { toolKinds, roles } = makeTerms(format);
  const tray = ({ tray }: EventNames): string => (tray === undefined ? "An archived tray" : `Tray ${tray}`);
  const of = ({ subject }: EventNames, otherwise: string): string =>
    subject === undefined ? otherwise : name(subject);
  const act = (names: EventNames): string => `${tray(names)}: ${names.act ?? "something was done"}`;
  const what: DoneWords = {
    "tray-assigned": act,
    "flooding-started": act,
    flooded: act,
    "touch-tested": act,
    "tray-moved": act,
    "heat-set-started": act,
    "cookie-set": act,
    "cookie-heat-started": act,
    "heat-set-ended": act,
    "problem-reported": act,
    packed: act,
    "act-taken-back": (names) => `${tray(names)}: an act was taken back`,
    "settings-changed": () => "The kitchen's settings were changed",
    "person-added": (names) => `${of(names, "Somebody")} joined`,
    "role-changed": (names, { role }) => `${of(names, "Somebody")} is now ${roles[role]}`,
    "hours-set": (names) => `${of(names, "Somebody")}: own hours were set`,
    "person-removed": (names) => `${of(names, "Somebody")} was removed`,
    "device-joined": (names, { as, isWaiting }) =>
      `${of(names, "Somebody")}: a ${DEVICES[as]} ${isWaiting ? "asked to be let in" : "joined"}`,
    "device-let-in": (names) => `${of(names, "Somebody")}: a device was let in`,
    "device-forgotten": (names) => `${of(names, "Somebody")}: a device was turned away or forgotten`,
    "place-put": (names) => `Place ${of(names, "")} was set`,
    "place-removed": () => "A place was removed",
    "tool-put": (names) => `${of(names, "A tool")} was set`,
    "tool-removed": () => "A tool was removed",
    "icing-put": (names) => `Icing ${of(names, "")} was set`,
    "icing-removed": () => "An icing was removed",
    "design-put": (names) => `Design ${of(names, "")} was saved`,
    "design-revised": (names) => `Design ${of(names, "")} was changed; trays under way keep it as it was`,
    "design-removed": () => "A design was removed",
    "recipe-put": (names) => `Recipe ${of(names, "")} was saved`,
    "recipe-removed": () => "A recipe was removed",
    "order-put": (names) => `Order ${of(names, "")} was saved`,
    "order-cancelled": () => "An order was cancelled",
    "cookies-given": (names, { count }) =>
      `${count} packed cookies went from ${of(names, "an order")} to ${name(names.to ?? "another")}`,
    "tray-added": (_names, { plan }) => `Tray ${plan.number} was added`,
    "tray-removed": (names) => `${tray(names)} was removed`,
    "tool-switched-on": (names) => `${of(names, "A tool")}: on`,
    "tool-kept-on": (names) => `${of(names, "A tool")}: still in use`,
    "tool-switched-off": (names) => `${of(names, "A tool")}: off`,
    "tool-handed-over": (names) => `${of(names, "A tool")} was handed to ${name(names.to ?? "somebody")}`,
    "tool-withdrawn": (names, { reason }) => `${of(names, "A tool")}: out of service, ${name(reason)}`,
    "tool-restored": (names) => `${of(names, "A tool")}: back in service`,
    "tool-temperature-read": (names, { tempC }) => `${of(names, "A tool")} was read at ${format.temp(tempC)}`,
    "reading-taken": (names, { reading }) =>
      `${of(names, "A place")}: air read at ${format.temp(reading.tempC)}, ${format.percent(reading.rhPct)}`,
    "batch-mixed": (names) => `A batch of ${of(names, "icing")} was mixed`,
    "batch-finished": (names) => `A batch of ${of(names, "icing")} was finished`,
    "batch-judged": (names, { wrong }) =>
      `A batch of ${of(names, "icing")} was said to be ${wrong === null ? "all right" : `wrong: ${name(wrong)}`}`,
    "batches-put-away": () => "Old batches were put away",
    "note-left": (_names, { text }) => (text === null ? "The note was dealt with" : `Note: ${name(text)}`),
    "caution-read": (_names, { toolKind }) => `Cautions read: ${toolKinds[toolKind]}`,
    "alert-raised": () => "An alert was raised",
    "alert-changed": () => "An alert changed",
    "alert-acknowledged": () => "An alert was seen",
    "alert-put-off": () => "An alert was put off",
    "alert-cleared": () => "An alert cleared",
    "trays-put-away": () => "Packed trays were put away",
  };
  return {
    what,
    other: "Something else was changed",
    kitchen: "the kitchen itself",
    somebody: "somebody",
    device: (kind: DeviceKind, owner: string | undefined) =>
      owner === undefined ? DEVICES[kind] : `${DEVICES[kind]} of ${name(owner)}`,
  };
};
