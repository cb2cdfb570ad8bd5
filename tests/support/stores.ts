import { mkdtempSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { embeddedStore } from "#server/log/embedded-store.ts";
import { openKitchenDb } from "#server/log/kitchen-db.ts";
import type { KitchenStore } from "#server/log/store.ts";
import { systemTimers } from "#server/live/clock.ts";
import { postgresAddress } from "#server/postgres/address.ts";
import { openPostgresStore } from "#server/postgres/postgres-store.ts";
import { sharedPostgres } from "./postgres.ts";

/** A store with nothing in it yet, and what closes and removes it. */
export interface OpenedStore {
  store: KitchenStore;
  done: () => Promise<void>;
}

async function embedded(): Promise<OpenedStore> {
  const folder = mkdtempSync(join(tmpdir(), "traytide-store-"));
  const db = openKitchenDb(join(folder, "kitchen.db"));
  const deps = { app: "test", newId: () => "epoch-1", photosFolder: join(folder, "photos") };
  const store = embeddedStore(db, deps);
  return {
    store,
    done: async () => {
      await store.close();
      rmSync(folder, { recursive: true });
    },
  };
}

let kitchens = 0;

/** A kitchen of its own in the run's PostgreSQL. */
async function postgres(): Promise<OpenedStore> {
  const kitchen = `test-${process.pid}-${(kitchens += 1)}-${Date.now()}`;
  const address = postgresAddress(await sharedPostgres(), kitchen);
  const ids = ["server-1", "epoch-1"];
  const store = await openPostgresStore(address, {
    app: "test",
    newId: () => ids.shift() ?? "another",
    timers: systemTimers,
    monotonicMs: () => performance.now(),
  });
  return { store, done: store.close };
}

/** Everywhere a kitchen can be kept: each contract is held by all. */
export const STORES: readonly (readonly [string, () => Promise<OpenedStore>])[] = [
  ["embedded", embedded],
  ["PostgreSQL", postgres],
];
