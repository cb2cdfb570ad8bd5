import type { PersonId } from "#shared/ids.ts";
import { type AlertFact, OF_HEAT, type ActiveAlert } from "#shared/kitchen/model/alert.ts";
import { SOUND_EVERY_MS } from "./due.ts";
import { NO_FORECASTS } from "#shared/kitchen/model/forecast.ts";
import type { Kitchen } from "#shared/kitchen/model/state.ts";
import { heatAlerts } from "./heat.ts";
import { told } from "./scene.ts";

const NOBODY: ReadonlySet<string> = new Set();

/**
 * The alerts of a phone that hears nothing from the server: those last heard, but of its holder's own heat what the server
 * would say by now, told as the lone warning that it is. Of others' heat it knows no better than what it last heard.
 */
export function offlineAlerts(kitchen: Kitchen, personId: PersonId, nowMs: number): ActiveAlert[] {
  const isOwnHeat = ({ kind, told: to }: Pick<ActiveAlert, "kind" | "told">): boolean =>
    OF_HEAT.has(kind) && to.people.includes(personId);
  let due: AlertFact[];
  try {
    due = heatAlerts({ kitchen, forecasts: NO_FORECASTS, nowMs, lostPeople: NOBODY });
  } catch {
    // Said in place of the alarms, and none that stands is taken away: the phone goes on all the same.
    return [...Object.values(kitchen.alerts), cannotCheck(personId, nowMs)];
  }
  return [
    ...Object.values(kitchen.alerts).filter((alert) => !isOwnHeat(alert)),
    ...due.filter(isOwnHeat).map((alert) => kitchen.alerts[alert.key] ?? alone(alert, nowMs)),
  ];
}

const cannotCheck = (personId: PersonId, nowMs: number): ActiveAlert => ({
  key: "heat-unwatched:alone",
  kind: "heat-unwatched",
  class: "urgent",
  what: "This phone cannot check heat alarms",
  todo: "No connection: the room is not told. Watch the tools yourself",
  told: told({ people: [personId] }),
  // Not anew with every look: it sounds as often as any other.
  raisedAtMs: nowMs - (nowMs % SOUND_EVERY_MS),
});

function alone(alert: Omit<ActiveAlert, "raisedAtMs">, nowMs: number): ActiveAlert {
  const todo = alert.kind === "heat-running-long" ? "Take the heat off, look for cracks" : alert.todo;
  return {
    ...alert,
    todo: `No connection: the room is not told. ${todo}`,
    raisedAtMs: alert.sinceMs ?? nowMs,
  };
}
