import { Client, type ClientConfig, Pool, type PoolClient, type QueryResultRow } from "pg";
import { asError } from "#server/error-message.ts";

/** Longer than this a statement of a second's work never takes: the network is gone, or the database hangs. */
export const SOON_MS = 2000;
/** A long read, a snapshot, a move. */
const LATER_MS = 60_000;
const CONNECT_MS = 2000;
const CONNECTIONS = 4;
const SYNCED =
  "SELECT set_config('synchronous_commit', 'on', false) WHERE current_setting('synchronous_commit') = 'off'";

export interface Rows<Row> {
  rows: Row[];
  count: number;
}

export interface Statement {
  text: string;
  /** Kept parsed by the database under this name. */
  name?: string;
  withinMs?: number;
}

/** Connections to a PostgreSQL database. A statement is a transaction of its own. */
export interface Postgres {
  query: <Row extends QueryResultRow>(
    statement: Statement | string,
    values?: readonly unknown[],
  ) => Promise<Rows<Row>>;
  /** All that the act asks, in one transaction. */
  transaction: <Result>(act: (query: Postgres["query"]) => Promise<Result>) => Promise<Result>;
  /** A connection of its own, not yet made. */
  client: () => Client;
  close: () => Promise<void>;
}

export function connectPostgres(url: string): Postgres {
  const config: ClientConfig = {
    connectionString: url,
    application_name: "traytide",
    connectionTimeoutMillis: CONNECT_MS,
    keepAlive: true,
    // What a server left behind that is gone holds nothing up for long.
    statement_timeout: LATER_MS,
    idle_in_transaction_session_timeout: LATER_MS,
  };
  const pool = new Pool({
    ...config,
    max: CONNECTIONS,
    // An acknowledged command survives a power cut, whatever the database's own default. A stronger one stays.
    onConnect: (client) => client.query(SYNCED),
  });
  // One that breaks while it waits is replaced by the next that is asked for.
  pool.on("error", () => undefined);
  const queryOn =
    (on: Pool | PoolClient): Postgres["query"] =>
    async <Row extends QueryResultRow>(statement: Statement | string, values: readonly unknown[] = []) => {
      const { withinMs = LATER_MS, ...asked } =
        typeof statement === "string" ? { text: statement } : statement;
      const result = await on.query<Row>({ ...asked, values: [...values], query_timeout: withinMs } as never);
      return { rows: result.rows, count: result.rowCount ?? 0 };
    };

  async function transaction<Result>(act: (query: Postgres["query"]) => Promise<Result>): Promise<Result> {
    const client = await pool.connect();
    // Without a listener, a connection that breaks between two statements would end the process.
    const ignore = (): void => undefined;
    client.on("error", ignore);
    let failure: Error | undefined;
    try {
      await client.query("BEGIN");
      const result = await act(queryOn(client));
      await client.query("COMMIT");
      return result;
    } catch (error) {
      failure = asError(error);
      throw error;
    } finally {
      client.off("error", ignore);
      // One on which something failed is closed, which rolls back whatever it began.
      client.release(failure);
    }
  }

  return {
    query: queryOn(pool),
    transaction,
    client: () => new Client(config),
    close: () => pool.end(),
  };
}
