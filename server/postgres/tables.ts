import { WordedError } from "#server/words.ts";
import type { Postgres } from "./connection.ts";

/** The kitchen is part of each key: several live in one database. */
const FIRST_TABLES = `
CREATE TABLE traytide.kitchens (
  kitchen text PRIMARY KEY,
  epoch text NOT NULL,
  seq bigint NOT NULL DEFAULT 0,
  hash text NOT NULL DEFAULT '',
  devices bigint NOT NULL DEFAULT 0
);
COMMENT ON COLUMN traytide.kitchens.seq IS 'of the newest event: whoever appends must name it, and its hash';
COMMENT ON COLUMN traytide.kitchens.devices IS 'counts up whenever a device is added or forgotten';

CREATE TABLE traytide.events (
  kitchen text NOT NULL REFERENCES traytide.kitchens,
  seq bigint NOT NULL,
  type text NOT NULL,
  event text NOT NULL,
  hash text NOT NULL,
  PRIMARY KEY (kitchen, seq)
);
CREATE FUNCTION traytide.log_never_changes() RETURNS trigger LANGUAGE plpgsql AS $$
BEGIN RAISE EXCEPTION 'the log is append-only'; END $$;
CREATE TRIGGER events_never_change BEFORE UPDATE OR DELETE ON traytide.events
  FOR EACH ROW EXECUTE FUNCTION traytide.log_never_changes();
CREATE TRIGGER events_never_go BEFORE TRUNCATE ON traytide.events
  FOR EACH STATEMENT EXECUTE FUNCTION traytide.log_never_changes();

CREATE TABLE traytide.commands (
  kitchen text NOT NULL REFERENCES traytide.kitchens,
  command_id text NOT NULL,
  answer text NOT NULL,
  device_id text,
  body_sha256 text,
  PRIMARY KEY (kitchen, command_id)
);

CREATE TABLE traytide.snapshots (
  kitchen text NOT NULL REFERENCES traytide.kitchens,
  app text NOT NULL,
  seq bigint NOT NULL,
  sha256 text NOT NULL,
  state text NOT NULL,
  PRIMARY KEY (kitchen, app, seq)
);

CREATE TABLE traytide.set_aside (
  kitchen text NOT NULL REFERENCES traytide.kitchens,
  seq bigint NOT NULL,
  type text NOT NULL,
  reason text NOT NULL,
  event text NOT NULL,
  PRIMARY KEY (kitchen, seq)
);

CREATE TABLE traytide.devices (
  kitchen text NOT NULL REFERENCES traytide.kitchens,
  device_id text NOT NULL,
  token_sha256 text NOT NULL,
  kind text NOT NULL,
  person_id text NOT NULL,
  may_lead boolean NOT NULL,
  created_ms bigint NOT NULL,
  seen_ms bigint NOT NULL,
  forgotten_ms bigint,
  PRIMARY KEY (kitchen, device_id),
  UNIQUE (kitchen, token_sha256)
);

CREATE TABLE traytide.kept_values (
  kitchen text NOT NULL REFERENCES traytide.kitchens,
  key text NOT NULL,
  value text NOT NULL,
  PRIMARY KEY (kitchen, key)
);

CREATE TABLE traytide.photos (
  kitchen text NOT NULL REFERENCES traytide.kitchens,
  design_id text NOT NULL,
  jpeg bytea NOT NULL,
  PRIMARY KEY (kitchen, design_id)
);

CREATE UNLOGGED TABLE traytide.presence (
  kitchen text NOT NULL,
  server text NOT NULL,
  began_at timestamptz NOT NULL DEFAULT clock_timestamp(),
  at timestamptz NOT NULL DEFAULT clock_timestamp(),
  page text NOT NULL,
  PRIMARY KEY (kitchen, server)
);
COMMENT ON TABLE traytide.presence IS 'a row a server, written anew each second: who is here by its sockets';
`;

/** What brings the tables from one version to the next, oldest first. A new one goes to the end, and none is ever changed. */
const MIGRATIONS: readonly string[] = [FIRST_TABLES];

/** Sooner ones are no longer looked after by those who make PostgreSQL. */
const OLDEST_SERVER = 14;

/**
 * Makes the tables, or brings them up to date: one server at a time, all of it or nothing. Throws, in words, where PostgreSQL is too
 * old or a newer Traytide made them.
 */
export function readyTables(db: Postgres): Promise<void> {
  return db.transaction(async (query) => {
    const { rows: servers } = await query<{ number: string; shown: string }>(
      "SELECT current_setting('server_version_num') AS number, current_setting('server_version') AS shown",
    );
    const [server] = servers;
    if (Number(server?.number) < OLDEST_SERVER * 10_000)
      throw new WordedError((words) => words.server.postgres.tooOld(server?.shown ?? "?", OLDEST_SERVER));
    await query("SELECT pg_advisory_xact_lock(hashtext('traytide tables'))");
    const { rows: found } = await query("SELECT 1 WHERE to_regclass('traytide.tables') IS NOT NULL");
    if (found.length === 0) {
      await query("CREATE SCHEMA IF NOT EXISTS traytide");
      await query("CREATE TABLE traytide.tables (version integer NOT NULL)");
      await query("INSERT INTO traytide.tables VALUES (0)");
    }
    const { rows } = await query<{ version: number }>("SELECT version FROM traytide.tables");
    const version = rows[0]?.version ?? 0;
    if (version > MIGRATIONS.length)
      throw new WordedError(({ server }) => server.data.newer(version, MIGRATIONS.length));
    for (const migration of MIGRATIONS.slice(version)) await query(migration);
    if (version < MIGRATIONS.length)
      await query("UPDATE traytide.tables SET version = $1", [MIGRATIONS.length]);
  });
}
