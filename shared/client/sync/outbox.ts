import type { CommandId } from "#shared/ids.ts";
import type { Command, CommandInput } from "#shared/kitchen/model/command.ts";
import type { CommandAnswer, RefusedAnswer } from "#shared/protocol/command.ts";
import type { Timer } from "./timer.ts";

/** A command from the tap until its maker knows what became of it. `n` is its place in the line. */
export type OutboxItem =
  | { n: number; command: Command; is: "waiting" }
  /** Committed, and not yet in the changes this screen has heard. */
  | { n: number; command: Command; is: "landed"; seq: number }
  | { n: number; command: Command; is: "refused"; refusal: RefusedAnswer };

type LandedItem = Extract<OutboxItem, { is: "landed" }>;
export type RefusedItem = Extract<OutboxItem, { is: "refused" }>;

/** Taps that were refused after they were made. */
export const refusedOf = (items: readonly OutboxItem[]): RefusedItem[] =>
  items.filter((item): item is RefusedItem => item.is === "refused");

/** The same tap with its risk taken, and when it was made; undefined where no risk is what it was refused for. */
export function riskTaken({
  command,
  refusal,
}: RefusedItem): { input: CommandInput; atMs: number | undefined } | undefined {
  if (refusal.reason !== "risk") return undefined;
  const { commandId: _id, atMs, ...input } = command;
  return { input: { ...input, acceptRisk: true } as CommandInput, atMs };
}

/** Where waiting and refused commands outlive a reload. */
export interface OutboxStore {
  load(): Promise<readonly OutboxItem[]>;
  put(item: OutboxItem): Promise<void>;
  drop(commandId: string): Promise<void>;
}

export interface OutboxPorts {
  store: OutboxStore;
  /** Sends one command; rejects when no answer came in time. */
  ask(command: Command): Promise<CommandAnswer>;
  isOpen(): boolean;
  /** Kitchen time now, asked of the server anew; rejects where it does not answer. */
  askNowMs(): Promise<number>;
  newId(): string;
  timer: Timer;
  onChange(): void;
  /** What waits was timed by a clock ahead of the server's, and moved back to it. */
  onMovedBack?(): void;
}

export interface Outbox {
  items(): readonly OutboxItem[];
  /** Whether the store works: without it a reload loses what waits. */
  keeps(): boolean;
  /** Takes up what an earlier page left. */
  load(): Promise<void>;
  add(command: Command): void;
  /** The connection opened, or may have. */
  send(): void;
  /** What a change contains that reaches from one sequence number to another. */
  confirm(actIds: ReadonlySet<string>, fromSeq: number, seq: number): void;
  /** A snapshot was heard, which does not say what it contains: what had landed is asked for again. */
  askAgain(): void;
  /** The maker has read the refusal. */
  dismiss(commandId: string): void;
  /** Sends and writes nothing any more. */
  close(): void;
}

const RETRY_MS = 500;

/**
 * Commands wait here in order and go one at a time, the same id each time, until answered: each lands once. What was
 * refused stays until its maker has read it.
 */
export function createOutbox(ports: OutboxPorts): Outbox {
  let items: readonly OutboxItem[] = [];
  let keeps = true;
  let sending = false;
  let isClosed = false;

  const change = (next: readonly OutboxItem[]): void => {
    items = next;
    ports.onChange();
  };
  const keep = (write: Promise<void>): void => {
    write.catch(() => {
      keeps = false;
      ports.onChange();
    });
  };
  /** The item, once it is on its way into the store. */
  const kept = (item: OutboxItem): OutboxItem => {
    keep(ports.store.put(item));
    return item;
  };
  const replace = (item: OutboxItem): void =>
    change(items.map((other) => (other.command.commandId === item.command.commandId ? item : other)));
  const remove = (gone: (item: OutboxItem) => boolean): void => {
    const leaving = items.filter(gone);
    if (leaving.length === 0) return;
    for (const { command } of leaving) keep(ports.store.drop(command.commandId));
    change(items.filter((item) => !gone(item)));
  };
  /**
   * What was acknowledged and is not in what this screen has heard since: it changed nothing, or the log was put back to a time
   * before it. The same id goes again, and gets the same answer or is done anew, at its own time.
   */
  function waitAgain(isMissing: (item: LandedItem) => boolean): void {
    const isAgain = (item: OutboxItem): item is LandedItem => item.is === "landed" && isMissing(item);
    if (!items.some(isAgain)) return;
    change(
      items.map((item) => (isAgain(item) ? kept({ n: item.n, command: item.command, is: "waiting" }) : item)),
    );
    send();
  }

  function settle(commandId: string, answer: CommandAnswer): void {
    const item = items.find((item) => item.command.commandId === commandId);
    // The changes told of it before the answer came, or nobody waits for it any more.
    if (item?.is !== "waiting" || isClosed) return;
    const { n, command } = item;
    if (!answer.ok) return replace(kept({ n, command, is: "refused", refusal: answer }));
    keep(ports.store.drop(commandId));
    replace({ n, command, is: "landed", seq: answer.seq });
  }

  async function sendOne(command: Command): Promise<void> {
    const answer = await ports.ask(command);
    const isBadTime = !answer.ok && answer.reason === "bad-time";
    const nowMs = isBadTime ? await ports.askNowMs() : 0;
    if (isBadTime && (command.atMs ?? 0) > nowMs && !isClosed) moveBack(command.commandId, nowMs);
    else settle(command.commandId, answer);
  }

  /**
   * The server's clock is behind the one by which these taps were timed, as where it lost power and its time. All that waits
   * moves back together, the last to now: order and spans stay. What was refused goes under a new id: its own has its answer.
   */
  function moveBack(refusedId: CommandId, nowMs: number): void {
    const newId = ports.newId() as CommandId;
    const times = items.flatMap((item) => (item.is === "waiting" ? (item.command.atMs ?? nowMs) : []));
    const byMs = Math.max(...times) - nowMs;
    const renamed = (id: CommandId): CommandId => (id === refusedId ? newId : id);
    change(
      items.map((item) => {
        if (item.is !== "waiting") return item;
        const { commandId, atMs = nowMs } = item.command;
        const command = { ...item.command, commandId: renamed(commandId), atMs: Math.floor(atMs - byMs) };
        if ("actId" in command) command.actId = renamed(command.actId);
        return kept({ ...item, command });
      }),
    );
    keep(ports.store.drop(refusedId));
    ports.onMovedBack?.();
  }

  const nextToSend = (): OutboxItem | undefined =>
    ports.isOpen() && !isClosed ? items.find((item) => item.is === "waiting") : undefined;

  async function sendWaiting(): Promise<void> {
    if (sending) return;
    sending = true;
    try {
      for (let item = nextToSend(); item !== undefined; item = nextToSend()) await sendOne(item.command);
    } catch {
      // Unanswered: it may have landed or not. The same id goes again.
      if (!isClosed) ports.timer.after(RETRY_MS, send);
    } finally {
      sending = false;
    }
  }
  const send = (): void => void sendWaiting();

  return {
    items: () => items,
    keeps: () => keeps,
    async load() {
      try {
        const left = await ports.store.load();
        const ids = new Set(items.map((item) => item.command.commandId));
        const older = left.filter((item) => !ids.has(item.command.commandId)).toSorted((a, b) => a.n - b.n);
        // What was tapped before the store had answered comes after what an earlier page left.
        const after = (older.at(-1)?.n ?? -1) + 1;
        const newer = items.map((item) => Object.assign({}, item, { n: after + item.n }));
        change([...older, ...newer]);
        for (const item of newer) keep(ports.store.put(item));
      } catch {
        keeps = false;
        ports.onChange();
      }
      send();
    },
    add(command) {
      items = [...items, kept({ n: (items.at(-1)?.n ?? -1) + 1, command, is: "waiting" })];
      // On its way first: to show it takes a phone longer than to send it.
      send();
      ports.onChange();
    },
    send,
    confirm(actIds, fromSeq, seq) {
      remove(
        (item) =>
          (item.is === "landed" && item.seq <= fromSeq) ||
          (item.is !== "refused" && actIds.has(item.command.commandId)),
      );
      waitAgain((item) => item.seq <= seq);
    },
    askAgain: () => waitAgain(() => true),
    close() {
      isClosed = true;
    },
    dismiss(commandId) {
      remove((item) => item.is === "refused" && item.command.commandId === commandId);
    },
  };
}
