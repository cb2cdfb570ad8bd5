import * as v from "valibot";

/** Up: whether this screen can be heard now: its sound works, is not muted, and, on a phone, the page is in front. */
export const CanAlert = v.boolean();
export type CanAlert = v.InferOutput<typeof CanAlert>;
