import type { MakeUpStart } from "#shared/kitchen/orders/make-up.ts";

/** `GET /api/make-up?order=ID`: by when what the order lacks must be begun, or why there is no such time. */
export type MakeUpAnswer = { atMs: number } & (MakeUpStart | { why: "nothing-to-make-up" });
