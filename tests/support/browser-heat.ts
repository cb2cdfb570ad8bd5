import type { LogLine } from "./kitchen-server.ts";

/** The kitchen's hot-air tool, as a lead puts it in; the test says its cap and id. */
export const HOT_AIR = {
  name: "Hot air 1",
  kind: "hot-air",
  airC: 270,
  maxAirC: 350,
  distanceCm: 14,
  nozzleMm: 25,
  coolDownMin: 10,
};

interface AlertRaised extends LogLine {
  alert: { key: string; kind: string; class: string; recipients: { wall: boolean } };
}
interface HeatStarted extends LogLine {
  limits: { stopByS: number };
}

/** Alerts that were raised, in an exported log. */
export const raised = (log: readonly LogLine[]): AlertRaised[] =>
  (log as AlertRaised[]).filter(({ type }) => type === "alert-raised");

/** How a tray's heat-set began. */
export const startOf = (log: readonly LogLine[], trayId: string): HeatStarted =>
  (log as HeatStarted[]).find((line) => line.type === "heat-set-started" && line.trayId === trayId)!;
