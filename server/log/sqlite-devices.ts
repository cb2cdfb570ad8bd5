import type { DeviceKind } from "#shared/kitchen/model/vocabulary.ts";
import { asId, type PersonId } from "#shared/ids.ts";
import { type Device, type DeviceStore, seldomSeen, tokenSha256 } from "./device-store.ts";
import type { KitchenDb } from "./kitchen-db.ts";

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

/** The register of devices in a kitchen's database. */
export function sqliteDevices(db: KitchenDb): DeviceStore {
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
  const isDue = seldomSeen();

  return {
    add: async ({ deviceId, kind, personId, mayLead, seenMs }, token) => {
      insert.run(deviceId, tokenSha256(token), kind, personId, mayLead ? 1 : 0, seenMs, seenMs);
    },
    byToken: async (token) => {
      const row = byToken.get(tokenSha256(token));
      return row === undefined ? undefined : deviceOf(row);
    },
    list: async () => all.all().map(deviceOf),
    saw: async (deviceId, atMs) => {
      if (!isDue(deviceId, atMs)) return;
      try {
        saw.run(atMs, deviceId);
      } catch {
        // A full disk keeps nobody out: the log says by itself that it cannot be written.
      }
    },
    forget: async (deviceId, atMs) => forget.run(atMs, deviceId).changes === 1,
  };
}
