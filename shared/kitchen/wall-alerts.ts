import { formatStopwatch } from "../units.ts";
import { leadNames } from "./alerts/heat.ts";
import type { AlertKind, StandingAlert } from "./alert.ts";
import type { PersonId } from "../ids.ts";
import { forScreen, forWall } from "./alerts.ts";
import { heatHolder, standsAt, type HeatSet, type Kitchen } from "./state.ts";

/** An alert at the top of the wall. */
export interface WallAlert {
  key: string;
  class: StandingAlert["class"];
  trayNumber?: number;
  /** What to do, in a few words. */
  head: string;
  /** Who, where, and what is the matter. */
  body: string;
  countFromMs: number;
  acknowledgedBy?: string;
}

/** Told in their own place: the change line, the lane, the tile and the order's card. */
const TOLD_ELSEWHERE: ReadonlySet<AlertKind> = new Set([
  "air-changed",
  "sensor-silent",
  "will-not-dry-here",
  "waiting-long",
  "pick-up-at-risk",
]);

/**
 * Alerts for the top of the wall: urgent first, of these what nobody has acknowledged, then by how long they have stood. A
 * bench (`me`) has those of whatever is done there as well.
 */
export function wallAlerts(kitchen: Kitchen, me?: PersonId): WallAlert[] {
  return Object.values(kitchen.alerts)
    .filter((alert) => forScreen(alert, me) && !TOLD_ELSEWHERE.has(alert.kind))
    .toSorted(
      (a, b) =>
        Number(a.class !== "urgent") - Number(b.class !== "urgent") ||
        Number(a.acknowledged !== undefined) - Number(b.acknowledged !== undefined) ||
        countFrom(a) - countFrom(b) ||
        (a.key < b.key ? -1 : 1),
    )
    .map((alert) => itemOf(kitchen, alert));
}

const countFrom = (alert: StandingAlert): number => alert.sinceMs ?? alert.raisedAtMs;

function itemOf(kitchen: Kitchen, alert: StandingAlert): WallAlert {
  const { acknowledged, trayNumber } = alert;
  return {
    key: alert.key,
    class: alert.class,
    ...(trayNumber === undefined ? {} : { trayNumber }),
    ...wordsOf(kitchen, alert),
    countFromMs: countFrom(alert),
    ...(acknowledged === undefined
      ? {}
      : { acknowledgedBy: kitchen.people[acknowledged.by]?.name ?? "someone" }),
  };
}

/** Few words across the room, the rest beside them. */
function wordsOf(kitchen: Kitchen, alert: StandingAlert): { head: string; body: string } {
  const where = whereWords(kitchen, alert);
  const stop = formatStopwatch(heatOf(kitchen, alert)?.limits.stopByS ?? 0);
  const words: Partial<Record<AlertKind, [head: string, body: string]>> = {
    "heat-running-long": [
      "Stop the heat",
      alert.told.leads ? `over a minute too long: ${leadNames(kitchen)}, go and end it` : "",
    ],
    "heat-near-stop": ["Touch it now", "heat nearly at its limit, phone went out of reach"],
    "heat-unwatched": ["Watch this heat", `phone went out of reach, stop by ${stop}`],
    "tool-left-on": ["Switch it off", "on, no tray under it"],
    "oven-too-hot": ["Oven too hot", "trays out with dry mitts, turn it down"],
  };
  // What only a bench is told is its own: no phone went out of reach.
  const [head, body] = (forWall(alert) ? words[alert.kind] : undefined) ?? [alert.what, alert.todo];
  return { head, body: [where, body].filter((part) => part.length > 0).join(" · ") };
}

function heatOf(kitchen: Kitchen, { trayId }: StandingAlert): HeatSet | undefined {
  const standing = kitchen.trays[trayId ?? ""]?.standing;
  return standing?.stage === "heat-set" ? standing.heat : undefined;
}

/** Who has it in hand, and the tool, or else the place. */
function whereWords(kitchen: Kitchen, alert: StandingAlert): string {
  const tray = kitchen.trays[alert.trayId ?? ""];
  const heat = heatOf(kitchen, alert);
  const tool = kitchen.tools[alert.toolId ?? heat?.toolId ?? ""];
  const toolHolder = tool?.use.status === "on" ? tool.use.holder : undefined;
  const holder = heat === undefined ? toolHolder : heatHolder(kitchen, heat);
  const place = kitchen.places[alert.placeId ?? (tray === undefined ? "" : standsAt(tray).placeId)];
  const parts = [kitchen.people[holder ?? ""]?.name, tool?.name ?? place?.name];
  return parts.filter((part) => part !== undefined).join(" · ");
}
