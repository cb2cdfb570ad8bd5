import type { PersonId } from "../../ids.ts";
import type { By } from "#shared/kitchen/model/event.ts";
import type { Forecasts } from "#shared/kitchen/model/forecast.ts";
import type { Kitchen } from "#shared/kitchen/model/state.ts";

/** What the alert rules look at. */
export interface Scene {
  kitchen: Kitchen;
  forecasts: Forecasts;
  nowMs: number;
  /** People whose phone has not been heard from lately. */
  lostPeople: ReadonlySet<string>;
}

/** The person behind an act, if it was one. */
export const peopleOf = (by: By): PersonId[] => (by === "kitchen" ? [] : [by]);

/**
 * The key of a matter: that of its active alert, however the sums have moved since, else a new one by when it began. So one
 * matter is raised once.
 */
export function keyOf({ kitchen }: Scene, prefix: string, beganMs: number): string {
  return activeKey(kitchen, prefix) ?? `${prefix}:${Math.round(beganMs)}`;
}

/** The key of the active alert about a matter. */
export const activeKey = (kitchen: Kitchen, prefix: string): string | undefined =>
  Object.keys(kitchen.alerts).find((key) => key.startsWith(`${prefix}:`));

/**
 * The key of a matter that is certain people's: that of its active alert, where all of them were recipients. Where it was not, as
 * after a hand-over, a new one, under which they are alerted; the old one clears.
 */
export function keyFor(scene: Scene, prefix: string, beganMs: number, people: readonly PersonId[]): string {
  const { recipients: was } = scene.kitchen.alerts[activeKey(scene.kitchen, prefix) ?? ""] ?? {};
  const newcomer = was === undefined ? undefined : people.find((person) => !was.people.includes(person));
  return newcomer === undefined
    ? keyOf(scene, prefix, beganMs)
    : `${prefix}:${newcomer}:${Math.round(beganMs)}`;
}
