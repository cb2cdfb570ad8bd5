import * as v from "valibot";
import { line, oneOf } from "#shared/fields.ts";
import { DeviceKind, type Role } from "#shared/kitchen/model/vocabulary.ts";

/** `POST /api/join`. `as` says what this screen is; a phone when absent. */
export const JoinRequest = v.object({
  code: line(20),
  name: line(40),
  as: v.optional(DeviceKind),
  /** Those of this screen's region: a practice kitchen goes over to its first phone's. */
  units: v.optional(oneOf(["metric", "us"])),
});
export type JoinRequest = v.InferOutput<typeof JoinRequest>;
export interface JoinAnswer {
  token: string;
  deviceId: string;
  role: Role;
  personId: string;
}
