import type { PersonId } from "../../ids.ts";
import { OF_HEAT, type StandingAlert } from "../alert.ts";
import { NO_FORECASTS } from "../forecast.ts";
import type { Kitchen } from "../state.ts";
import { heatAlerts } from "./heat.ts";

const NOBODY: ReadonlySet<string> = new Set();

/**
 * The alerts of a phone that hears nothing from the server: those last heard, but of its holder's own heat what the server
 * would say by now, told as the lone warning that it is. Of others' heat it knows no better than what it last heard.
 */
export function alertsAlone(kitchen: Kitchen, personId: PersonId, nowMs: number): StandingAlert[] {
  const isOwnHeat = ({ kind, told }: Pick<StandingAlert, "kind" | "told">): boolean =>
    OF_HEAT.has(kind) && told.people.includes(personId);
  const due = heatAlerts({ kitchen, forecasts: NO_FORECASTS, nowMs, lostPeople: NOBODY });
  return [
    ...Object.values(kitchen.alerts).filter((alert) => !isOwnHeat(alert)),
    ...due.filter(isOwnHeat).map((alert) => kitchen.alerts[alert.key] ?? alone(alert, nowMs)),
  ];
}

function alone(alert: Omit<StandingAlert, "raisedAtMs">, nowMs: number): StandingAlert {
  const todo = alert.kind === "heat-running-long" ? "Take the heat off, look for cracks" : alert.todo;
  return {
    ...alert,
    todo: `No connection: the room is not told. ${todo}`,
    raisedAtMs: alert.sinceMs ?? nowMs,
  };
}
