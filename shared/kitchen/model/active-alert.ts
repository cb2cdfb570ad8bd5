import type { ActiveAlert, AlertKind, StoredAlert } from "./alert.ts";

/** What screens do with alerts that are raised, apart from the schemas of their facts, which a first screen need not load. */

/** Kinds that concern heat that is running, which does not wait: they cannot be put off. */
const OF_HEAT: ReadonlySet<AlertKind> = new Set<AlertKind>([
  "heat-running-long",
  "heat-near-stop",
  "heat-unwatched",
  "heat-unchecked",
  "set-check-by-touch",
]);

/** What a phone offers beside "Seen". */
const PHONE_ACTS: Readonly<Partial<Record<AlertKind, "tool" | "device">>> = {
  "tool-left-on": "tool",
  "device-waits": "device",
};

type OfKind = Pick<ActiveAlert, "kind">;

/** Whether an alert tells of heat that is running now. */
export const isOfHeat = ({ kind }: OfKind): boolean => OF_HEAT.has(kind);

export const phoneActOf = ({ kind }: OfKind): "tool" | "device" | undefined => PHONE_ACTS[kind];

export const activeAlert = (alert: StoredAlert, raisedAtMs: number): ActiveAlert => ({
  ...("told" in alert ? { ...alert, recipients: alert.told } : alert),
  raisedAtMs,
});

/**
 * An active alert, as it is now. It was raised when it was, and sounds no second time; but one that was seen, and now
 * names a tray that it did not, wants to be seen again.
 */
export function changedTo(was: ActiveAlert, is: StoredAlert): ActiveAlert {
  const { raisedAtMs, acknowledged, putOffUntilMs } = was;
  const isSeen = is.trays?.every((number) => was.trays?.includes(number)) ?? true;
  return {
    ...activeAlert(is, raisedAtMs),
    ...(acknowledged !== undefined && isSeen && { acknowledged }),
    ...(putOffUntilMs !== undefined && isSeen && { putOffUntilMs }),
  };
}

/** Whether an alert can be put off: neither what is urgent nor what concerns running heat. */
export const mayPutOff = (alert: Pick<ActiveAlert, "class" | "kind">): boolean =>
  alert.class !== "urgent" && !isOfHeat(alert);
