import type { ActiveAlert } from "#shared/kitchen/model/alert.ts";
import type { AlertClass } from "#shared/kitchen/model/alert-kinds.ts";
import { SOUND_EVERY_MS, sounding } from "#shared/kitchen/alerts/shown.ts";

const WORST_FIRST: readonly AlertClass[] = ["urgent", "prompt", "note"];

/**
 * Plays the worst of what is due to sound; to be asked at every change and about once a second. `nowMs` is kitchen time that
 * runs `speed` times real time: what is urgent sounds again every 20 s of the ear's time.
 */
export function createSounder(
  play: (kind: AlertClass) => void,
): (alerts: readonly ActiveAlert[], nowMs: number, speed: number) => void {
  let played: ReadonlyMap<string, number> = new Map();
  return (alerts, nowMs, speed) => {
    const dueMs = (alert: ActiveAlert): number => sounding(alert, nowMs, SOUND_EVERY_MS * speed) ?? 0;
    const due = alerts.filter((alert) => dueMs(alert) > (played.get(alert.key) ?? 0));
    played = new Map(alerts.map((alert) => [alert.key, Math.max(dueMs(alert), played.get(alert.key) ?? 0)]));
    const worst = WORST_FIRST.find((kind) => due.some((alert) => alert.class === kind));
    if (worst !== undefined) play(worst);
  };
}
