import { type ChildProcess, spawn } from "node:child_process";
import { mkdtempSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { fileURLToPath, pathToFileURL } from "node:url";
import { nanoid } from "nanoid";
import type { Change } from "#shared/protocol/change.ts";
import { startProcess } from "../../support/server-process.ts";
import { makeBoardFolder } from "./board-folder.ts";
import type { Pattern } from "./floor-server.ts";
import { load, type Loaded, type MadeCommand, type Measured, type Pace, Watch } from "./load.ts";
import { floorScreen, realScreen, type ScreenLine } from "./screens.ts";

const TRAYS = 300;
export const SCREENS = [10, 50, 200] as const;
const A_SECOND = 30;
const ROUNDS = 4;
const COMMANDS_A_ROUND = 90;
const UNDER_WAY = 32;
const FULL_ROUNDS = 2;
const FULL_COMMANDS = 600;
const WARM_COMMANDS = 150;

/** Both servers under the same load in turn: at the pace, and as fast as they go. */
export interface LiveBench {
  screens: number;
  pace: "30 a second" | "full speed";
  floor: Measured;
  real: Measured;
}

/** The real server beside the floor's, processes of their own, in turn from the same load. */
export async function benchLive(): Promise<LiveBench[]> {
  const folder = mkdtempSync(join(tmpdir(), "traytide-live-"));
  const most = Math.max(...SCREENS);
  const tokens = await makeBoardFolder(folder, TRAYS, most);
  const server = await startProcess(folder, { env: { NODE_ENV: "production" } });
  const children: ChildProcess[] = [server.child];
  try {
    const pattern = await patternOf(server.port, server.child.pid ?? 0, tokens[0] ?? "");
    const floorServer = await startFloor(folder, pattern);
    children.push(floorServer.child);
    const benches: LiveBench[] = [];
    for (const screens of SCREENS) {
      const real = await loaded(server.child, screens, (k, watch) =>
        realScreen(server.port, tokens[k] ?? "", watch.ears),
      );
      const floor = await loaded(floorServer.child, screens, (_, watch) =>
        floorScreen(floorServer.port, watch.ears),
      );
      benches.push(...(await inTurn(screens, real, floor)));
      for (const one of [...real.screens, ...floor.screens]) one.close();
    }
    return benches;
  } finally {
    for (const child of children) child.kill("SIGKILL");
    rmSync(folder, { recursive: true, force: true });
  }
}

async function inTurn(screens: number, real: Loaded, floor: Loaded): Promise<LiveBench[]> {
  const benches: LiveBench[] = [];
  const warm = { commands: WARM_COMMANDS, pace: { aSecond: 5 * A_SECOND }, make };
  for (const one of [floor, real]) await load(one, warm);
  const paces: [LiveBench["pace"], Pace, number, number][] = [
    ["30 a second", { aSecond: A_SECOND }, ROUNDS, COMMANDS_A_ROUND],
    ["full speed", { underWay: UNDER_WAY }, FULL_ROUNDS, FULL_COMMANDS],
  ];
  for (const [name, pace, rounds, commands] of paces) {
    const [floors, reals]: [Measured[], Measured[]] = [[], []];
    for (let round = 0; round < rounds; round += 1) {
      floors.push(await load(floor, { commands, pace, make }));
      reals.push(await load(real, { commands, pace, make }));
    }
    benches.push({ screens, pace: name, floor: together(floors), real: together(reals) });
  }
  return benches;
}

const together = (all: readonly Measured[]): Measured =>
  all.reduce((a, b) => ({
    commands: a.commands + b.commands,
    lastScreenMs: [...a.lastScreenMs, ...b.lastScreenMs],
    ackMs: [...a.ackMs, ...b.ackMs],
    cpuMs: a.cpuMs + b.cpuMs,
    mainCpuMs: a.mainCpuMs + b.mainCpuMs,
    tookMs: a.tookMs + b.tookMs,
    changeBytes: a.changeBytes + b.changeBytes,
    messages: a.messages + b.messages,
  }));

async function loaded(
  child: ChildProcess,
  count: number,
  open: (k: number, watch: Watch) => ReturnType<typeof realScreen>,
): Promise<Loaded> {
  const watch = new Watch();
  const screens: ScreenLine[] = [];
  for (let k = 0; k < count; k += 1) screens.push(await open(k, watch));
  return { pid: child.pid ?? 0, screens, watch };
}

let made = 0;
/** Taps on trays, by turns: two moved to another slot, one touched. */
function make(): MadeCommand {
  made += 1;
  const trayId = `x${(made * 7) % TRAYS}`;
  const base = { commandId: nanoid(), atMs: Date.now(), trayId };
  return made % 3 === 0
    ? { type: "touch-test", ...base, layer: 2, finding: "still wet" }
    : { type: "move-tray", ...base, placeId: "rack-a", slot: String(made % 97) };
}

/** What the real server makes of one command of each type. */
async function patternOf(port: number, pid: number, token: string): Promise<Pattern> {
  const watch = new Watch();
  const real: Loaded = { pid, screens: [await realScreen(port, token, watch.ears)], watch };
  const events: Record<string, object> = {};
  let change = {};
  for (let k = 0; k < 4; k += 1) {
    let type = "";
    const once = (): ReturnType<typeof make> => {
      const command = make();
      type = command.type;
      return command;
    };
    await load(real, { commands: 1, pace: { underWay: 1 }, make: once });
    const { events: told, forecasts: _worked, ...rest } = JSON.parse(watch.lastChange) as Change;
    change = rest;
    events[type] = told[0] ?? {};
  }
  for (const screen of real.screens) screen.close();
  return { events, change };
}

async function startFloor(folder: string, pattern: Pattern): Promise<{ child: ChildProcess; port: number }> {
  const script = fileURLToPath(new URL("floor-server.ts", import.meta.url));
  const child = spawn(
    process.execPath,
    ["--import", "tsx", script, join(folder, "floor.db"), JSON.stringify(pattern)],
    { stdio: ["ignore", "pipe", "inherit"] },
  );
  const port = await new Promise<number>((resolve, reject) => {
    child.stdout.on("data", (chunk: Buffer) => {
      const found = /port (\d+)/.exec(chunk.toString("utf8"))?.[1];
      if (found !== undefined) resolve(Number(found));
    });
    child.on("exit", (code) => reject(new Error(`the floor's server ended with ${code}`)));
  });
  return { child, port };
}

const at = (share: number, values: readonly number[]): number => {
  const sorted = values.toSorted((a, b) => a - b);
  return sorted[Math.min(sorted.length - 1, Math.floor(share * sorted.length))] ?? Number.NaN;
};

if (process.argv[1] !== undefined && import.meta.url === pathToFileURL(process.argv[1]).href) {
  for (const { screens, pace, floor, real } of await benchLive()) {
    const row = (what: string, of: (m: Measured) => number): void => {
      const [f, r] = [of(floor), of(real)];
      console.log(
        `  ${what.padEnd(28)} floor ${f.toFixed(2).padStart(8)}  real ${r.toFixed(2).padStart(8)}  × ${(r / f).toFixed(2)}`,
      );
    };
    console.log(`${screens} screens, ${pace}`);
    row("last screen, median ms", (m) => at(0.5, m.lastScreenMs));
    row("last screen, p99 ms", (m) => at(0.99, m.lastScreenMs));
    row("ack, median ms", (m) => at(0.5, m.ackMs));
    row("ack, p99 ms", (m) => at(0.99, m.ackMs));
    row("cpu a command, ms", (m) => m.cpuMs / m.commands);
    row("  main thread alone, ms", (m) => m.mainCpuMs / m.commands);
    row("commands a second", (m) => (1000 * m.commands) / m.tookMs);
    row("change bytes a command", (m) => m.changeBytes / m.commands);
    row("messages a command", (m) => m.messages / m.commands);
  }
}
