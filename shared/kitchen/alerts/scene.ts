import type { PersonId } from "../../ids.ts";
import type { Recipients } from "#shared/kitchen/model/alert.ts";
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

const NOBODY: Recipients = { wall: false, everyone: false, leads: false, people: [] };

/** Who is told; whoever is not named is not. */
export const told = (to: Partial<Recipients>): Recipients => ({ ...NOBODY, ...to });

/** The person behind an act, if it was one. */
export const peopleOf = (by: By): PersonId[] => (by === "kitchen" ? [] : [by]);

export const nameOf = ({ kitchen }: Scene, by: By): string =>
  by === "kitchen" ? "the kitchen" : (kitchen.people[by]?.name ?? "someone");

/**
 * The key of a matter: the one that stands, however the sums have moved since, else a new one by when it began. So one
 * matter fires once.
 */
export function keyOf({ kitchen }: Scene, prefix: string, beganMs: number): string {
  return standing(kitchen, prefix) ?? `${prefix}:${Math.round(beganMs)}`;
}

/** The key of the alert that stands for a matter. */
export const standing = (kitchen: Kitchen, prefix: string): string | undefined =>
  Object.keys(kitchen.alerts).find((key) => key.startsWith(`${prefix}:`));

/**
 * The key of a matter that is certain people's: the one that stands, where it was told to all of them. Where it was not, as
 * after a hand-over, a new one, under which they are told; the old one clears.
 */
export function keyFor(scene: Scene, prefix: string, beganMs: number, people: readonly PersonId[]): string {
  const { told: was } = scene.kitchen.alerts[standing(scene.kitchen, prefix) ?? ""] ?? {};
  const newcomer = was === undefined ? undefined : people.find((person) => !was.people.includes(person));
  return newcomer === undefined
    ? keyOf(scene, prefix, beganMs)
    : `${prefix}:${newcomer}:${Math.round(beganMs)}`;
}

const LINE = 140;

/** A line that fits the alert's fields, however long the names in it. */
export const clip = (text: string): string =>
  text.length <= LINE ? text : `${text.slice(0, LINE - 1).trimEnd()}…`;
