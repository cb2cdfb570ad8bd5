import type { KitchenEvent } from "#shared/kitchen/model/event.ts";
import type { Kitchen } from "#shared/kitchen/model/state.ts";
import type { CommandAnswer } from "#shared/protocol/command.ts";

/** A command that was decided: what happened, and the answer to give however often it is sent. */
export interface Decided {
  commandId: string;
  answer: CommandAnswer;
  events: readonly KitchenEvent[];
  /** The device that sent it; absent for the kitchen's own. */
  deviceId?: string;
  /** Names what it asked for (command-hash.ts). */
  sha256?: string;
}

/** The answer a command was given, and what is known of the command; those of older logs name neither device nor body. */
export type Given = Pick<Decided, "answer" | "deviceId" | "sha256">;

export interface Recorded {
  seq: number;
  event: KitchenEvent;
  /** The log's running hash after it. */
  hash: string;
}

/** A record that could not be read back: it stays in the log, and the kitchen goes on without it. */
export interface SetAside {
  seq: number;
  type: string;
  reason: string;
}

/** A stretch of the log. `toSeq` is the last record looked at, readable or not; equal to the seq asked for at the end. */
export interface Page {
  records: readonly Recorded[];
  setAside: readonly SetAside[];
  toSeq: number;
}

export interface KitchenSnapshot {
  seq: number;
  /** The log's running hash there, where it is known: a snapshot of another course of events is not kept. */
  hash?: string;
  kitchen: Kitchen;
}

/**
 * The log is not as whoever appends believed: it stands elsewhere, or a command was decided before. Nothing was appended; once what
 * is new was read, the same may be decided again.
 */
export class StaleLog extends Error {
  override name = "StaleLog";
  constructor(options?: ErrorOptions) {
    super("the log is not as believed", options);
  }
}

/**
 * Where a kitchen's events are kept: append-only. The sequence numbers are 1, 2, 3 … without gaps.
 * Whatever has been appended survives a power cut once `append` has resolved.
 */
export interface EventLog {
  /** Made once a log: another epoch is another log. */
  readonly epoch: string;
  latestSeq: () => Promise<number>;
  /**
   * All of the batch or nothing; resolves with the log's running hash after each event. Rejects with `StaleLog` when the log does
   * not stand at `fromSeq` with that running hash, or a command was decided before.
   */
  append: (batch: readonly Decided[], fromSeq: number, fromHash?: string) => Promise<readonly string[]>;
  /**
   * The running hash of everything up to `seq`: the same only in a log with the same events, so a copy that was put back and went
   * another way is known from it. Undefined where the log has no such event.
   */
  hashAt: (seq: number) => Promise<string | undefined>;
  /** What was answered before, by command id. */
  answers: (commandIds: readonly string[]) => Promise<ReadonlyMap<string, Given>>;
  /** Up to `limit` records after `seq`, oldest first. */
  since: (seq: number, limit: number) => Promise<Page>;
  /** Notes a record that was passed over, beside the log. Noting it again changes nothing. */
  setAside: (record: SetAside) => Promise<void>;
  saveSnapshot: (snapshot: KitchenSnapshot) => Promise<void>;
  /**
   * The newest snapshot that is whole; damaged ones are passed over, and named in `damaged`. `unreadable` says why, where it
   * cannot even be told which there are.
   */
  loadSnapshot: () => Promise<{
    snapshot?: KitchenSnapshot;
    damaged: readonly number[];
    unreadable?: string;
  }>;
}

/** Reads a whole log in pages, giving other work a turn between them. */
export async function* readAll(log: EventLog, pageSize = 500): AsyncGenerator<Recorded> {
  for (let seq = 0; ;) {
    const page = await log.since(seq, pageSize);
    yield* page.records;
    if (page.toSeq === seq) return;
    seq = page.toSeq;
    await new Promise((resolve) => setImmediate(resolve));
  }
}
