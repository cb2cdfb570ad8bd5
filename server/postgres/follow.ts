import type { Client } from "pg";
import type { Timers } from "#server/live/clock.ts";
import type { LogHead, NewsOfOthers } from "#server/log/store.ts";
import { type Postgres, SOON_MS } from "./connection.ts";
import type { PostgresDevices } from "./postgres-devices.ts";
import type { SharedClock } from "./shared-clock.ts";

export interface FollowDeps {
  db: Postgres;
  kitchen: string;
  /** This server's name among those of the kitchen, and where they tell each other. */
  server: string;
  channel: string;
  devices: PostgresDevices;
  clock: SharedClock;
  monotonicMs: () => number;
  timers: Pick<Timers, "every">;
}

export interface Following {
  epoch: () => string;
  isOnDuty: () => boolean;
  /** Looks once, without being seen. */
  look: () => Promise<void>;
  start: (mine: () => string, news: NewsOfOthers) => Promise<void>;
  stop: () => Promise<void>;
}

const LOOK_EVERY_MS = 1000;
/** While the database is away, or the connection that listens. */
const TRY_EVERY_MS = 250;
/** A server that was not seen for so long is dead, and whoever came by its sockets is not here. */
const DEAD_AFTER_MS = 5000;

interface Seen {
  epoch: string;
  seq: string;
  hash: string;
  devices: string;
  now_ms: number;
  began_ms: number | null;
  others: { server: string; page: string; beganMs: number; agoMs: number }[];
}

/** Writes this server's row and reads everything there is to know, in one round trip. */
const BEAT = `
WITH mine AS (
  INSERT INTO traytide.presence (kitchen, server, page) SELECT $1, $2, $3::text WHERE $3 IS NOT NULL
  ON CONFLICT (kitchen, server) DO UPDATE SET at = clock_timestamp(), page = excluded.page
  RETURNING began_at
)
SELECT epoch, seq, hash, devices,
  (extract(epoch FROM clock_timestamp()) * 1000)::float8 AS now_ms,
  (SELECT (extract(epoch FROM began_at) * 1000)::float8 FROM mine) AS began_ms,
  (SELECT coalesce(json_agg(json_build_object(
    'server', other.server, 'page', other.page,
    'beganMs', (extract(epoch FROM other.began_at) * 1000)::float8,
    'agoMs', (extract(epoch FROM clock_timestamp() - other.at) * 1000)::float8
  )), '[]') FROM traytide.presence AS other WHERE other.kitchen = $1 AND other.server <> $2) AS others
FROM traytide.kitchens WHERE kitchen = $1`;

/** Follows what the other servers of a kitchen do: told at once by NOTIFY, and looked for each second, as a notice can be lost. */
export function follow(deps: FollowDeps): Following {
  const { db, kitchen, server, channel, devices, clock, monotonicMs } = deps;
  let epoch = "";
  let devicesSeen: string | undefined;
  let alive: Seen["others"] = [];
  let beganMs = Infinity;
  let news: NewsOfOthers | undefined;
  let mine: (() => string) | undefined;
  let isReached = true;
  let lookedMs = -Infinity;
  let looking: Promise<void> | undefined;
  let listener: Client | undefined;
  let isStopped = false;
  let stopTimer = (): void => undefined;

  async function beat(): Promise<void> {
    const askedMs = monotonicMs();
    const { rows } = await db.query<Seen>({ name: "beat", text: BEAT, withinMs: SOON_MS }, [
      kitchen,
      server,
      mine?.() ?? null,
    ]);
    const [seen] = rows;
    if (seen === undefined) return;
    clock.measured(askedMs, seen.now_ms, monotonicMs());
    epoch = seen.epoch;
    beganMs = seen.began_ms ?? Infinity;
    alive = seen.others.filter(({ agoMs }) => agoMs < DEAD_AFTER_MS);
    news?.present(alive);
    news?.stands({ epoch, seq: Number(seen.seq), hash: seen.hash });
    if (seen.devices !== devicesSeen) await devices.refresh();
    devicesSeen = seen.devices;
  }

  /** One look at a time; one that failed is tried once more, as a connection may just have been broken. */
  function look(): Promise<void> {
    lookedMs = monotonicMs();
    looking ??= beat()
      .catch(beat)
      .then(
        () => reached(true),
        (error: unknown) => reached(false, error),
      )
      .finally(() => (looking = undefined));
    return looking;
  }

  function reached(is: boolean, cause?: unknown): void {
    // Said each time while it is there: what else failed meanwhile can be tried again.
    if (is || isReached) news?.reached(is, cause);
    isReached = is;
  }

  function listen(): void {
    const client = db.client();
    listener = client;
    const lost = (): void => {
      if (listener !== client) return;
      listener = undefined;
      client.end().catch(() => undefined);
      if (!isStopped) void look();
    };
    client.on("error", lost);
    client.on("end", lost);
    client.on("notification", ({ payload = "" }) => heard(payload));
    client
      .connect()
      .then(() => client.query(`LISTEN "${channel}"`))
      // Whatever happened before it listened.
      .then(look)
      .catch(lost);
  }

  function heard(payload: string): void {
    const [from, what, hash] = payload.split(" ");
    if (from === server || what === undefined) return;
    if (what === "devices") void devices.refresh().catch(() => undefined);
    else news?.stands({ epoch, seq: Number(what), hash: hash ?? "" } satisfies LogHead);
  }

  function tick(): void {
    if (listener === undefined) listen();
    if (!isReached || monotonicMs() - lookedMs >= LOOK_EVERY_MS) void look();
  }

  return {
    epoch: () => epoch,
    isOnDuty: () =>
      alive.every((other) => beganMs < other.beganMs || (beganMs === other.beganMs && server < other.server)),
    look: beat,
    start: async (page, hear) => {
      mine = page;
      news = hear;
      devices.onForgotten(hear.forgotten);
      await look();
      listen();
      stopTimer = deps.timers.every(TRY_EVERY_MS, tick);
    },
    stop: async () => {
      isStopped = true;
      stopTimer();
      await looking;
      news = undefined;
      const client = listener;
      listener = undefined;
      await Promise.allSettled([
        client?.end(),
        db.query(
          {
            text: "DELETE FROM traytide.presence WHERE kitchen = $1 AND server = $2",
            withinMs: SOON_MS,
          },
          [kitchen, server],
        ),
      ]);
    },
  };
}
