import { type AlertNames, alertNames } from "#shared/kitchen/alerts/names.ts";
import type { ActiveAlert, AlertFact } from "#shared/kitchen/model/alert.ts";
import type { Kitchen } from "#shared/kitchen/model/state.ts";
import type { AlertText } from "./alert-texts.ts";
import type { FirstWords } from "./words.ts";

/** An alert in words, with the names it is shown beside. */
export interface WordedAlert extends AlertText {
  /** The tool, place or order it is about, where it is about no tray. */
  subject?: string | undefined;
  /** Who has it in hand, and at which tool or place. */
  where: readonly string[];
}

export function wordAlert(words: FirstWords, kitchen: Kitchen, alert: ActiveAlert): WordedAlert {
  const names = alertNames(kitchen, alert);
  const text = textOf(words, alert, names);
  return {
    ...text,
    ...(alert.isOffline && { todo: `${words.alerts.offline} ${text.todo}` }),
    subject:
      alert.trayNumber === undefined && !("what" in alert)
        ? (names.tool ?? names.place ?? names.order)
        : undefined,
    where: [names.holder, names.tool ?? names.place].filter((name) => name !== undefined),
  };
}

/** An alert of an old log stands in its own sentences. */
function textOf({ alerts }: FirstWords, alert: ActiveAlert, names: AlertNames): AlertText {
  if ("what" in alert) return { act: alert.what, what: alert.what, todo: alert.todo };
  const text = alerts.texts[alert.kind] as (fact: AlertFact, names: AlertNames) => AlertText;
  return text(alert, names);
}
