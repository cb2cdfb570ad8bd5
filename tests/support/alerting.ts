import { expect } from "vitest";
import type { AlertFact, AlertKind } from "#shared/kitchen/model/alert.ts";
import { dueAlerts } from "#shared/kitchen/alerts/due.ts";
import type { Scene } from "./scene.ts";

/** What is due at the scene's now. */
export const dueNow = (scene: Scene): AlertFact[] =>
  dueAlerts(scene.kitchen, scene.forecasts, scene.nowMs, scene.lostPeople) as AlertFact[];

export const dueOf = (scene: Scene, kind: AlertKind): AlertFact[] =>
  dueNow(scene).filter((alert) => alert.kind === kind);

/** The kitchen tends its alerts; returns the kinds raised and cleared. */
export function tend(scene: Scene): { raised: string[]; cleared: string[] } {
  const { by, role } = scene;
  const before = scene.events.length;
  scene.by = "kitchen";
  scene.role = "kitchen";
  scene.act("reconcile-alerts", {});
  scene.by = by;
  scene.role = role;
  const events = scene.events.slice(before);
  return {
    raised: events.flatMap((event) => (event.type === "alert-raised" ? [event.alert.key] : [])),
    cleared: events.flatMap((event) => (event.type === "alert-cleared" ? [event.key] : [])),
  };
}

/** Moves the clock on in steps, tending at each; returns every key raised, in order. */
export function tendThrough(scene: Scene, forMs: number, stepMs: number): string[] {
  const raised: string[] = [];
  for (const endMs = scene.nowMs + forMs; scene.nowMs < endMs; scene.later(stepMs))
    raised.push(...tend(scene).raised);
  expect(new Set(raised).size).toBe(raised.length);
  return raised;
}
