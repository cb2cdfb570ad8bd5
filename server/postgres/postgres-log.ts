import { errorMessage } from "#server/error-message.ts";
import { type Decided, type EventLog, StaleLog } from "#server/log/event-log.ts";
import { EMPTY_LOG_HASH, nextLogHash } from "#server/log/log-hash.ts";
import {
  type AnswerRow,
  type EventRow,
  givenOf,
  pageOf,
  textSha256,
  wholeKitchen,
} from "#server/log/stored.ts";
import { type Postgres, SOON_MS } from "./connection.ts";

export interface PostgresLogDeps {
  db: Postgres;
  kitchen: string;
  epoch: () => string;
  /** Names this build: a snapshot made by another one is passed over. */
  app: string;
  /** Where other servers hear of what was appended, and this one's name, which goes first in what is told there. */
  channel: string;
  server: string;
}

/** Servers of two builds may share a kitchen while it is brought up to date. */
const SNAPSHOTS_KEPT = 4;

/**
 * One statement, so one transaction and one round trip. Whoever appends first has the kitchen's row; the next one waits for it and
 * finds another number there, or the same number of another course of events.
 */
const APPEND = {
  name: "append",
  withinMs: SOON_MS,
  text: `
WITH head AS (
  UPDATE traytide.kitchens SET seq = $5, hash = $6
  WHERE kitchen = $1 AND epoch = $2 AND seq = $3 AND hash = $4 RETURNING seq
), happened AS (
  INSERT INTO traytide.events (kitchen, seq, type, event, hash)
  SELECT $1, $3 + one.k, one.type, one.event, one.hash
  FROM head, unnest($7::text[], $8::text[], $9::text[]) WITH ORDINALITY AS one (type, event, hash, k)
), answered AS (
  INSERT INTO traytide.commands (kitchen, command_id, answer, device_id, body_sha256)
  SELECT $1, one.command_id, one.answer, one.device_id, one.body_sha256
  FROM head, unnest($10::text[], $11::text[], $12::text[], $13::text[]) AS one (command_id, answer, device_id, body_sha256)
)
SELECT pg_notify($14, $15 || ' ' || head.seq || ' ' || $6) FROM head`,
} as const;

/** The event log of one kitchen in PostgreSQL, whichever of its servers appends. */
export function postgresLog({ db, kitchen, epoch, app, channel, server }: PostgresLogDeps): EventLog {
  async function hashAt(seq: number): Promise<string | undefined> {
    if (seq === 0) return EMPTY_LOG_HASH;
    const { rows } = await db.query<{ hash: string }>(
      {
        name: "hash-at",
        text: "SELECT hash FROM traytide.events WHERE kitchen = $1 AND seq = $2",
        withinMs: SOON_MS,
      },
      [kitchen, seq],
    );
    return rows[0]?.hash;
  }

  async function append(
    batch: readonly Decided[],
    fromSeq: number,
    fromHash?: string,
  ): Promise<readonly string[]> {
    const before = fromHash ?? (await hashAt(fromSeq));
    if (before === undefined) throw new StaleLog();
    const events = batch.flatMap((decided) => decided.events);
    const texts = events.map((event) => JSON.stringify(event));
    const hashes: string[] = [];
    for (const text of texts) hashes.push(nextLogHash(hashes.at(-1) ?? before, text));
    try {
      const { count } = await db.query(APPEND, [
        kitchen,
        epoch(),
        fromSeq,
        before,
        fromSeq + events.length,
        hashes.at(-1) ?? before,
        events.map(({ type }) => type),
        texts,
        hashes,
        batch.map(({ commandId }) => commandId),
        batch.map(({ answer }) => JSON.stringify(answer)),
        batch.map(({ deviceId }) => deviceId ?? null),
        batch.map(({ sha256 }) => sha256 ?? null),
        channel,
        server,
      ]);
      if (count === 0) throw new StaleLog();
      return hashes;
    } catch (error) {
      // A command that another server has decided, with nothing that happened.
      const isTwice = (error as { code?: unknown }).code === "23505";
      throw isTwice ? new StaleLog({ cause: error }) : error;
    }
  }

  return {
    get epoch() {
      return epoch();
    },
    latestSeq: async () => {
      const { rows } = await db.query<{ seq: string }>(
        "SELECT seq FROM traytide.kitchens WHERE kitchen = $1",
        [kitchen],
      );
      return Number(rows[0]?.seq ?? 0);
    },
    append,
    hashAt,
    answers: async (ids) => {
      const { rows } = await db.query<AnswerRow & { command_id: string }>(
        {
          name: "answers",
          text: "SELECT command_id, answer, device_id, body_sha256 FROM traytide.commands WHERE kitchen = $1 AND command_id = ANY ($2)",
          withinMs: SOON_MS,
        },
        [kitchen, ids],
      );
      const found = new Map(rows.map((row) => [row.command_id, givenOf(row)] as const));
      return new Map(
        ids.flatMap((id) => {
          const given = found.get(id);
          return given === undefined ? [] : [[id, given] as const];
        }),
      );
    },
    since: async (seq, limit) => {
      const { rows } = await db.query<Omit<EventRow, "seq"> & { seq: string }>(
        {
          name: "since",
          text: "SELECT seq, type, event, hash FROM traytide.events WHERE kitchen = $1 AND seq > $2 ORDER BY seq LIMIT $3",
        },
        [kitchen, seq, limit],
      );
      return pageOf(
        rows.map((row) => ({ ...row, seq: Number(row.seq) })),
        seq,
      );
    },
    setAside: async ({ seq, reason }) => {
      await db.query(
        "INSERT INTO traytide.set_aside (kitchen, seq, type, reason, event) SELECT kitchen, seq, type, $3, event FROM traytide.events WHERE kitchen = $1 AND seq = $2 ON CONFLICT DO NOTHING",
        [kitchen, seq, reason],
      );
    },
    saveSnapshot: async ({ seq, hash, kitchen: state }) => {
      const text = JSON.stringify(state);
      await db.query(
        "INSERT INTO traytide.snapshots (kitchen, app, seq, sha256, state) SELECT kitchen, $2, seq, $4, $5 FROM traytide.events WHERE kitchen = $1 AND seq = $3 AND ($6::text IS NULL OR hash = $6) ON CONFLICT (kitchen, app, seq) DO UPDATE SET sha256 = excluded.sha256, state = excluded.state",
        [kitchen, app, seq, textSha256(text), text, hash ?? null],
      );
      await db.query(
        "DELETE FROM traytide.snapshots WHERE kitchen = $1 AND seq < (SELECT min(seq) FROM (SELECT seq FROM traytide.snapshots WHERE kitchen = $1 ORDER BY seq DESC LIMIT $2) AS newest)",
        [kitchen, SNAPSHOTS_KEPT],
      );
    },
    loadSnapshot: async () => {
      const damaged: number[] = [];
      try {
        const { rows } = await db.query<{ seq: string }>(
          "SELECT s.seq FROM traytide.snapshots AS s JOIN traytide.kitchens AS k USING (kitchen) WHERE kitchen = $1 AND app = $2 AND s.seq <= k.seq ORDER BY s.seq DESC",
          [kitchen, app],
        );
        for (const { seq } of rows) {
          const { rows: found } = await db.query<{ sha256: string; kitchen: string }>(
            "SELECT sha256, state AS kitchen FROM traytide.snapshots WHERE kitchen = $1 AND app = $2 AND seq = $3",
            [kitchen, app, seq],
          );
          const whole = wholeKitchen(found[0]);
          if (whole !== undefined) return { snapshot: { seq: Number(seq), kitchen: whole }, damaged };
          damaged.push(Number(seq));
        }
        return { damaged };
      } catch (error) {
        return { damaged, unreadable: errorMessage(error) };
      }
    },
  };
}
