import { mkdtempSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { nanoid } from "nanoid";
import { openKitchenDb } from "#server/log/kitchen-db.ts";
import { EMPTY_LOG_HASH, nextLogHash } from "#server/log/log-hash.ts";
import { sqliteEventLog } from "#server/log/sqlite-event-log.ts";
import type { KitchenEvent } from "#shared/kitchen/model/event.ts";
import { busyWeeks } from "../../support/server-big-log.ts";
import { startProcess } from "../../support/server-process.ts";

const EVENTS = 200_000;
const TRAYS_A_DAY = 300;
const A_BATCH = 2000;
const RUNS = 3;

/** A server's start on a long log without a snapshot, until it has said its address; medians, ms. */
export interface StartBench {
  events: number;
  startMs: number;
  /** The same server's start on an empty folder. */
  emptyMs: number;
  /** The floor: the same texts parsed as JSON and hashed, with nothing made of them. */
  jsonMs: number;
}

export async function benchStart(): Promise<StartBench> {
  const [folder, empty] = ["long", "empty"].map((name) => mkdtempSync(join(tmpdir(), `traytide-${name}-`)));
  try {
    const texts = await fill(join(folder!, "kitchen.db"));
    const [starts, empties, floors]: number[][] = [[], [], []];
    for (let run = 0; run < RUNS; run += 1) {
      floors!.push(jsonMs(texts));
      empties!.push(await startMs(empty!));
      starts!.push(await startMs(folder!));
    }
    const [start = Number.NaN, none = Number.NaN, json = Number.NaN] = [starts, empties, floors].map(
      (times) => times!.toSorted((a, b) => a - b)[Math.floor(RUNS / 2)],
    );
    return { events: EVENTS, startMs: start, emptyMs: none, jsonMs: json };
  } finally {
    for (const one of [folder, empty]) rmSync(one!, { recursive: true, force: true });
  }
}

async function fill(file: string): Promise<string[]> {
  const db = openKitchenDb(file);
  const log = sqliteEventLog(db, "bench", nanoid);
  const texts: string[] = [];
  let batch: KitchenEvent[] = [];
  const write = async (): Promise<void> => {
    const seq = texts.length;
    await log.append([{ commandId: `fill-${seq}`, answer: { ok: true, seq }, events: batch }], seq);
    texts.push(...batch.map((event) => JSON.stringify(event)));
    batch = [];
  };
  for (const event of busyWeeks(EVENTS, TRAYS_A_DAY)) {
    batch.push(event);
    if (batch.length === A_BATCH) await write();
  }
  if (batch.length > 0) await write();
  db.close();
  return texts;
}

/** Killed, so that it saves no snapshot and its next start is as long. */
async function startMs(folder: string): Promise<number> {
  const fromMs = performance.now();
  const server = await startProcess(folder, { env: { NODE_ENV: "production" } });
  const tookMs = performance.now() - fromMs;
  await server.end("SIGKILL");
  return tookMs;
}

function jsonMs(texts: readonly string[]): number {
  const fromMs = performance.now();
  let hash = EMPTY_LOG_HASH;
  for (const text of texts) {
    JSON.parse(text);
    hash = nextLogHash(hash, text);
  }
  return performance.now() - fromMs;
}
