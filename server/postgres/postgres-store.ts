import type { Timers } from "#server/live/clock.ts";
import type { KitchenStore } from "#server/log/store.ts";
import type { PostgresAddress } from "./address.ts";
import { connectPostgres } from "./connection.ts";
import { follow } from "./follow.ts";
import { postgresDevices } from "./postgres-devices.ts";
import { postgresLog } from "./postgres-log.ts";
import { postgresPhotos, postgresValues } from "./postgres-values.ts";
import { sharedClock } from "./shared-clock.ts";
import { readyTables } from "./tables.ts";
import { openingFault, postgresTrouble } from "./trouble.ts";

export interface PostgresStoreDeps {
  /** Names this build: a snapshot made by another one is passed over. */
  app: string;
  newId: () => string;
  timers: Pick<Timers, "every">;
  /** A real clock that only goes forward, ms. */
  monotonicMs: () => number;
}

/** How often the database's clock is asked at the start: the answer that was under way least counts. */
const CLOCK_ASKED = 3;

/** Opens a kitchen in PostgreSQL, which other servers may have open; makes what is not there yet. Throws, in words, when it cannot. */
export async function openPostgresStore(
  address: PostgresAddress,
  { app, newId, timers, monotonicMs }: PostgresStoreDeps,
): Promise<KitchenStore> {
  const { kitchen } = address;
  const db = connectPostgres(address.url);
  const [server, channel] = [newId(), `traytide ${kitchen}`];
  const devices = postgresDevices(db, kitchen, channel, server);
  const clock = sharedClock();
  const following = follow({ db, kitchen, server, channel, devices, clock, monotonicMs, timers });
  try {
    await readyTables(db);
    await db.query("INSERT INTO traytide.kitchens (kitchen, epoch) VALUES ($1, $2) ON CONFLICT DO NOTHING", [
      kitchen,
      newId(),
    ]);
    await db.query(
      "DELETE FROM traytide.presence WHERE kitchen = $1 AND at < clock_timestamp() - interval '1 minute'",
      [kitchen],
    );
    for (let k = 0; k < CLOCK_ASKED; k += 1) await following.look();
  } catch (error) {
    await db.close();
    throw openingFault(error, address);
  }
  return {
    log: postgresLog({ db, kitchen, epoch: following.epoch, app, channel, server }),
    devices,
    values: postgresValues(db, kitchen),
    photos: postgresPhotos(db, kitchen),
    shared: {
      wallMs: () => clock.at(monotonicMs()) ?? 0,
      isOnDuty: following.isOnDuty,
      follow: following.start,
    },
    problem: () => undefined,
    saveTroubleOf: postgresTrouble,
    close: async () => {
      await following.stop();
      await db.close();
    },
  };
}
