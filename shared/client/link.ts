import type { Command } from "#shared/kitchen/command.ts";
import { PROTOCOL_VERSION } from "#shared/protocol.ts";
import type { Change, CommandAnswer, Snapshot } from "#shared/protocol.ts";
import { RESAMPLE_MS, ROUND, better, doubtMs, kitchenTimeMs, sampleOf } from "./clock.ts";
import type { ClockSample } from "./clock.ts";
import { fromSnapshot, takeIn } from "./replica.ts";
import type { Confirmed } from "./replica.ts";
import type { LiveSocket, OpenSocket } from "./socket.ts";
import { every } from "./timer.ts";
import type { Timer } from "./timer.ts";

/** What may be said of the connection. Only `live` may be shown as live. */
export type Connection =
  | { is: "connecting" }
  | { is: "live" }
  /** Nothing heard for over 5 s, or cut. */
  | { is: "lost" }
  /** The token is not, or no longer, good: join again. */
  | { is: "refused"; why: string };

/** What outlives a reload without a connection. */
export interface Held {
  confirmed: Confirmed;
  heardAtMs: number;
  sample?: ClockSample;
}

export interface LinkPorts {
  open: OpenSocket;
  timer: Timer;
  /** Runs when the page is seen again, or the network is back. */
  onWake(run: () => void): void;
  /** The server speaks another version of the protocol: load the page anew. */
  reload(): void;
  /** Something of what the link tells has changed. */
  onChange(): void;
  /** What an earlier page held, shown until the server is heard. */
  held?: Held | undefined;
  /** Which acts the changes contain, up to which sequence number; infinite when the log is another one. */
  onConfirmed?(actIds: ReadonlySet<string>, seq: number): void;
  onOpen?(): void;
}

export interface Link {
  confirmed(): Confirmed | undefined;
  connection(): Connection;
  /** Device time of the last that was heard. */
  heardAtMs(): number | undefined;
  /** Kitchen time now, and how wrong it may be, ms of kitchen time. */
  kitchenNow(): { nowMs: number; doubtMs: number };
  /** Kitchen time at a moment of the device's clock. */
  kitchenTimeAt(deviceMs: number): number;
  isOpen(): boolean;
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
const GUESS_DELAY_MS = 1000;
/** The server's time further than this from what was sampled: its clock was set, and is asked again. */
const SET_MS = 5000;

/** Keeps a replica of the kitchen in step with the server, and says honestly when it is not. */
export function createLink(ports: LinkPorts): Link {
  const { timer } = ports;
  let confirmed = ports.held?.confirmed;
  let connection: Connection = { is: "connecting" };
  let heardAtMs = ports.held?.heardAtMs;
  let sample = ports.held?.sample;
  let canAlert = false;
  let askedToCatchUpAtMs = 0;
  let isSampling = false;

  const show = (next: Connection): void => {
    connection = next;
    ports.onChange();
  };
  const lost = (): void => {
    if (connection.is === "lost" || connection.is === "refused") return;
    if (heardAtMs !== undefined) show({ is: "lost" });
  };
  function heard(): void {
    heardAtMs = timer.nowMs();
    show(LIVE);
  }
  function hello(): void {
    const { epoch, seq } = confirmed ?? {};
    askedToCatchUpAtMs = timer.nowMs();
    socket.hello({
      ...(epoch === undefined ? {} : { epoch }),
      ...(seq === undefined ? {} : { seq }),
      canAlert,
    });
  }
  function onSnapshot(snapshot: Snapshot): void {
    if (snapshot.protocol !== PROTOCOL_VERSION) return ports.reload();
    const another = confirmed !== undefined && confirmed.epoch !== snapshot.epoch;
    confirmed = fromSnapshot(snapshot);
    askedToCatchUpAtMs = 0;
    sample ??= guess(snapshot);
    ports.onConfirmed?.(new Set(), another ? Number.POSITIVE_INFINITY : snapshot.seq);
    heard();
  }
  function onChange(change: Change): void {
    const taken = confirmed === undefined ? ({ is: "gap" } as const) : takeIn(confirmed, change);
    if (taken.is === "gap") {
      // Not heard: what cannot be applied does not make the board any fresher.
      if (timer.nowMs() - askedToCatchUpAtMs > CATCH_UP_MS) hello();
      return;
    }
    if (taken.is === "taken") {
      confirmed = taken.confirmed;
      ports.onConfirmed?.(new Set(change.events.map((event) => event.actId)), change.seq);
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
  async function sampleClock(held: ClockSample | undefined): Promise<void> {
    let best = held;
    isSampling = true;
    for (let k = 0; k < ROUND && socket.isOpen(); k += 1) {
      const t1 = timer.nowMs();
      try {
        const { receivedMs, sentMs } = await socket.clock(ANSWER_MS);
        best = better(best, sampleOf({ t1, t2: receivedMs, t3: sentMs, t4: timer.nowMs() }), timer.nowMs());
      } catch {
        // No answer: the connection is going; it will be asked again when it is back.
        break;
      }
    }
    isSampling = false;
    sample = best ?? sample;
    ports.onChange();
  }

  const socket: LiveSocket = ports.open({
    onOpen() {
      hello();
      ports.onOpen?.();
      void sampleClock(undefined);
    },
    onClose: lost,
    onRefused: (why) => show({ is: "refused", why }),
    onSnapshot,
    onChange,
  });

  const stopWatching = every(timer, 1000, () => {
    if (heardAtMs !== undefined && timer.nowMs() - heardAtMs > STALE_MS) lost();
  });
  const stopSampling = every(timer, RESAMPLE_MS, () => void sampleClock(sample));
  ports.onWake(() => {
    if (connection.is === "refused") return;
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
    command: (command) => socket.command(command, ANSWER_MS),
    toKeep() {
      if (confirmed === undefined || heardAtMs === undefined) return undefined;
      return { confirmed, heardAtMs, ...(sample === undefined ? {} : { sample }) };
    },
    sayCanAlert(can) {
      if (can === canAlert) return;
      canAlert = can;
      if (socket.isOpen()) hello();
    },
    close() {
      stopWatching();
      stopSampling();
      socket.close();
    },
  };
}
