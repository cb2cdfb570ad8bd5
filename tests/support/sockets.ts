import type { LiveSocket, OpenSocket, SocketHandlers } from "#shared/client/sync/socket.ts";
import type { Timer } from "#shared/client/sync/timer.ts";
import type { PersonId } from "#shared/ids.ts";
import type { Command } from "#shared/kitchen/model/command.ts";
import { decide } from "#shared/kitchen/commands/decide.ts";
import type { KitchenEvent } from "#shared/kitchen/model/event.ts";
import { evolve } from "#shared/kitchen/events/evolve.ts";
import { EMPTY_KITCHEN } from "#shared/kitchen/events/empty-kitchen.ts";
import { NO_FORECASTS } from "#shared/kitchen/model/forecast.ts";
import type { Forecasts } from "#shared/kitchen/model/forecast.ts";
import type { Kitchen } from "#shared/kitchen/model/state.ts";
import type { Change } from "#shared/protocol/change.ts";
import type { CommandAnswer } from "#shared/protocol/command.ts";
import type { Hello } from "#shared/protocol/hello.ts";
import type { Snapshot } from "#shared/protocol/snapshot.ts";
import { PROTOCOL_VERSION } from "#shared/protocol/version.ts";

/** A clock and timers moved by hand. */
export class HandTimer implements Timer {
  #nowMs: number;
  #waiting: { atMs: number; run: () => void }[] = [];
  constructor(startMs: number) {
    this.#nowMs = startMs;
  }
  nowMs(): number {
    return this.#nowMs;
  }
  after(delayMs: number, run: () => void): () => void {
    const one = { atMs: this.#nowMs + delayMs, run };
    this.#waiting.push(one);
    return () => {
      this.#waiting = this.#waiting.filter((other) => other !== one);
    };
  }
  /** The clock goes on and no timer runs, as where a browser holds them back. */
  doze(ms: number): void {
    this.#nowMs += ms;
  }
  /** Moves on, running what falls due in order, and lets promises settle after each. */
  async pass(ms: number): Promise<void> {
    const untilMs = this.#nowMs + ms;
    for (;;) {
      const next = this.#waiting.filter((one) => one.atMs <= untilMs).toSorted((a, b) => a.atMs - b.atMs)[0];
      if (next === undefined) break;
      this.#waiting = this.#waiting.filter((one) => one !== next);
      this.#nowMs = next.atMs;
      next.run();
      await settled();
    }
    this.#nowMs = untilMs;
    await settled();
  }
}

/** Lets every promise that can settle do so. */
export async function settled(): Promise<void> {
  for (let k = 0; k < 20; k += 1) await Promise.resolve();
}

/** A kitchen's server in memory: decides once by command id, tells every socket, and can be read by a test. */
export class HandServer {
  kitchen: Kitchen;
  forecasts: Forecasts;
  epoch = "epoch-1";
  seq = 0;
  /** Every command that arrived, resent ones again. */
  readonly arrived: Command[] = [];
  /** Every command whose events are in the log. */
  readonly committed: Command[] = [];
  readonly #answers = new Map<string, CommandAnswer>();
  readonly #listeners = new Set<(change: Change) => void>();
  /** The server's own clock. */
  readonly nowMs: () => number;

  constructor(nowMs: () => number, kitchen: Kitchen = EMPTY_KITCHEN, forecasts: Forecasts = NO_FORECASTS) {
    this.nowMs = nowMs;
    this.kitchen = kitchen;
    this.forecasts = forecasts;
  }
  submit(command: Command, personId: PersonId): CommandAnswer {
    this.arrived.push(command);
    const given = this.#answers.get(command.commandId);
    if (given !== undefined) return given;
    const role = this.kitchen.people[personId]?.role ?? "decorator";
    const outcome = decide(this.kitchen, command, {
      nowMs: this.nowMs(),
      by: personId,
      role,
      forecasts: this.forecasts,
    });
    const answer: CommandAnswer = outcome.ok
      ? { ok: true, seq: this.append(outcome.value) }
      : { ok: false, ...outcome.refusal };
    if (outcome.ok) this.committed.push(command);
    this.#answers.set(command.commandId, answer);
    return answer;
  }
  /** Commits events and tells everyone; the new sequence number. */
  append(events: readonly KitchenEvent[]): number {
    const fromSeq = this.seq;
    this.seq += events.length;
    this.kitchen = events.reduce(evolve, this.kitchen);
    this.tell(this.change({ fromSeq, events }));
    return this.seq;
  }
  change(what: Partial<Change> = {}): Change {
    const { fromSeq = this.seq, seq = this.seq } = what;
    return {
      epoch: this.epoch,
      fromSeq,
      fromHash: this.hashAt(fromSeq),
      seq,
      hash: this.hashAt(seq),
      serverNowMs: this.nowMs(),
      events: [],
      ...what,
    };
  }
  /** Stands for the log's running hash. */
  hashAt(seq: number): string {
    return `${this.epoch} ${seq}`;
  }
  tell(change: Change): void {
    for (const listener of this.#listeners) listener(change);
  }
  snapshot(): Snapshot {
    const nowMs = this.nowMs();
    return {
      protocol: PROTOCOL_VERSION,
      epoch: this.epoch,
      seq: this.seq,
      hash: this.hashAt(this.seq),
      serverNowMs: nowMs,
      clock: { speed: 1, realMs: nowMs, kitchenMs: nowMs },
      kitchen: this.kitchen,
      forecasts: this.forecasts,
      alerts: Object.values(this.kitchen.alerts),
      presence: { devices: [] },
      practice: false,
    };
  }
  listen(listener: (change: Change) => void): () => void {
    this.#listeners.add(listener);
    return () => this.#listeners.delete(listener);
  }
}

/** A socket whose two queues a test flushes by hand, and whose answers it may lose. */
export class HandSocket implements LiveSocket {
  #open = false;
  #handlers: SocketHandlers | undefined;
  #up: (() => void)[] = [];
  #down: (() => void)[] = [];
  readonly #changes = new WeakSet<() => void>();
  #stop: () => void = () => undefined;
  #pending = new Set<(error: Error) => void>();
  /** Answers to commands that will get lost on the way. */
  losesAnswers = 0;
  reopened = 0;
  /** Every hello that was said. */
  readonly hellos: Hello[] = [];
  /** What was said of whether this screen can be heard. */
  readonly canAlerts: boolean[] = [];
  /** The one it connects to. */
  server: HandServer;
  readonly #personId: PersonId;
  readonly #timer: Timer;

  constructor(server: HandServer, personId: PersonId, timer: Timer) {
    this.server = server;
    this.#personId = personId;
    this.#timer = timer;
  }
  readonly opened: OpenSocket = (handlers) => {
    this.#handlers = handlers;
    return this;
  };
  /** The network is there: the socket opens. */
  connect(): void {
    if (this.#open) return;
    this.#open = true;
    this.#stop = this.server.listen((change) => {
      const hear = (): void => this.#handlers?.onChange(change);
      this.#changes.add(hear);
      this.#down.push(hear);
    });
    this.#handlers?.onOpen();
  }
  /** The network is gone: what is under way is lost, and whoever waits for an answer hears of none. */
  cut(): void {
    this.#open = false;
    this.#stop();
    this.#up = [];
    this.#down = [];
    this.#handlers?.onClose();
    for (const reject of this.#pending) reject(new Error("cut"));
    this.#pending.clear();
  }
  refuse(): void {
    this.#handlers?.onRefused();
  }
  /** A lead is asked to let this device in. */
  makeWait(): void {
    this.#open = false;
    this.#handlers?.onWaits();
  }
  turnAway(): void {
    this.#open = false;
    this.#handlers?.onOutdated();
  }
  /** What the server sent to this screen and is lost, as if the screen had slept. */
  loseDown(): void {
    this.#down = [];
  }
  /** Of what the server sent only the changes are lost. */
  loseChanges(): void {
    this.#down = this.#down.filter((hear) => !this.#changes.has(hear));
  }
  async flushUp(): Promise<void> {
    for (const send of this.#up.splice(0)) send();
    await settled();
  }
  async flushDown(): Promise<void> {
    for (const hear of this.#down.splice(0)) hear();
    await settled();
  }
  /** Both ways until nothing moves. */
  async flush(): Promise<void> {
    await settled();
    while (this.#up.length + this.#down.length > 0) {
      await this.flushUp();
      await this.flushDown();
    }
  }
  isOpen(): boolean {
    return this.#open;
  }
  reopen(): void {
    this.reopened += 1;
    this.cut();
    this.connect();
  }
  close(): void {
    this.cut();
  }
  hello(hello: Hello): void {
    this.hellos.push(hello);
    this.#up.push(() => {
      const snapshot = this.server.snapshot();
      this.#down.push(() => this.#handlers?.onSnapshot(snapshot));
    });
  }
  canAlert(canAlert: boolean): void {
    if (this.#open) this.canAlerts.push(canAlert);
  }
  command(command: Command, timeoutMs: number): Promise<CommandAnswer> {
    return this.#ask(timeoutMs, () => this.server.submit(command, this.#personId), true);
  }
  clock(timeoutMs: number): Promise<{ receivedMs: number; sentMs: number }> {
    return this.#ask(
      timeoutMs,
      () => ({ receivedMs: this.server.nowMs(), sentMs: this.server.nowMs() }),
      false,
    );
  }
  #ask<Answer>(timeoutMs: number, serve: () => Answer, losable: boolean): Promise<Answer> {
    return new Promise((resolve, reject) => {
      const cancel = this.#timer.after(timeoutMs, () => reject(new Error("no answer in time")));
      this.#pending.add(reject);
      this.#up.push(() => {
        const answer = serve();
        if (losable && this.losesAnswers > 0) {
          this.losesAnswers -= 1;
          return;
        }
        this.#down.push(() => {
          cancel();
          this.#pending.delete(reject);
          resolve(answer);
        });
      });
    });
  }
}
