import type { ActiveAlert, AlertFact } from "#shared/kitchen/model/alert.ts";
import { type AlertGroup, definitionOf } from "#shared/kitchen/model/alert-kinds.ts";
import { airAlerts } from "./air.ts";
import { filmAlerts } from "./films.ts";
import { heatAlerts } from "./heat.ts";
import { icingAlerts } from "./icing.ts";
import { orderAlerts } from "./orders.ts";
import { peopleAlerts } from "./people.ts";
import { toolAlerts } from "./tools.ts";
import type { Scene } from "./scene.ts";
import { awaitsForecast } from "./awaiting.ts";
import { type Forecasts, NO_FORECASTS } from "#shared/kitchen/model/forecast.ts";
import { byName, own, remembered } from "#shared/collections.ts";
import type { Kitchen } from "#shared/kitchen/model/state.ts";

interface Rule {
  group: AlertGroup;
  due: (scene: Scene) => AlertFact[];
  /** Two servers of a kitchen may find it a little differently. */
  isByForecasts?: true;
}

const RULES: readonly Rule[] = [
  { group: "heat", due: heatAlerts },
  { group: "tools", due: toolAlerts },
  { group: "films", due: filmAlerts, isByForecasts: true },
  { group: "icing", due: icingAlerts },
  { group: "orders", due: orderAlerts, isByForecasts: true },
  { group: "air", due: airAlerts, isByForecasts: true },
  { group: "people", due: peopleAlerts },
];

/** What is due now, or an active alert that stays as it is. */
export type DueAlert = AlertFact | ActiveAlert;

/** Called with a group whose rule failed. */
export type OnRuleFailed = (group: AlertGroup, error: unknown) => void;

/**
 * Everything abnormal that needs someone at this moment. Looks at the active alerts as well, so that one matter keeps
 * its key and does not flicker about its threshold. `lostPeople`: whose phone has not been heard from lately. A rule that
 * throws stops no other: the alerts of its group stay as they are, and `onRuleFailed` is called. Without forecasts, as another server
 * of the kitchen looks for what goes by them, those alerts stay as they are too.
 */
export function dueAlerts(
  kitchen: Kitchen,
  forecasts: Forecasts | undefined,
  nowMs: number,
  lostPeople: ReadonlySet<string>,
  onRuleFailed?: OnRuleFailed,
): DueAlert[] {
  const scene: Scene = { kitchen, forecasts: forecasts ?? NO_FORECASTS, nowMs, lostPeople };
  const activeByGroup = byName(Object.values(kitchen.alerts), ({ kind }) => definitionOf(kind).group);
  return RULES.flatMap(({ group, due, isByForecasts = false }) => {
    const active = activeByGroup.get(group) ?? [];
    if (isByForecasts && forecasts === undefined) return active;
    let alerts: AlertFact[] = [];
    const others = (): ActiveAlert[] => {
      const keys = new Set(alerts.map(({ key }) => key));
      return active.filter(({ key }) => !keys.has(key));
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

/** What to raise, which active alerts have changed, and the keys of those to clear. */
export function reconcileAlerts(
  kitchen: Kitchen,
  due: readonly DueAlert[],
): { raise: AlertFact[]; change: AlertFact[]; clear: string[] } {
  const keys = new Set(due.map((alert) => alert.key));
  const fresh = due.filter((alert): alert is AlertFact => !("raisedAtMs" in alert));
  const active = ({ key }: AlertFact): ActiveAlert | undefined => own(kitchen.alerts, key);
  return {
    raise: fresh.filter((alert) => active(alert) === undefined),
    change: fresh.filter((alert) => hasChanged(active(alert), alert)),
    clear: Object.keys(kitchen.alerts).filter((key) => !keys.has(key)),
  };
}

const hasChanged = (was: ActiveAlert | undefined, is: AlertFact): boolean =>
  was !== undefined && doDiffer(was, is);

/** Whether the facts differ, whatever people did about the alert. An old alert, kept as sentences, always does. */
const doDiffer = remembered((was: ActiveAlert, is: AlertFact): boolean => {
  const { raisedAtMs: _, acknowledged: _seen, putOffUntilMs: _later, ...rest } = was;
  const before: Readonly<Record<string, unknown>> = { ...rest };
  const facts = Object.entries(is);
  return (
    facts.length !== Object.keys(before).length ||
    facts.some(([name, fact]) => !isSame(own(before, name), fact))
  );
});

/** Facts are words and numbers, few of them in lists or groups. */
const isSame = (a: unknown, b: unknown): boolean =>
  a === b || (typeof a === "object" && typeof b === "object" && JSON.stringify(a) === JSON.stringify(b));
