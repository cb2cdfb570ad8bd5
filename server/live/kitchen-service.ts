import type { AlertGroup } from "#shared/kitchen/model/alert-kinds.ts";
import type { ActiveAlert } from "#shared/kitchen/model/alert.ts";
import type { Command } from "#shared/kitchen/model/command.ts";
import type { KitchenEvent } from "#shared/kitchen/model/event.ts";
import { evolve } from "#shared/kitchen/events/evolve.ts";
import type { Kitchen } from "#shared/kitchen/model/state.ts";
import type { CommandAnswer } from "#shared/protocol/command.ts";
import { type Actor, KITCHEN } from "./actor.ts";
import type { CrashAt } from "#server/crash-points.ts";
import { WordedError } from "#server/words.ts";
import { type EventLog, type Given, StaleLog } from "#server/log/event-log.ts";
import type { LogHead } from "#server/log/store.ts";
import { alertRules, type AlertRulesDeps } from "./alert-rules.ts";
import { batchDecider, type Waiting } from "./decide-batch.ts";
import { replay } from "./replay.ts";
import { watchSaving } from "./saving.ts";

/** What one batch came to, told once it is committed. */
export interface Committed {
  fromSeq: number;
  seq: number;
  /** The log's running hash at `fromSeq` and at `seq`. */
  fromHash: string;
  hash: string;
  events: readonly KitchenEvent[];
}

/** The log could not be written: nothing was decided, and the same command may be sent again. */
export class NotSaved extends WordedError {
  override name = "NotSaved";
}

export interface KitchenServiceDeps extends AlertRulesDeps {
  log: EventLog;
  /** Runs an act in the next turn of the event loop (setImmediate). */
  nextTurn: (act: () => void) => void;
  crash?: CrashAt;
}

/** Decides for a kitchen: decide, append, evolve, acknowledge, publish, in that order. Other servers may append to the same log. */
export interface KitchenService {
  readonly epoch: string;
  kitchen: () => Kitchen;
  seq: () => number;
  /** The log's running hash at `seq`. */
  hash: () => string;
  /** Whether the log holds just what it did where its running hash was this one. */
  holds: (seq: number, hash: string) => Promise<boolean>;
  /** The latest moment in the log as it was opened; 0 in an empty one. */
  readonly openedAtMs: number;
  /** Whether the last attempt to write the log succeeded. */
  isSaving: () => boolean;
  /** Why it did not, while it did not. */
  notSavedFor: () => unknown;
  /** The alerts as they would stand, while the log cannot be written: an alarm waits for no disk. Undefined while it can. */
  unsaved: () => readonly ActiveAlert[] | undefined;
  /** Groups of alerts whose rule failed when they were last looked for. */
  failedRules: () => readonly AlertGroup[];
  /** Resolves with the answer once it is committed; rejects with NotSaved when the log could not be written. */
  submit: (command: Command, actor: Actor) => Promise<CommandAnswer>;
  /** The kitchen's own commands. What yields no events leaves no trace. */
  system: (command: Command) => Promise<CommandAnswer>;
  /** The events after `seq` if they are still at hand, else undefined. Not those of another course of events than `hash` tells of. */
  recentSince: (seq: number, hash?: string) => readonly KitchenEvent[] | undefined;
  onCommitted: (listener: (committed: Committed) => void) => void;
  /** The log stands there now, as another server may have appended: what is new is read and told like any other commit. Resolves once it was looked at. */
  stands: (head: LogHead) => Promise<void>;
  /** The log can, or can no longer, be written, as whoever looks after it found. */
  reached: (isReached: boolean, cause?: unknown) => void;
  /** Told when the log had gone another way than this server, and all of it was read again. */
  onReplaced: (listener: () => void) => void;
  /** Told when the log can no longer be written or alerts no longer be checked, and when they can again. */
  onTrouble: (listener: () => void) => void;
  /** Takes no more commands, finishes what is under way, saves a snapshot. */
  close: () => Promise<void>;
}

/** Commands decided in one batch: bounds how long a turn of the event loop can take. */
const BATCH_MOST = 400;
const SNAPSHOT_EVERY = 2000;
/** Events of other servers read at once. */
const CATCH_UP_PAGE = 500;
/** Each time another server was first: it is some 10 ms at most, and others get their turn. */
const TRIES = 50;

const latestOf = (events: readonly KitchenEvent[], beforeMs: number): number =>
  events.reduce((latest, { atMs }) => Math.max(latest, atMs), beforeMs);

/** A batch that was decided and, where it came to anything, appended. */
interface Appended {
  settle: () => void;
  committed?: Committed;
}

/** Opens a kitchen from its log: the newest whole snapshot, then every event after it. */
export async function openKitchenService(deps: KitchenServiceDeps): Promise<KitchenService> {
  const { log, report } = deps;
  const opened = await replay(log, report);
  let { kitchen, seq, savedSeq, recent, latestMs } = opened;
  let { epoch } = log;
  let heard: LogHead | undefined;
  let caughtUp: (() => void)[] = [];
  let queue: Waiting[] = [];
  let flushing: Promise<void> | undefined;
  let isClosed = false;
  const listeners: ((committed: Committed) => void)[] = [];
  const troubleListeners: (() => void)[] = [];
  const replacedListeners: (() => void)[] = [];
  const trouble = (): void => {
    for (const listener of troubleListeners) listener();
  };
  const alerts = alertRules(deps, () => kitchen, trouble);
  const saving = watchSaving(report, () => {
    alerts.forgetUnsaved();
    trouble();
  });
  const decideBatch = batchDecider({ forecasts: deps.forecasts, alerts, report });

  function schedule(): void {
    flushing ??= new Promise<void>((resolve) => deps.nextTurn(resolve)).then(flush).finally(() => {
      flushing = undefined;
      if (queue.length > 0 || heard !== undefined) schedule();
    });
  }

  const isHere = (head: LogHead): boolean =>
    head.epoch === epoch && head.seq === seq && head.hash === recent.hash();

  /** Reads what other servers appended; everything, where the log is not the one that this server came from. */
  async function catchUp(): Promise<void> {
    if (log.epoch !== epoch || (await log.hashAt(seq)) !== recent.hash()) return reopen();
    for (;;) {
      const page = await log.since(seq, CATCH_UP_PAGE);
      if (page.toSeq === seq) return;
      // It says what cannot be read, and notes it.
      if (page.setAside.length > 0) return reopen();
      const [fromSeq, fromHash] = [seq, recent.hash()];
      const events = page.records.map(({ event }) => event);
      kitchen = events.reduce(evolve, kitchen);
      seq = page.toSeq;
      latestMs = latestOf(events, latestMs);
      recent.add(
        events,
        page.records.map(({ hash }) => hash),
      );
      publish({ fromSeq, seq, fromHash, hash: recent.hash(), events });
    }
  }

  async function reopen(): Promise<void> {
    const again = await replay(log, report);
    ({ kitchen, seq, savedSeq, recent, latestMs } = again);
    ({ epoch } = log);
    for (const listener of replacedListeners) listener();
  }

  /** Decides and appends a batch, however often another server was first. */
  async function commitAtLast(batch: readonly Waiting[]): Promise<Appended> {
    // Of a command that was decided before, the log says so: only then are the answers asked for.
    let answers: ReadonlyMap<string, Given> = new Map();
    for (let tries = 1; ; tries += 1) {
      try {
        return await commit(batch, answers);
      } catch (error) {
        if (!(error instanceof StaleLog) || tries === TRIES) throw error;
        await catchUp();
        answers = await log.answers(batch.map(({ command }) => command.commandId));
      }
    }
  }

  async function flush(): Promise<void> {
    const head = heard;
    heard = undefined;
    const waiting = caughtUp;
    caughtUp = [];
    if (head !== undefined && !isHere(head)) await catchUp().catch(saving.cannot);
    for (const resolve of waiting) resolve();
    if (queue.length === 0) return;
    const batch = queue.slice(0, BATCH_MOST);
    queue = queue.slice(BATCH_MOST);
    try {
      const { settle, committed } = await commitAtLast(batch);
      settle();
      // Whoever waits for an answer sends it now: telling everybody, and forecasting, come after it.
      await new Promise<void>((resolve) => process.nextTick(resolve));
      if (deps.crash !== undefined) await deps.crash("after-acknowledge");
      if (committed !== undefined && committed.events.length > 0) publish(committed);
    } catch (error) {
      saving.cannot(error);
      const reason = new NotSaved(({ server }) => server.http.notSaved);
      for (const waiting of batch) waiting.reject(reason);
    }
  }

  /** Decides a batch and appends it; what it came to may be told, and its senders answered, only once it is. */
  async function commit(batch: readonly Waiting[], answers: ReadonlyMap<string, Given>): Promise<Appended> {
    // What another server's clock, a little ahead, has found due is not undone by this one's.
    const nowMs = Math.max(deps.nowMs(), latestMs);
    const { decided, events, settle, kitchen: next } = decideBatch(batch, { kitchen, seq, nowMs, answers });
    if (decided.length === 0) return { settle };
    const hashes = await log.append(decided, seq, recent.hash());
    saving.can();
    const [fromSeq, fromHash] = [seq, recent.hash()];
    kitchen = next;
    seq += events.length;
    latestMs = latestOf(events, latestMs);
    recent.add(events, hashes);
    return { settle, committed: { fromSeq, seq, fromHash, hash: recent.hash(), events } };
  }

  function publish(committed: Committed): void {
    for (const listener of listeners) {
      try {
        listener(committed);
      } catch (error) {
        report(({ server }) => server.log.listenerFailed, error);
      }
    }
    if (seq - savedSeq >= SNAPSHOT_EVERY) void save();
  }

  async function save(): Promise<void> {
    if (savedSeq === seq) return;
    savedSeq = seq;
    try {
      await log.saveSnapshot({ seq, hash: recent.hash(), kitchen });
    } catch (error) {
      report(({ server }) => server.log.snapshotNotSaved, error);
    }
  }

  async function idle(): Promise<void> {
    if (flushing === undefined) return;
    await flushing;
    await idle();
  }

  const submit = (command: Command, actor: Actor): Promise<CommandAnswer> =>
    new Promise((resolve, reject) => {
      if (isClosed) return reject(new NotSaved(({ server }) => server.http.closing));
      queue.push({ command, actor, resolve, reject });
      schedule();
    });

  return {
    get epoch() {
      return epoch;
    },
    kitchen: () => kitchen,
    seq: () => seq,
    hash: () => recent.hash(),
    holds: async (at, expected) => (await log.hashAt(at)) === expected,
    openedAtMs: opened.latestMs,
    isSaving: saving.isOn,
    notSavedFor: saving.failedFor,
    failedRules: alerts.failed,
    unsaved: () => (saving.isOn() ? undefined : alerts.unsaved()),
    submit,
    system: (command) => submit(command, KITCHEN),
    recentSince: (since, expected) => recent.last(seq - since, expected),
    onCommitted: (listener) => void listeners.push(listener),
    stands: (head) => {
      if (isClosed || isHere(head)) return Promise.resolve();
      heard = head;
      schedule();
      return new Promise((resolve) => void caughtUp.push(resolve));
    },
    reached: (isReached, cause) => (isReached ? saving.can() : saving.cannot(cause)),
    onReplaced: (listener) => void replacedListeners.push(listener),
    onTrouble: (listener) => void troubleListeners.push(listener),
    close: async () => {
      isClosed = true;
      await idle();
      await save();
    },
  };
}
