import * as v from "valibot";

/** Up: where the screen's replica stands, to be caught up. Nothing asks for a snapshot. */
export const Hello = v.object({
  epoch: v.optional(v.string()),
  seq: v.optional(v.number()),
  hash: v.optional(v.string()),
});
export type Hello = v.InferOutput<typeof Hello>;
