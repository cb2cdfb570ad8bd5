/** Marks a branch the types say cannot be reached; throws if data from outside got there all the same. */
export function unreachable(value: never): never {
  throw new Error(`unreachable: ${JSON.stringify(value)}`);
}

/** Either a value or a refusal. */
export type Outcome<Value, Refusal> = { ok: true; value: Value } | { ok: false; refusal: Refusal };

/** Wraps a value. */
export const ok = <Value>(value: Value): { ok: true; value: Value } => ({ ok: true, value });

/** Wraps a refusal. */
export const refused = <Refusal>(refusal: Refusal): { ok: false; refusal: Refusal } => ({
  ok: false,
  refusal,
});
