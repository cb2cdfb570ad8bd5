import { mkdtempSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { openKitchenDb } from "#server/log/kitchen-db.ts";
import { openSqlite } from "#server/log/sqlite.ts";
import { startServer } from "../support/server-app.ts";
import { connect } from "../support/server-socket.ts";

const TAPS = 200;
const ALONE = 60;

/** Taps on the wire, from a screen's emit to the server's word, on a log that is synchronous on disk. */
export interface TapsBench {
  /** Median of taps made one after another. */
  aloneMs: number;
  /** The last of 200 taps made at once. */
  allAtOnceMs: number;
  /** The yardstick in the same run: one durable commit of one row, median. */
  commitMs: number;
  aloneRatio: number;
  allAtOnceRatio: number;
}

/** Measures taps beside bare durable commits on the same disk. */
export async function benchTaps(): Promise<TapsBench> {
  const folder = mkdtempSync(join(tmpdir(), "traytide-bench-"));
  const db = openKitchenDb(join(folder, "kitchen.db"));
  const server = await startServer({ db });
  try {
    const { token } = await server.join("Bench");
    const screen = await connect(server.port, token);
    let sent = 0;
    const tap = (): Promise<unknown> =>
      screen.socket.timeout(30_000).emitWithAck("command", {
        type: "put-icing",
        commandId: `bench-${(sent += 1)}`,
        icing: { id: `i${sent % 200}`, name: `Icing ${sent % 200}`, hex: "#8fc7c3" },
      } as never);
    for (let k = 0; k < 20; k += 1) await tap();
    const alone: number[] = [];
    for (let k = 0; k < ALONE; k += 1) {
      const from = performance.now();
      await tap();
      alone.push(performance.now() - from);
      server.advance(200);
    }
    const from = performance.now();
    await Promise.all(Array.from({ length: TAPS }, tap));
    const allAtOnceMs = performance.now() - from;
    screen.close();
    const aloneMs = median(alone);
    const commitMs = bareCommitMs(join(folder, "bare.db"));
    return {
      aloneMs,
      allAtOnceMs,
      commitMs,
      aloneRatio: aloneMs / commitMs,
      allAtOnceRatio: allAtOnceMs / commitMs,
    };
  } finally {
    await server.close();
    db.close();
    rmSync(folder, { recursive: true, force: true });
  }
}

function bareCommitMs(path: string): number {
  const bare = openSqlite(path);
  bare.pragma("journal_mode = WAL");
  bare.pragma("synchronous = FULL");
  bare.exec("create table line (id integer primary key, text text not null)");
  const insert = bare.prepare("insert into line (text) values (?)");
  const took = Array.from({ length: ALONE }, () => {
    const from = performance.now();
    insert.run("x".repeat(200));
    return performance.now() - from;
  });
  bare.close();
  return median(took);
}

const median = (values: readonly number[]): number =>
  values.toSorted((a, b) => a - b)[Math.floor(values.length / 2)] ?? Number.NaN;
