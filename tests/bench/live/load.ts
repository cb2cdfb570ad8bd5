import { setTimeout as sleep } from "node:timers/promises";
import { cpuOf } from "./process-cpu.ts";
import type { Ears, ScreenLine } from "./screens.ts";

/** A server under load, with its screens. */
export interface Loaded {
  pid: number;
  screens: readonly ScreenLine[];
  watch: Watch;
}

export interface Measured {
  commands: number;
  /** From a command's sending to the last screen that heard of it, ms. */
  lastScreenMs: number[];
  /** From a command's sending to its sender's acknowledgement, ms. */
  ackMs: number[];
  /** All of the server's threads; its main thread alone. */
  cpuMs: number;
  mainCpuMs: number;
  /** From the first command to the last screen's hearing of the last. */
  tookMs: number;
  /** Of what told of commands, on the wire. */
  changeBytes: number;
  /** To each screen, whatever they told. */
  messages: number;
}

const SETTLE_MS = 600;

interface Under {
  sentMs: number;
  ackedMs?: number;
  heard: number;
  lastMs?: number;
}

/** What the screens of one server hear, by command. */
export class Watch {
  readonly ears: Ears;
  private readonly under = new Map<string, Under>();
  private readonly finishers = new Map<string, { resolve: () => void; reject: (error: Error) => void }>();
  private screens = 0;
  private newestText = "";
  private newestIds: readonly string[] = [];
  messages = 0;
  changeBytes = 0;
  /** The last change that told of commands. */
  lastChange = "";

  constructor() {
    this.ears = {
      acknowledged: (commandId, answer) => {
        const one = this.under.get(commandId);
        if (one === undefined) return;
        if (!answer.ok) throw new Error(`refused: ${JSON.stringify(answer)}`);
        one.ackedMs = performance.now();
        this.look(commandId, one);
      },
      changed: (text) => this.changed(text),
      lost: () => {
        const error = new Error("a screen lost its connection: this machine is too busy to measure on");
        for (const { reject } of this.finishers.values()) reject(error);
      },
    };
  }

  begin(screens: number): void {
    this.screens = screens;
    this.under.clear();
    this.messages = 0;
    this.changeBytes = 0;
  }

  /** Resolves once the command is acknowledged and every screen has heard of it. */
  sent(commandId: string): Promise<void> {
    this.under.set(commandId, { sentMs: performance.now(), heard: 0 });
    return new Promise((resolve, reject) => void this.finishers.set(commandId, { resolve, reject }));
  }

  times(): { lastScreenMs: number[]; ackMs: number[] } {
    const all = [...this.under.values()];
    return {
      lastScreenMs: all.map(({ sentMs, lastMs = Number.NaN }) => lastMs - sentMs),
      ackMs: all.map(({ sentMs, ackedMs = Number.NaN }) => ackedMs - sentMs),
    };
  }

  private changed(text: string): void {
    this.messages += 1;
    if (text !== this.newestText) {
      this.newestText = text;
      const { events } = JSON.parse(text) as { events: { actId: string }[] };
      this.newestIds = events.map(({ actId }) => actId);
      if (this.newestIds.some((id) => this.under.has(id))) {
        this.changeBytes += text.length;
        this.lastChange = text;
      }
    }
    const nowMs = performance.now();
    for (const id of this.newestIds) {
      const one = this.under.get(id);
      if (one === undefined) continue;
      one.heard += 1;
      if (one.heard < this.screens) continue;
      one.lastMs = nowMs;
      this.look(id, one);
    }
  }

  private look(id: string, { ackedMs, lastMs }: Under): void {
    if (ackedMs === undefined || lastMs === undefined) return;
    this.finishers.get(id)?.resolve();
    this.finishers.delete(id);
  }
}

export type MadeCommand = { type: string; commandId: string } & Readonly<Record<string, unknown>>;

/** How commands come: so many a second, by turns from each screen; or with so many under way at any time. */
export type Pace = { aSecond: number } | { underWay: number };

/** Sends so many commands and waits until every screen has heard of all of them. */
export async function load(
  { pid, screens, watch }: Loaded,
  { commands, pace, make }: { commands: number; pace: Pace; make: () => MadeCommand },
): Promise<Measured> {
  watch.begin(screens.length);
  const before = cpuOf(pid);
  const startMs = performance.now();
  let next = 0;
  const tap = (): Promise<void> => {
    const command = make();
    const heard = watch.sent(command.commandId);
    screens[next % screens.length]?.send(command);
    next += 1;
    return heard;
  };
  if ("aSecond" in pace) {
    const all: Promise<void>[] = [];
    for (let k = 0; k < commands; k += 1) {
      // Not in step with any timer of the server's: a golden section's share of the gap is random enough.
      const dueMs = startMs + ((k + ((k * 0.618) % 1)) * 1000) / pace.aSecond;
      await sleep(Math.max(0, dueMs - performance.now()));
      all.push(tap());
    }
    await Promise.all(all);
  } else {
    const one = async (): Promise<void> => {
      for (;;) {
        if (next >= commands) return;
        await tap();
      }
    };
    await Promise.all(Array.from({ length: pace.underWay }, one));
  }
  const tookMs = performance.now() - startMs;
  // What a server has yet to do for these commands counts as well.
  await sleep(SETTLE_MS);
  const after = cpuOf(pid);
  return {
    commands,
    ...watch.times(),
    cpuMs: after.allMs - before.allMs,
    mainCpuMs: after.mainMs - before.mainMs,
    tookMs,
    changeBytes: watch.changeBytes,
    messages: watch.messages / screens.length,
  };
}
