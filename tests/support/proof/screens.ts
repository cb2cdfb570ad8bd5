import type { Command } from "#shared/kitchen/model/command.ts";
import { kitchenOf } from "#shared/client/sync/replica.ts";
import type { CommandAnswer } from "#shared/protocol/command.ts";
import type { JoinAnswer } from "#shared/protocol/join.ts";
import type { OpenSocket } from "#shared/client/sync/socket.ts";
import { openPhone, type SyncPhone } from "../crash/sync-phone.ts";

/** Sixty screens of a kitchen with the real replica and outbox, and what was measured at them. */
export interface Screens {
  all: readonly SyncPhone[];
  /** Every answer that came, by command id. */
  acknowledged: ReadonlyMap<string, CommandAnswer>;
  /** Answers that differ from an earlier one to the same command. */
  faults: readonly string[];
  /** Forgets what was measured so far. */
  measureFromNow: () => void;
  /** Since then, ms from sending a command: until its answer, and until the last screen had it. */
  latencies: () => { acknowledged: number[]; lastScreen: number[] };
  /** When each screen first heard the server after this moment, ms of the monotonic clock; undefined where it has not yet. */
  heardSince: (atMs: number) => (number | undefined)[];
  /** When the first and the last screen showed an alert that heat of this start runs long; undefined where none, or not all, did. */
  alarmShown: (startId: string) => { firstMs: number | undefined; lastMs: number | undefined };
  close: () => void;
}

interface Sent {
  atMs: number;
  answeredMs?: number;
  seq?: number;
}

export function openScreens(origin: string, joined: readonly JoinAnswer[], newId: () => string): Screens {
  const acknowledged = new Map<string, CommandAnswer>();
  const faults: string[] = [];
  let sent = new Map<string, Sent>();
  /** By screen: which sequence number it reached when. */
  const reached: { seq: number; atMs: number }[][] = joined.map(() => []);
  const heardMs: number[][] = joined.map(() => []);
  const lastHeard: (number | undefined)[] = [];
  const alarms: Map<string, number>[] = joined.map(() => new Map());

  const timed =
    (open: OpenSocket): OpenSocket =>
    (handlers) => {
      const socket = open(handlers);
      return {
        ...socket,
        command: async (command: Command, timeoutMs) => {
          const one = sent.get(command.commandId) ?? { atMs: performance.now() };
          sent.set(command.commandId, one);
          const answer = await socket.command(command, timeoutMs);
          one.answeredMs ??= performance.now();
          const before = acknowledged.get(command.commandId);
          if (before !== undefined && JSON.stringify(before) !== JSON.stringify(answer))
            faults.push(
              `${command.commandId} was answered ${JSON.stringify(before)}, then ${JSON.stringify(answer)}`,
            );
          acknowledged.set(command.commandId, answer);
          if (answer.ok) one.seq = answer.seq;
          return answer;
        },
      };
    };

  const all = joined.map((who, k) =>
    openPhone(origin, who, { newId, haste: 1, through: timed, onChange: () => look(k) }),
  );
  function look(k: number): void {
    const link = all[k]?.link;
    const held = link?.confirmed();
    if (link === undefined || held === undefined) return;
    const nowMs = performance.now();
    if (link.heardAtMs() !== lastHeard[k] && link.connection().is === "live") heardMs[k]!.push(nowMs);
    lastHeard[k] = link.heardAtMs();
    if (held.seq !== reached[k]!.at(-1)?.seq) reached[k]!.push({ seq: held.seq, atMs: nowMs });
    for (const key of Object.keys(kitchenOf(held).alerts)) {
      const startId = /^heat-running-long:([^:]+):/.exec(key)?.[1];
      if (startId !== undefined && !alarms[k]!.has(startId)) alarms[k]!.set(startId, nowMs);
    }
  }
  for (const { link } of all) link.sayCanAlert(true);

  return {
    all,
    acknowledged,
    faults,
    measureFromNow: () => void (sent = new Map()),
    latencies: () => {
      const answered = [...sent.values()].filter((one) => one.answeredMs !== undefined);
      return {
        acknowledged: answered.map(({ atMs, answeredMs = 0 }) => answeredMs - atMs),
        lastScreen: answered.flatMap(({ atMs, seq }) => {
          if (seq === undefined) return [];
          const times = reached.map((steps) => steps.find((step) => step.seq >= seq)?.atMs ?? Infinity);
          return [Math.max(...times) - atMs];
        }),
      };
    },
    heardSince: (atMs) => heardMs.map((times) => times.find((time) => time > atMs)),
    alarmShown: (startId) => {
      const times = alarms.flatMap((shown) => shown.get(startId) ?? []);
      return {
        firstMs: times.length === 0 ? undefined : Math.min(...times),
        lastMs: times.length < alarms.length ? undefined : Math.max(...times),
      };
    },
    close: () => {
      for (const screen of all) screen.close();
    },
  };
}
