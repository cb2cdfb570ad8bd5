import type { Forecasting } from "#server/forecast/forecasting.ts";
import { asId } from "#shared/ids.ts";
import { HOUR_MS, MIN_MS } from "#shared/time.ts";
import type { Clock, Timers } from "./clock.ts";
import { type KitchenService, NotSaved } from "./kitchen-service.ts";

export interface UpkeepDeps {
  service: Pick<KitchenService, "system">;
  forecasting: Pick<Forecasting, "refresh">;
  clock: Pick<Clock, "nowMs">;
  timers: Pick<Timers, "every">;
  newId: () => string;
  /** Told each time alerts were looked for. */
  alertsChecked: () => void;
}

const ALERTS_EVERY_MS = 250;
const LOOK_EVERY_MS = 1000;
/** In kitchen time; at a fast clock no more often than is looked. */
const ARCHIVE_EVERY_MS = HOUR_MS;
const REFRESH_EVERY_MS = MIN_MS;

/** What a kitchen does by itself: it looks for alerts, refreshes forecasts, and archives what is long over. */
export function startUpkeep({ service, forecasting, clock, timers, newId, alertsChecked }: UpkeepDeps): {
  stop: () => void;
} {
  /** Whether it ran. Alerts are told all the same while the log cannot be written; whatever else failed, the service has said. */
  const ran = (type: "reconcile-alerts" | "archive"): Promise<boolean> =>
    service.system({ type, commandId: asId(newId()) }).then(
      () => true,
      (error: unknown) => error instanceof NotSaved,
    );
  const every = (periodMs: number, lookMs: number, lastAtMs: number, act: () => void): (() => void) => {
    let atMs = lastAtMs;
    return timers.every(lookMs, () => {
      if (clock.nowMs() - atMs < periodMs) return;
      atMs = clock.nowMs();
      act();
    });
  };
  const stops = [
    timers.every(ALERTS_EVERY_MS, () => void ran("reconcile-alerts").then((did) => did && alertsChecked())),
    every(ARCHIVE_EVERY_MS, ALERTS_EVERY_MS, -Infinity, () => void ran("archive")),
    every(REFRESH_EVERY_MS, LOOK_EVERY_MS, clock.nowMs(), forecasting.refresh),
  ];
  return { stop: () => stops.forEach((stop) => stop()) };
}
