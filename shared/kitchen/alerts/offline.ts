import type { PersonId } from "#shared/ids.ts";
import { type ActiveAlert, type AlertFact, makeAlert } from "#shared/kitchen/model/alert.ts";
import { activeAlert, isOfHeat } from "#shared/kitchen/model/active-alert.ts";
import { NO_FORECASTS } from "#shared/kitchen/model/forecast.ts";
import type { Kitchen } from "#shared/kitchen/model/state.ts";
import { SOUND_EVERY_MS } from "./shown.ts";
import { heatAlerts } from "./heat.ts";

const NOBODY: ReadonlySet<string> = new Set();

/**
 * The alerts of a phone that hears nothing from the server: those last heard, but of its holder's own heat what the server
 * would raise by now, marked as this phone's own. Of others' heat it knows no better than what it last heard.
 */
export function offlineAlerts(kitchen: Kitchen, personId: PersonId, nowMs: number): ActiveAlert[] {
  const isOwnHeat = ({ kind, recipients }: Pick<ActiveAlert, "kind" | "recipients">): boolean =>
    isOfHeat({ kind }) && recipients.people.includes(personId);
  let due: AlertFact[];
  try {
    due = heatAlerts({ kitchen, forecasts: NO_FORECASTS, nowMs, lostPeople: NOBODY });
  } catch {
    // Said in place of the alarms, and no active one is taken away: the phone goes on all the same.
    return [...Object.values(kitchen.alerts), unchecked(personId, nowMs)];
  }
  return [
    ...Object.values(kitchen.alerts).filter((alert) => !isOwnHeat(alert)),
    ...due
      .filter(isOwnHeat)
      .map((alert) => kitchen.alerts[alert.key] ?? offline(alert, alert.sinceMs ?? nowMs)),
  ];
}

/** Not raised anew with every look: it sounds as often as any other. */
const unchecked = (personId: PersonId, nowMs: number): ActiveAlert =>
  offline(
    makeAlert("heat-unchecked", { people: [personId] }, { key: "heat-unchecked:offline" }),
    nowMs - (nowMs % SOUND_EVERY_MS),
  );

/** The leads cannot be asked to come: none of them hears of it. */
const offline = (alert: AlertFact, raisedAtMs: number): ActiveAlert => ({
  ...activeAlert(alert, raisedAtMs),
  recipients: { ...alert.recipients, leads: false },
  isOffline: true,
});
