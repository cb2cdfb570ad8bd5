import type { Command } from "#shared/kitchen/model/command.ts";
import type { Change } from "#shared/protocol/change.ts";
import type { CommandAnswer } from "#shared/protocol/command.ts";
import type { Snapshot } from "#shared/protocol/snapshot.ts";
import { PROTOCOL_VERSION } from "#shared/protocol/version.ts";
import { better, type ClockSample, doubtMs, kitchenTimeMs, RESAMPLE_MS, ROUND, sampleOf } from "./clock.ts";
import { applyChange, type Confirmed, fromSnapshot, type Taken } from "./replica.ts";
import type { LiveSocket, OpenSocket } from "./socket.ts";
import { every, type Timer } from "./timer.ts";
import { MIN_MS } from "#shared/time.ts";

/** What may be said of the connection. Only `live` may be shown as live. */
export type Connection =
  | { is: "connecting" }
  | { is: "live" }
  /** Nothing heard for over 5 s, or cut. */
  | { is: "lost" }
  /** The token is not, or no longer, good: join again. */
  | { is: "refused" }
  /** A lead is asked to let this device in. */
  | { is: "waiting" }
  /** This page and the server are of different versions, and loading it anew did not help. */
  | { is: "outdated" };

/** What outlives a reload without a connection. */
export interface Held {
  confirmed: Confirmed;
  heardAtMs: number;
  sample?: ClockSample;
}

export interface LinkPorts {
  open: OpenSocket;
  timer: Timer;
  /** Runs when the page is seen again, or the network is back; returns what stops it. */
  onWake(run: () => void): () => void;
  /** The server speaks another version of the protocol: load the page anew. False where that was tried before. */
  reload(): boolean;
  /** Something of what the link tells has changed. */
  onChange(): void;
  /** What an earlier page held, shown until the server is heard. */
  held?: Held | undefined;
  /** Which acts a change contains, and what it reaches from and to. */
  onConfirmed?(actIds: ReadonlySet<string>, fromSeq: number, seq: number): void;
  /** A snapshot does not say which acts it contains. */
  onSnapshot?(): void;
  onOpen?(): void;
}

export interface Link {
  confirmed(): Confirmed | undefined;
  connection(): Connection;
  /** The server's log no longer holds what this page had heard: an earlier copy was put back. Until `dismissReplaced`. */
  wasReplaced(): boolean;
  dismissReplaced(): void;
  /** Device time of the last that was heard. */
  heardAtMs(): number | undefined;
  /** Kitchen time now, and how wrong it may be, ms of kitchen time. */
  kitchenNow(): { nowMs: number; doubtMs: number };
  /** Kitchen time at a moment of the device's clock. */
  kitchenTimeAt(deviceMs: number): number;
  isOpen(): boolean;
  /** Kitchen time now, by the server's clock as it is asked anew; rejects where it does not answer. */
  askNowMs(): Promise<number>;
  command(command: Command): Promise<CommandAnswer>;
  /** Tells the kitchen whether this screen can be heard. */
  sayCanAlert(canAlert: boolean): void;
  toKeep(): Held | undefined;
  close(): void;
}

/** A board older than this is stale, ms. The server says something every second. */
export const STALE_MS = 5000;
/** On waking, a connection that has said nothing for this long is not trusted. */
const QUIET_MS = 2000;
const LIVE: Connection = { is: "live" };
const ANSWER_MS = 5000;
const CATCH_UP_MS = 3000;
/** How often a page of another version asks whether the server has become its own, ms. */
const ASK_OUTDATED_MS = MIN_MS;
/** How often a device that waits asks whether it may come in, ms. */
const ASK_WAITING_MS = 2000;
const GUESS_DELAY_MS = 1000;
/**
 * The server's time further than this from what was sampled: its clock was set, or goes slower until the machine's catches up,
 * and is asked again. Well within the 5 s that an act may be ahead of it.
 */
const SET_MS = 2000;

/** Keeps a replica of the kitchen in step with the server, and says honestly when it is not. */
export function createLink(ports: LinkPorts): Link {
  const { timer } = ports;
  let confirmed = ports.held?.confirmed;
  let connection: Connection = { is: "connecting" };
  let heardAtMs = ports.held?.heardAtMs;
  let sample = ports.held?.sample;
  let canAlert = false;
  let askedToCatchUpAtMs = 0;
  let askedForSnapshotAtMs = 0;
  /** When a page of another version, or a device that waits, last asked. */
  let askedAtMs = 0;
  let wasReplaced = false;
  let isSampling = false;

  const show = (next: Connection): void => {
    connection = next;
    ports.onChange();
  };
  function lost(): void {
    const { is } = connection;
    if ((is === "connecting" || is === "live") && heardAtMs !== undefined) show({ is: "lost" });
  }
  function heard(): void {
    heardAtMs = timer.nowMs();
    show(LIVE);
  }
  function outdated(): void {
    askedAtMs = timer.nowMs();
    if (!ports.reload()) show({ is: "outdated" });
  }
  /** Says where the replica stands, and is sent what came since. */
  function hello(): void {
    askedToCatchUpAtMs = timer.nowMs();
    if (confirmed === undefined) return socket.hello({});
    const { epoch, seq, hash } = confirmed;
    // A board that was kept by a page before the hash has none.
    socket.hello({ epoch, seq, ...(hash === undefined ? {} : { hash }) });
  }
  function askForSnapshot(): void {
    askedToCatchUpAtMs = askedForSnapshotAtMs = timer.nowMs();
    socket.hello({});
  }
  function onSnapshot(snapshot: Snapshot): void {
    if (snapshot.protocol !== PROTOCOL_VERSION) return outdated();
    // A practice kitchen begins anew with each start.
    wasReplaced ||= snapshot.isReplaced === true && !snapshot.practice;
    confirmed = fromSnapshot(snapshot);
    askedToCatchUpAtMs = 0;
    sample ??= guess(snapshot);
    ports.onSnapshot?.();
    heard();
  }
  function onChange(change: Change): void {
    const taken: Taken = confirmed === undefined ? { is: "gap" } : applyChange(confirmed, change);
    const isDue = (askedAtMs: number): boolean => timer.nowMs() - askedAtMs > CATCH_UP_MS;
    // Not heard: what cannot be applied does not make the board any fresher.
    if (taken.is === "gap") return isDue(askedToCatchUpAtMs) ? hello() : undefined;
    // The changes since would bring it again: only a snapshot, made by the server, helps.
    if (taken.is === "unreadable") return isDue(askedForSnapshotAtMs) ? askForSnapshot() : undefined;
    if (taken.is === "taken") {
      confirmed = taken.confirmed;
      ports.onConfirmed?.(new Set(change.events.map((event) => event.actId)), change.fromSeq, change.seq);
    }
    const apartMs = Math.abs(change.serverNowMs - kitchenTimeAt(timer.nowMs()));
    if (apartMs > SET_MS * (confirmed?.clock.speed ?? 1) && !isSampling) void sampleClock(undefined);
    heard();
  }

  /** Until the first exchange: the server's clock from a snapshot, some way late. */
  function guess({ clock, serverNowMs }: Snapshot): ClockSample {
    const realMs = clock.realMs + (serverNowMs - clock.kitchenMs) / clock.speed;
    return { offsetMs: realMs - timer.nowMs(), delayMs: GUESS_DELAY_MS, takenAtMs: timer.nowMs() };
  }
  /** False where the server did not answer. */
  async function sampleClock(held: ClockSample | undefined): Promise<boolean> {
    let best = held;
    isSampling = true;
    for (let k = 0; k < ROUND && socket.isOpen(); k += 1) {
      const t1 = timer.nowMs();
      // No answer: the connection is going; it will be asked again when it is back.
      const answer = await socket.clock(ANSWER_MS).catch(() => undefined);
      if (answer === undefined) break;
      const { receivedMs: t2, sentMs: t3 } = answer;
      best = better(best, sampleOf({ t1, t2, t3, t4: timer.nowMs() }), timer.nowMs());
    }
    isSampling = false;
    sample = best ?? sample;
    ports.onChange();
    return best !== undefined;
  }

  const socket: LiveSocket = ports.open({
    onOpen() {
      hello();
      socket.canAlert(canAlert);
      ports.onOpen?.();
      void sampleClock(undefined);
    },
    onClose: lost,
    onRefused: () => show({ is: "refused" }),
    onWaits() {
      askedAtMs = timer.nowMs();
      show({ is: "waiting" });
    },
    onOutdated: outdated,
    onSnapshot,
    onChange,
  });

  const stopWatching = every(timer, 1000, () => {
    if (heardAtMs !== undefined && timer.nowMs() - heardAtMs > STALE_MS) lost();
    const { is } = connection;
    if (is !== "outdated" && is !== "waiting") return;
    if (timer.nowMs() - askedAtMs < (is === "waiting" ? ASK_WAITING_MS : ASK_OUTDATED_MS)) return;
    askedAtMs = timer.nowMs();
    socket.reopen();
  });
  const stopSampling = every(timer, RESAMPLE_MS, () => void sampleClock(sample));
  const stopWaking = ports.onWake(() => {
    if (connection.is === "refused" || connection.is === "outdated") return;
    if (!socket.isOpen() || timer.nowMs() - (heardAtMs ?? 0) > QUIET_MS) socket.reopen();
  });

  const kitchenTimeAt = (deviceMs: number): number => {
    const realMs = deviceMs + (sample?.offsetMs ?? 0);
    return confirmed === undefined ? realMs : kitchenTimeMs(confirmed.clock, realMs);
  };

  return {
    confirmed: () => confirmed,
    heardAtMs: () => heardAtMs,
    connection: () => connection,
    wasReplaced: () => wasReplaced,
    dismissReplaced() {
      wasReplaced = false;
      ports.onChange();
    },
    kitchenNow() {
      const deviceMs = timer.nowMs();
      const speed = confirmed?.clock.speed ?? 1;
      return {
        nowMs: kitchenTimeAt(deviceMs),
        doubtMs: sample === undefined ? 0 : doubtMs(sample, deviceMs) * speed,
      };
    },
    kitchenTimeAt,
    isOpen: () => socket.isOpen(),
    async askNowMs() {
      if (!(await sampleClock(undefined))) throw new Error("The server did not tell its time.");
      return kitchenTimeAt(timer.nowMs());
    },
    command: (command) => socket.command(command, ANSWER_MS),
    toKeep() {
      if (confirmed === undefined || heardAtMs === undefined) return undefined;
      return { confirmed, heardAtMs, ...(sample === undefined ? {} : { sample }) };
    },
    sayCanAlert(can) {
      if (can === canAlert) return;
      canAlert = can;
      socket.canAlert(can);
    },
    close() {
      stopWatching();
      stopSampling();
      stopWaking();
      socket.close();
    },
  };
}
