import type { StandingAlert } from "../alert.ts";
import { NO_FORECASTS } from "../forecast.ts";
import type { Kitchen } from "../state.ts";
import { heatAlerts } from "./heat.ts";
import { clip } from "./scene.ts";

const NOBODY: ReadonlySet<string> = new Set();

/**
 * What a screen that hears nothing from the server must say of heat by itself: the alerts that the server would raise by
 * now, each told as the lone warning that it is. Those that stand already are left out.
 */
export const heatAlone = (kitchen: Kitchen, nowMs: number): StandingAlert[] =>
  heatAlerts({ kitchen, forecasts: NO_FORECASTS, nowMs, lostPeople: NOBODY })
    .filter(({ key }) => kitchen.alerts[key] === undefined)
    .map((alert) => ({
      ...alert,
      todo: clip(`No connection: the room is not told. ${alert.todo}`),
      raisedAtMs: alert.sinceMs ?? nowMs,
    }));
