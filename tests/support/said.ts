import type { BadField } from "#shared/fields.ts";
import type { Outcome } from "#shared/outcome.ts";
import type { Refusal } from "#shared/kitchen/model/refusal.ts";
import type { KitchenUnits } from "#shared/units.ts";
import { english } from "#shared/words/en/index.ts";

/** Where the tests' kitchens are. */
const TIME_ZONE = "Europe/Lisbon";

/** A refusal's fact as an English kitchen reads it. */
export const said = ({ fact }: Refusal, units: KitchenUnits = "metric"): string =>
  english(units, TIME_ZONE).refusals.say(fact);

/** A refused decision with its words; throws where it was taken. */
export function refusalOf(
  decision: Outcome<unknown, Refusal>,
  units: KitchenUnits = "metric",
): { reason: string; message: string } {
  if (decision.ok) throw new Error("was taken, not refused");
  return { reason: decision.refusal.reason, message: said(decision.refusal, units) };
}

/** A bad field as an English kitchen reads it. */
export const saidOf = (bad: BadField, units: KitchenUnits = "metric"): string =>
  english(units, TIME_ZONE).faults.say(bad);

/** An outcome with what is refused in words, beside or in place of the fact. */
export function worded<Value>(
  outcome: Outcome<Value, Refusal> | Outcome<Value, BadField>,
  units: KitchenUnits = "metric",
) {
  if (outcome.ok) return outcome;
  const { refusal } = outcome;
  const message = "must" in refusal ? saidOf(refusal, units) : said(refusal, units);
  return { ok: false as const, refusal: { ...refusal, message } };
}
