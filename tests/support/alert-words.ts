import type { DueAlert } from "#shared/kitchen/alerts/due.ts";
import type { Kitchen } from "#shared/kitchen/model/state.ts";
import { wordAlert } from "#shared/words/alert-text.ts";
import { english } from "#shared/words/en/index.ts";
import type { Words } from "#shared/words/words.ts";

/** A kitchen's English. */
export const wordsOf = ({ settings }: Kitchen): Words => english(settings.units, settings.timeZone);

/** All an alert says: "Own: likely to miss its pick-up | Pack it | It is dry | Wren · Rack A". */
export function said(kitchen: Kitchen, alert: DueAlert | undefined): string {
  if (alert === undefined) return "nothing";
  const { subject, act, what, todo, where } = wordAlert(wordsOf(kitchen), kitchen, {
    raisedAtMs: 0,
    ...alert,
  });
  return [subject === undefined ? what : `${subject}: ${what}`, act, todo, where.join(" · ")].join(" | ");
}
