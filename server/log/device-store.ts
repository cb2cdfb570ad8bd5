import { createHash } from "node:crypto";
import type { PersonId } from "#shared/ids.ts";
import type { DeviceKind } from "#shared/kitchen/model/vocabulary.ts";
import { MIN_MS } from "#shared/time.ts";

/** A joined device. `mayLead` is false where the name was typed and is another's (http/join.ts); a lead who lets it in makes up for that. */
export interface Device {
  deviceId: string;
  kind: DeviceKind;
  personId: PersonId;
  mayLead: boolean;
  seenMs: number;
}

/** The devices that have joined, by the token each holds. Tokens are kept as SHA-256 only. */
export interface DeviceStore {
  add: (device: Device, token: string) => Promise<void>;
  /** Asked for every request and socket. */
  byToken: (token: string) => Promise<Device | undefined>;
  /** In the order they joined, without those that were forgotten. */
  list: () => Promise<Device[]>;
  /** Written once a minute at most. Never rejects. */
  saw: (deviceId: string, atMs: number) => Promise<void>;
  /** Makes a device's token worthless; false when there is no such device. */
  forget: (deviceId: string, atMs: number) => Promise<boolean>;
}

/** When a device was last seen is written no more often than this. */
const SEEN_EVERY_MS = MIN_MS;

export const tokenSha256 = (token: string): string => createHash("sha256").update(token).digest("hex");

/** Whether a device's being seen is worth writing down again. */
export function seldomSeen(): (deviceId: string, atMs: number) => boolean {
  const seenMs = new Map<string, number>();
  return (deviceId, atMs) => {
    if (atMs - (seenMs.get(deviceId) ?? -Infinity) < SEEN_EVERY_MS) return false;
    seenMs.set(deviceId, atMs);
    return true;
  };
}
