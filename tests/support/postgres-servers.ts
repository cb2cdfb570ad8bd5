import { nanoid } from "nanoid";
import { systemTimers } from "#server/live/clock.ts";
import type { KitchenStore } from "#server/log/store.ts";
import { postgresAddress } from "#server/postgres/address.ts";
import { openPostgresStore } from "#server/postgres/postgres-store.ts";
import { startServer, type TestServer } from "./server-app.ts";

/** A kitchen in PostgreSQL as one more server opens it. */
export const openKitchen = (url: string, kitchen: string): Promise<KitchenStore> =>
  openPostgresStore(postgresAddress(url, kitchen), {
    app: "test",
    newId: nanoid,
    timers: systemTimers,
    monotonicMs: () => performance.now(),
  });

/** One of several servers of a kitchen, with a hand-driven clock. */
export interface OneOfSeveral extends TestServer {
  store: KitchenStore;
}

export async function oneOfSeveral(url: string, kitchen: string): Promise<OneOfSeveral> {
  const store = await openKitchen(url, kitchen);
  const server = await startServer({ store });
  const close = async (): Promise<void> => {
    await server.close();
    await store.close();
  };
  let closed: Promise<void> | undefined;
  return { ...server, store, close: () => (closed ??= close()) };
}
