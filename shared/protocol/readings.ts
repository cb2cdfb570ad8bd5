import * as v from "valibot";
import { READING_RANGE } from "#shared/drying/air-record/readings.ts";
import { line, moment, within } from "#shared/fields.ts";

/** `POST /api/readings`: a hygrometer's line; `place` is a place's id or its name. */
export const ReadingRequest = v.object({
  place: line(40),
  tempC: within(READING_RANGE.tempC),
  rhPct: within(READING_RANGE.rhPct),
  atMs: v.optional(moment),
});
export type ReadingRequest = v.InferOutput<typeof ReadingRequest>;

/** `GET /api/sensors`, for a lead: how the hygrometers' broker is doing. Times are kitchen time. */
export interface SensorsAnswer {
  connected: boolean;
  lastMessageAtMs?: number;
  /** Why it is not connected, or hears nothing. */
  error?: string;
  /** The newest message of each hygrometer, newest first. `match` is what a mapping to a place would name. */
  heard: readonly {
    topic: string;
    match: string;
    atMs: number;
    outcome: "taken" | "no such place" | "refused" | "waiting";
    result: string;
  }[];
}
