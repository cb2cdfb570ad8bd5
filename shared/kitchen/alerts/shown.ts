import type { PersonId } from "#shared/ids.ts";
import type { ActiveAlert } from "#shared/kitchen/model/alert.ts";
import type { Role } from "#shared/kitchen/model/vocabulary.ts";

/** An urgent alert sounds again this often until someone acknowledges it, real time. */
export const SOUND_EVERY_MS = 20_000;

type Addressed = Pick<ActiveAlert, "recipients">;

/** Whether an alert is for this person. */
export const forPerson = ({ recipients }: Addressed, personId: PersonId, role: Role): boolean =>
  recipients.everyone || recipients.people.includes(personId) || (recipients.leads && role === "lead");

/** Whether an alert is for the wall: what is for everyone is shown there too. */
export const forWall = ({ recipients }: Addressed): boolean => recipients.wall || recipients.everyone;

/** Whether an alert is for this screen: for the wall, or for whoever taps here. */
export const forScreen = (alert: Addressed, personId: PersonId | undefined): boolean =>
  forWall(alert) || (personId !== undefined && alert.recipients.people.includes(personId));

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
