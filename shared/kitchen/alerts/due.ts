import type { PersonId } from "#shared/ids.ts";
import { type AlertFact, type AlertGroup, GROUP_OF, type ActiveAlert } from "#shared/kitchen/model/alert.ts";
import { airAlerts } from "./air.ts";
import { filmAlerts } from "./films.ts";
import { heatAlerts } from "./heat.ts";
import { icingAlerts } from "./icing.ts";
import { orderAlerts } from "./orders.ts";
import { toolAlerts } from "./tools.ts";
import type { Scene } from "./scene.ts";
import { awaitsForecast } from "./awaiting.ts";
import type { Forecasts } from "#shared/kitchen/model/forecast.ts";
import { own } from "#shared/kitchen/model/own.ts";
import type { Kitchen } from "#shared/kitchen/model/state.ts";
import type { Role } from "#shared/kitchen/model/vocabulary.ts";

/** An urgent alert sounds again this often until someone acknowledges it, real time. */
export const SOUND_EVERY_MS = 20_000;

const RULES: readonly { group: AlertGroup; due: (scene: Scene) => AlertFact[] }[] = [
  { group: "heat", due: heatAlerts },
  { group: "tools", due: toolAlerts },
  { group: "films", due: filmAlerts },
  { group: "icing", due: icingAlerts },
  { group: "orders", due: orderAlerts },
  { group: "air", due: airAlerts },
];

/** Told of a group whose rule failed. */
export type OnRuleFailed = (group: AlertGroup, error: unknown) => void;

/**
 * Everything abnormal that needs someone at this moment. Looks at the alerts that stand as well, so that one matter keeps
 * its key and does not flicker about its threshold. `lostPeople`: whose phone has not been heard from lately. A rule that
 * throws stops no other: the alerts of its group stay as they stand, and `onRuleFailed` is told.
 */
export function dueAlerts(
  kitchen: Kitchen,
  forecasts: Forecasts,
  nowMs: number,
  lostPeople: ReadonlySet<string>,
  onRuleFailed?: OnRuleFailed,
): AlertFact[] {
  const scene: Scene = { kitchen, forecasts, nowMs, lostPeople };
  return RULES.flatMap(({ group, due }) => {
    const stand = Object.values(kitchen.alerts).filter(({ kind }) => GROUP_OF[kind] === group);
    let alerts: AlertFact[] = [];
    const others = (): ActiveAlert[] => {
      const keys = new Set(alerts.map(({ key }) => key));
      return stand.filter(({ key }) => !keys.has(key));
    };
    try {
      alerts = due(scene);
      return [...alerts, ...others().filter((alert) => awaitsForecast(scene, alert))];
    } catch (error) {
      onRuleFailed?.(group, error);
      return [...alerts, ...others()];
    }
  });
}

/** What to raise, what stands and now says something else, and the keys of what to clear. */
export function tendAlerts(
  kitchen: Kitchen,
  due: readonly AlertFact[],
): { raise: AlertFact[]; change: AlertFact[]; clear: string[] } {
  const keys = new Set(due.map((alert) => alert.key));
  const standing = ({ key }: AlertFact): ActiveAlert | undefined => own(kitchen.alerts, key);
  return {
    raise: due.filter((alert) => standing(alert) === undefined),
    change: due.filter((alert) => saysElse(standing(alert), alert)),
    clear: Object.keys(kitchen.alerts).filter((key) => !keys.has(key)),
  };
}

const saysElse = (was: ActiveAlert | undefined, is: AlertFact): boolean =>
  was !== undefined &&
  (["what", "todo", "told", "trays"] as const).some(
    (part) => JSON.stringify(was[part]) !== JSON.stringify(is[part]),
  );

/** Whether an alert is for this person. */
export const forPerson = ({ told }: AlertFact, personId: PersonId, role: Role): boolean =>
  told.everyone || told.people.includes(personId) || (told.leads && role === "lead");

/** Whether an alert is for the wall: what everyone is told is told there too. */
export const forWall = ({ told }: AlertFact): boolean => told.wall || told.everyone;

/** Whether an alert is for this screen: for the wall, or for whoever taps here. */
export const forScreen = (alert: AlertFact, personId: PersonId | undefined): boolean =>
  forWall(alert) || (personId !== undefined && alert.told.people.includes(personId));

/** Whether an alert shows now: one that was put off hides until that ends. */
export const isShown = (alert: ActiveAlert, nowMs: number): boolean =>
  alert.putOffUntilMs === undefined || alert.putOffUntilMs <= nowMs;

/**
 * When an alert last was due to sound, as of now: play it when that moment is later than the one played last. Undefined
 * while it is acknowledged or put off. Urgent ones sound every `everyMs` of the kitchen's clock, others once.
 */
export function sounding(alert: ActiveAlert, nowMs: number, everyMs = SOUND_EVERY_MS): number | undefined {
  if (alert.acknowledged !== undefined || !isShown(alert, nowMs)) return undefined;
  const fromMs = Math.max(alert.raisedAtMs, alert.putOffUntilMs ?? 0);
  if (alert.class !== "urgent") return fromMs;
  return fromMs + Math.max(0, Math.floor((nowMs - fromMs) / everyMs)) * everyMs;
}
