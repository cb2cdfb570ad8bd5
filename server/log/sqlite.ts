import Database from "libsql";

/** What a statement may be given. The library ends the process over anything else, so it never sees it. */
type Bound = null | number | bigint | string | Uint8Array;

export interface Statement<Params extends readonly Bound[], Row> {
  run: (...params: Params) => { changes: number };
  get: (...params: Params) => Row | undefined;
  all: (...params: Params) => Row[];
}

/** One connection to a database file. Every failure is a `SqliteFailure`. */
export interface Sqlite {
  readonly file: string;
  prepare: <Params extends readonly Bound[] = Bound[], Row = unknown>(sql: string) => Statement<Params, Row>;
  exec: (sql: string) => void;
  /** Sets a pragma, or asks for its value. */
  pragma: (pragma: string) => unknown;
  /** The act, run in a transaction: all of it or nothing. */
  transaction: <Params extends readonly unknown[], Result>(
    act: (...params: Params) => Result,
  ) => (...params: Params) => Result;
  close: () => void;
}

/** What SQLite could not do. `code` is SQLite's own name for it, such as SQLITE_FULL. */
export class SqliteFailure extends Error {
  override name = "SqliteFailure";
  readonly code: string;
  constructor(message: string, code: string, cause: unknown) {
    super(message, { cause });
    this.code = code;
  }
}

/** How long a statement waits for another connection's lock, ms. */
const BUSY_MS = 5000;

/** Opens (and makes, when absent) a database file. */
export function openSqlite(file: string, busyMs = BUSY_MS): Sqlite {
  const db = guarded(() => new Database(file, { timeout: busyMs }));
  let isOpen = true;
  const exec = (sql: string): void => guarded(() => void db.exec(sql));
  const pragma = (text: string): unknown => {
    const [row] = guarded(() => db.prepare(`PRAGMA ${text}`).all()) as object[];
    return row === undefined ? undefined : Object.values(row)[0];
  };

  function prepare<Params extends readonly Bound[], Row>(sql: string): Statement<Params, Row> {
    const statement = guarded(() => db.prepare(sql));
    // Handed over as one list: a lone null would be taken for a missing object of named parameters.
    const bound = (params: Params): [Params] => {
      if (!isOpen) throw new SqliteFailure("the database is closed", "SQLITE_MISUSE", undefined);
      return [params.map(checked) as unknown as Params];
    };
    return {
      run: (...params) => guarded(() => ({ changes: statement.run(...bound(params)).changes })),
      get: (...params) => guarded(() => withoutMetadata(statement.get(...bound(params))) as Row | undefined),
      all: (...params) => guarded(() => statement.all(...bound(params)) as Row[]),
    };
  }

  return {
    file,
    prepare,
    exec,
    pragma,
    transaction:
      (act) =>
      (...params) => {
        exec("BEGIN");
        try {
          const result = act(...params);
          exec("COMMIT");
          return result;
        } catch (error) {
          // After a full disk or a read error SQLite has rolled back already: the first failure is the one to tell of.
          if (db.inTransaction) exec("ROLLBACK");
          throw error;
        }
      },
    close: () => {
      if (!isOpen) return;
      isOpen = false;
      leaveTheFile(db);
      guarded(() => db.close());
    },
  };
}

/**
 * Ends what a connection holds of its file. The library keeps a connection with statements open until they are
 * collected as garbage: without this, its write-ahead log and locks would outlive it in the same process.
 */
function leaveTheFile(db: Database.Database): void {
  try {
    if (db.inTransaction) db.exec("ROLLBACK");
    db.exec("PRAGMA busy_timeout = 0");
    db.prepare("PRAGMA wal_checkpoint(TRUNCATE)").all();
    db.prepare("PRAGMA journal_mode = DELETE").all();
  } catch {
    // Another connection has the file open, or the disk fails: what is committed is in the write-ahead log.
  }
}

function checked(value: Bound): Bound {
  const isBound =
    value === null || ["number", "bigint", "string"].includes(typeof value) || value instanceof Uint8Array;
  if (!isBound) throw new TypeError(`a ${typeof value} cannot be stored in a database`);
  return value;
}

/** A single row comes with the library's own figures beside its columns. */
function withoutMetadata(row: unknown): unknown {
  if (typeof row === "object" && row !== null) Reflect.deleteProperty(row, "_metadata");
  return row;
}

function guarded<Result>(act: () => Result): Result {
  try {
    return act();
  } catch (error) {
    if (!(error instanceof Error) || error instanceof TypeError) throw error;
    const { code } = error as { code?: unknown };
    // A file that cannot be opened at all comes without a code, its number at the end of the text.
    const isNoFile = error.message.startsWith("ConnectionFailed");
    const named = typeof code === "string" && code !== "" ? code : "SQLITE_ERROR";
    throw new SqliteFailure(
      isNoFile ? "unable to open the database file" : error.message,
      isNoFile ? "SQLITE_CANTOPEN" : named,
      error,
    );
  }
}
