import { createHash, timingSafeEqual } from "node:crypto";
import { asId, type PersonId } from "#shared/ids.ts";
import type { Kitchen } from "#shared/kitchen/model/state.ts";
import type { Role } from "#shared/kitchen/model/vocabulary.ts";
import type { KitchenDb } from "#server/log/kitchen-db.ts";
import { MIN_MS } from "#shared/time.ts";

/** What a joined screen or sensor is. A bench is a wall that can be tapped: it acts as a decorator. */
export type DeviceKind = "phone" | "wall" | "bench" | "sensor";

/** A joined device. `mayLead` is false where the name was taken by merely typing it (http/join.ts). */
export interface Device {
  deviceId: string;
  kind: DeviceKind;
  personId: PersonId;
  mayLead: boolean;
  seenMs: number;
}

/** The devices that have joined, by the token each holds. Tokens are kept as SHA-256 only. */
export interface Devices {
  add: (device: Device, token: string) => void;
  byToken: (token: string) => Device | undefined;
  list: () => Device[];
  /** Never throws. */
  saw: (deviceId: string, atMs: number) => void;
  /** Makes a device's token worthless; false when there is no such device. */
  forget: (deviceId: string, atMs: number) => boolean;
}

interface Row {
  device_id: string;
  kind: DeviceKind;
  person_id: string;
  may_lead: number;
  seen_ms: number;
}

const deviceOf = (row: Row): Device => ({
  deviceId: row.device_id,
  kind: row.kind,
  personId: asId<PersonId>(row.person_id),
  mayLead: row.may_lead === 1,
  seenMs: row.seen_ms,
});

const sha256 = (text: string): Buffer => createHash("sha256").update(text).digest();

/** Whether two secrets are equal, in a time that tells nothing. */
export const sameSecret = (a: string, b: string): boolean => timingSafeEqual(sha256(a), sha256(b));

/** What a device may do now: its person's role for phones, less where the device may not lead. */
export function roleOf(kitchen: Kitchen, device: Device): Role {
  if (device.kind === "wall" || device.kind === "sensor") return device.kind;
  const isLead = kitchen.people[device.personId]?.role === "lead";
  return isLead && device.kind === "phone" && device.mayLead ? "lead" : "decorator";
}

/** When a device was last seen is written no more often than this. */
const SEEN_EVERY_MS = MIN_MS;

/** The register of devices in a kitchen's database. */
export function openDevices(db: KitchenDb): Devices {
  const columns = "device_id, kind, person_id, may_lead, seen_ms";
  const insert = db.prepare(
    "INSERT INTO devices (device_id, token_sha256, kind, person_id, may_lead, created_ms, seen_ms) VALUES (?, ?, ?, ?, ?, ?, ?)",
  );
  const byToken = db.prepare<[string], Row>(
    `SELECT ${columns} FROM devices WHERE token_sha256 = ? AND forgotten_ms IS NULL`,
  );
  const all = db.prepare<[], Row>(
    `SELECT ${columns} FROM devices WHERE forgotten_ms IS NULL ORDER BY created_ms`,
  );
  const saw = db.prepare("UPDATE devices SET seen_ms = ? WHERE device_id = ?");
  const forget = db.prepare(
    "UPDATE devices SET forgotten_ms = ? WHERE device_id = ? AND forgotten_ms IS NULL",
  );

  const seenMs = new Map<string, number>();

  return {
    add: (device, token) => {
      const { deviceId, kind, personId, mayLead, seenMs } = device;
      insert.run(deviceId, sha256(token).toString("hex"), kind, personId, mayLead ? 1 : 0, seenMs, seenMs);
    },
    byToken: (token) => {
      const row = byToken.get(sha256(token).toString("hex"));
      return row === undefined ? undefined : deviceOf(row);
    },
    list: () => all.all().map(deviceOf),
    saw: (deviceId, atMs) => {
      if (atMs - (seenMs.get(deviceId) ?? -Infinity) < SEEN_EVERY_MS) return;
      seenMs.set(deviceId, atMs);
      try {
        saw.run(atMs, deviceId);
      } catch {
        // A full disk keeps nobody out: the log says by itself that it cannot be written.
      }
    },
    forget: (deviceId, atMs) => forget.run(atMs, deviceId).changes === 1,
  };
}
