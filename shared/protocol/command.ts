import type { BadField } from "#shared/fields.ts";
import type { Refusal } from "#shared/kitchen/model/refusal.ts";

/** The answer to a command, the same however often it is sent. */
export type CommandAnswer = { ok: true; seq: number } | RefusedAnswer;
/** Facts; over HTTP a `message` says them in words. `field`: of a malformed command, the first bad one. */
export type RefusedAnswer = { ok: false; field?: string } & Refusal;

/** The answer to something that is no command. */
export const malformed = (bad: BadField): RefusedAnswer => ({
  ok: false,
  reason: "malformed",
  field: bad.field,
  fact: { code: "bad-field", bad },
});
