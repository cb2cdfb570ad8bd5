import { type ChildProcess, fork, spawn } from "node:child_process";
import { once } from "node:events";
import { mkdtempSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { fileURLToPath, pathToFileURL } from "node:url";
import { nanoid } from "nanoid";
import type { Change } from "#shared/protocol/change.ts";
import { startProcess } from "../../support/server-process.ts";
import { makeBoardFolder } from "./board-folder.ts";
import type { Pattern } from "./floor-server.ts";
import { type Figure, say } from "../figures.ts";
import { load, type Loaded, type MadeCommand, type Measured, Watch } from "./load.ts";
import { floorScreen, realScreen, type ScreenLine } from "./screens.ts";

const TRAYS = 300;
export const SCREENS = [10, 50, 200] as const;
const A_SECOND = 30;
const UNDER_WAY = 32;
/** A kitchen runs all day: what is compiled in its first seconds is nothing that a command costs. */
const WARM = { commands: 600, pace: { aSecond: 2 * A_SECOND } };

/**
 * Both servers under the same load in turn. Taps are on trays, and bring forecasts, learning and plans with them; notes touch no
 * forecast, and so are what a command costs by itself.
 */
export interface LiveBench {
  screens: number;
  load: "30 taps a second" | "taps at full speed" | "30 notes a second";
  floor: Measured;
  real: Measured;
}

/** The real server beside the floor's, processes of their own, in turn from the same load. */
export async function benchLive(onBench?: (bench: LiveBench) => void): Promise<LiveBench[]> {
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
      const these = await inTurn(screens, real, floor);
      for (const bench of these) onBench?.(bench);
      benches.push(...these);
      for (const one of [...real.screens, ...floor.screens]) one.close();
    }
    return benches;
  } finally {
    for (const child of children) child.kill("SIGKILL");
    rmSync(folder, { recursive: true, force: true });
  }
}

type Load = Parameters<typeof load>[1] & { name: LiveBench["load"]; rounds: number };

const LOADS: readonly Load[] = [
  { name: "30 taps a second", pace: { aSecond: A_SECOND }, make: tap, rounds: 3, commands: 90 },
  { name: "30 notes a second", pace: { aSecond: A_SECOND }, make: note, rounds: 2, commands: 90 },
  { name: "taps at full speed", pace: { underWay: UNDER_WAY }, make: tap, rounds: 2, commands: 600 },
];

async function inTurn(screens: number, real: Loaded, floor: Loaded): Promise<LiveBench[]> {
  for (const one of [floor, real]) for (const make of [tap, note]) await load(one, { ...WARM, make });
  const benches: LiveBench[] = [];
  for (const { name, rounds, ...one } of LOADS) {
    const [floors, reals]: [Measured[], Measured[]] = [[], []];
    for (let round = 0; round < rounds; round += 1) {
      floors.push(await load(floor, one));
      reals.push(await load(real, one));
    }
    benches.push({ screens, load: name, floor: together(floors), real: together(reals) });
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
function tap(): MadeCommand {
  made += 1;
  const base = { commandId: nanoid(), atMs: Date.now(), trayId: `x${(made * 7) % TRAYS}` };
  return made % 3 === 0
    ? { type: "touch-test", ...base, layer: 2, finding: "still wet" }
    : { type: "move-tray", ...base, placeId: "rack-a", slot: String(made % 97) };
}

function note(): MadeCommand {
  made += 1;
  const text = `Box ${made} of the Lantern Walk stands by the door; its ribbon is still to come.`;
  return { type: "leave-note", commandId: nanoid(), atMs: Date.now(), text };
}

/** What the real server makes of one command of each type. */
async function patternOf(port: number, pid: number, token: string): Promise<Pattern> {
  const watch = new Watch();
  const real: Loaded = { pid, screens: [await realScreen(port, token, watch.ears)], watch };
  const events: Record<string, object> = {};
  let change = {};
  for (const command of [tap(), tap(), tap(), note()]) {
    await load(real, { commands: 1, pace: { underWay: 1 }, make: () => command });
    const { events: told, forecasts: _worked, ...rest } = JSON.parse(watch.lastChange) as Change;
    change = rest;
    events[command.type] = told.find(({ actId }) => actId === command.commandId) ?? {};
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

/** The value below which so large a share of all lies. */
export const quantile = (share: number, values: readonly number[]): number => {
  const sorted = values.toSorted((a, b) => a - b);
  return sorted[Math.min(sorted.length - 1, Math.floor(share * sorted.length))] ?? Number.NaN;
};

/** As asked for: so many times the floor. */
const ASKED_TIMES = { lastScreen: 1.1, lastScreenP99: 1.3, ack: 1.5, cpu: 1.6 } as const;

export function liveFigures(benches: readonly LiveBench[]): Figure[] {
  return benches.flatMap(({ screens, load: name, real, floor }) => {
    const figure = (what: string, of: (measured: Measured) => number, limitTimes?: number): Figure => ({
      what: `${screens} screens, ${name}: ${what}`,
      ms: of(real),
      yardstick: "bare ws and SQLite",
      yardstickMs: of(floor),
      ...(limitTimes !== undefined && { limitTimes }),
    });
    return [
      figure("last screen, median", (m) => quantile(0.5, m.lastScreenMs), ASKED_TIMES.lastScreen),
      figure("last screen, p99", (m) => quantile(0.99, m.lastScreenMs), ASKED_TIMES.lastScreenP99),
      figure("acknowledged, median", (m) => quantile(0.5, m.ackMs), ASKED_TIMES.ack),
      figure("acknowledged, p99", (m) => quantile(0.99, m.ackMs), ASKED_TIMES.ack),
      figure("CPU a command", (m) => m.cpuMs / m.commands, ASKED_TIMES.cpu),
      figure("  of it the main thread", (m) => m.mainCpuMs / m.commands),
    ];
  });
}

/**
 * The figures, measured from a process of their own, whose garbage collector has no other bench's data to go through: a pause of it would
 * count as the servers'.
 */
export async function liveFiguresApart(): Promise<Figure[]> {
  const figures: Figure[] = [];
  const child = fork(fileURLToPath(import.meta.url), { execArgv: ["--import", "tsx"] });
  child.on("message", (told: Figure[]) => figures.push(...told));
  const [[code]] = (await Promise.all([once(child, "exit"), once(child, "disconnect")])) as [
    [unknown],
    unknown,
  ];
  if (code !== 0) throw new Error(`the live server's bench ended with ${String(code)}`);
  return figures;
}

if (process.argv[1] !== undefined && import.meta.url === pathToFileURL(process.argv[1]).href)
  await benchLive((bench) => {
    const figures = liveFigures([bench]);
    if (process.send === undefined) console.log(figures.map(say).join("\n"));
    else process.send(figures);
  });
