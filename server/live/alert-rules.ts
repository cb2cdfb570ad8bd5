import { dueAlerts, reconcileAlerts } from "#shared/kitchen/alerts/due.ts";
import type { DecideContext } from "#shared/kitchen/commands/deciding.ts";
import type { AlertGroup } from "#shared/kitchen/model/alert-kinds.ts";
import type { ActiveAlert } from "#shared/kitchen/model/alert.ts";
import { activeAlert, changedTo } from "#shared/kitchen/model/active-alert.ts";
import type { Kitchen } from "#shared/kitchen/model/state.ts";
import type { Forecasts } from "#shared/kitchen/model/forecast.ts";
import type { Report } from "#server/words.ts";

export interface AlertRulesDeps {
  nowMs: () => number;
  forecasts: () => Forecasts;
  /** Who cannot be told by phone now. */
  lostPeople: () => ReadonlySet<string>;
  /** Whether this server, of those that share the kitchen, looks for alerts that go by forecasts. */
  isOnDuty?: () => boolean;
  report: Report;
}

/** What a look for alerts goes by besides the kitchen and its forecasts. */
type Looking = Required<Pick<DecideContext, "lostPeople" | "isOnDuty" | "onRuleFailed">>;

/** Which rules of alerts fail now, and what is due while the log cannot be written. */
export interface AlertRules {
  /** Groups of alerts whose rule failed when they were last looked for. */
  failed: () => readonly AlertGroup[];
  /** Looks for alerts, and notes which rules fail. */
  noting: <Result>(look: (looking: Looking) => Result) => Result;
  /** The alerts as they would stand, had they been written. */
  unsaved: () => readonly ActiveAlert[];
  forgetUnsaved: () => void;
}

/** `onNews` is told when other rules fail than before. */
export function alertRules(deps: AlertRulesDeps, kitchenNow: () => Kitchen, onNews: () => void): AlertRules {
  let failed: readonly AlertGroup[] = [];
  /** Since when what is not written down has been due. */
  let dueSinceMs: ReadonlyMap<string, number> = new Map();

  function noting<Result>(look: (looking: Looking) => Result): Result {
    const now: AlertGroup[] = [];
    const result = look({
      lostPeople: deps.lostPeople(),
      isOnDuty: deps.isOnDuty?.() ?? true,
      onRuleFailed: (group, error) => {
        now.push(group);
        if (!failed.includes(group)) deps.report(({ server }) => server.log.rulesFailed(group), error);
      },
    });
    const isNews = now.join() !== failed.join();
    failed = now;
    if (isNews) onNews();
    return result;
  }

  function unsaved(): readonly ActiveAlert[] {
    const [nowMs, kitchen] = [deps.nowMs(), kitchenNow()];
    const due = noting(({ lostPeople, onRuleFailed }) =>
      dueAlerts(kitchen, deps.forecasts(), nowMs, lostPeople, onRuleFailed),
    );
    const { raise, change, clear } = reconcileAlerts(kitchen, due);
    const changed = new Map(change.map((alert) => [alert.key, alert]));
    dueSinceMs = new Map(raise.map(({ key }) => [key, dueSinceMs.get(key) ?? nowMs]));
    return [
      ...Object.values(kitchen.alerts)
        .filter(({ key }) => !clear.includes(key))
        .map((alert) => changedTo(alert, changed.get(alert.key) ?? alert)),
      ...raise.map((alert) => activeAlert(alert, dueSinceMs.get(alert.key) ?? nowMs)),
    ];
  }

  return {
    failed: () => failed,
    noting,
    unsaved,
    forgetUnsaved: () => void (dueSinceMs = new Map()),
  };
}
