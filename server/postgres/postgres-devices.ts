import { asId, type PersonId } from "#shared/ids.ts";
import type { DeviceKind } from "#shared/kitchen/model/vocabulary.ts";
import { type Device, type DeviceStore, seldomSeen, tokenSha256 } from "#server/log/device-store.ts";
import { type Postgres, SOON_MS } from "./connection.ts";

interface Row {
  device_id: string;
  token_sha256: string;
  kind: DeviceKind;
  person_id: string;
  may_lead: boolean;
  seen_ms: string;
}

const deviceOf = (row: Row): Device => ({
  deviceId: row.device_id,
  kind: row.kind,
  personId: asId<PersonId>(row.person_id),
  mayLead: row.may_lead,
  seenMs: Number(row.seen_ms),
});

const COLUMNS = "device_id, token_sha256, kind, person_id, may_lead, seen_ms";

/** The devices of a kitchen, kept at hand: whom another server forgot is known once `refresh` was called. */
export interface PostgresDevices extends DeviceStore {
  /** Reads them again. */
  refresh: () => Promise<void>;
  /** Told of each that another server forgot, once it is known here. */
  onForgotten: (listener: (device: Device) => void) => void;
}

/** The register of devices in PostgreSQL. A known token is found at hand, so screens come in while the database is away. */
export function postgresDevices(
  db: Postgres,
  kitchen: string,
  channel: string,
  server: string,
): PostgresDevices {
  /** By the hash of its token. */
  let atHand = new Map<string, Device>();
  const isDue = seldomSeen();

  let forgotten = (_device: Device): void => undefined;

  async function read(): Promise<void> {
    const before = atHand;
    const { rows } = await db.query<Row>(
      `SELECT ${COLUMNS} FROM traytide.devices WHERE kitchen = $1 AND forgotten_ms IS NULL ORDER BY created_ms`,
      [kitchen],
    );
    atHand = new Map(rows.map((row) => [row.token_sha256, deviceOf(row)] as const));
    for (const [sha256, device] of before) if (!atHand.has(sha256)) forgotten(device);
  }

  /** Beside a change of the devices, in the same statement: the other servers hear of it, at once or when they look. */
  const counted = (change: string): string => `
WITH changed AS (${change} RETURNING kitchen), counted AS (
  UPDATE traytide.kitchens SET devices = devices + 1 WHERE kitchen IN (SELECT kitchen FROM changed)
)
SELECT pg_notify($2, $3 || ' devices') FROM changed`;

  return {
    add: async (device, token) => {
      const { deviceId, kind, personId, mayLead, seenMs } = device;
      const sha256 = tokenSha256(token);
      await db.query(
        counted(
          "INSERT INTO traytide.devices (kitchen, device_id, token_sha256, kind, person_id, may_lead, created_ms, seen_ms) VALUES ($1, $4, $5, $6, $7, $8, $9, $9)",
        ),
        [kitchen, channel, server, deviceId, sha256, kind, personId, mayLead, seenMs],
      );
      atHand.set(sha256, device);
    },
    byToken: async (token) => {
      const sha256 = tokenSha256(token);
      const known = atHand.get(sha256);
      if (known !== undefined) return known;
      const { rows } = await db.query<Row>(
        {
          text: `SELECT ${COLUMNS} FROM traytide.devices WHERE kitchen = $1 AND token_sha256 = $2 AND forgotten_ms IS NULL`,
          withinMs: SOON_MS,
        },
        [kitchen, sha256],
      );
      if (rows[0] === undefined) return undefined;
      atHand.set(sha256, deviceOf(rows[0]));
      return deviceOf(rows[0]);
    },
    list: async () => {
      await read();
      return [...atHand.values()];
    },
    saw: async (deviceId, atMs) => {
      if (!isDue(deviceId, atMs)) return;
      for (const [sha256, device] of atHand)
        if (device.deviceId === deviceId) atHand.set(sha256, { ...device, seenMs: atMs });
      try {
        await db.query(
          "UPDATE traytide.devices SET seen_ms = $3 WHERE kitchen = $1 AND device_id = $2 AND seen_ms < $3",
          [kitchen, deviceId, atMs],
        );
      } catch {
        // A database that is away keeps nobody out: it says so by itself.
      }
    },
    forget: async (deviceId, atMs) => {
      for (const [sha256, device] of atHand) if (device.deviceId === deviceId) atHand.delete(sha256);
      const { count } = await db.query(
        counted(
          "UPDATE traytide.devices SET forgotten_ms = $5 WHERE kitchen = $1 AND device_id = $4 AND forgotten_ms IS NULL",
        ),
        [kitchen, channel, server, deviceId, atMs],
      );
      return count === 1;
    },
    refresh: read,
    onForgotten: (listener) => void (forgotten = listener),
  };
}
