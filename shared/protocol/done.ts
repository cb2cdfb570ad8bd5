import * as v from "valibot";
import { whole } from "#shared/fields.ts";
import { PersonId } from "#shared/ids.ts";

/** `GET /api/done`: what people did, latest first, before this number of the log; of one person where one is named. */
export const DoneRequest = v.object({
  before: v.optional(v.pipe(v.string(), v.transform(Number), whole(1, Number.MAX_SAFE_INTEGER))),
  by: v.optional(PersonId),
});
export type DoneRequest = v.InferOutput<typeof DoneRequest>;

/** One act in words: by whom, and on which device, as far as that is known. */
export interface DoneLine {
  seq: number;
  atMs: number;
  what: string;
  who: string;
  device?: string;
}

export interface DoneAnswer {
  lines: readonly DoneLine[];
  /** Where to go on; absent at the log's beginning. */
  before?: number;
}
