import { type ChildProcess, spawn } from "node:child_process";
import { copyFileSync, existsSync, mkdirSync, rmSync } from "node:fs";
import { createServer } from "node:net";
import { join } from "node:path";
import { fileURLToPath } from "node:url";
import type { CrashAt, CrashPoint } from "#server/crash-points.ts";
import { openKitchenDb } from "#server/log/kitchen-db.ts";
import { kitchenClock, systemTimers } from "#server/live/clock.ts";
import { steadyClock } from "#server/live/steady-clock.ts";
import { JOIN_CODE, startServer } from "../server-app.ts";

/** Where a server is to die: at which crash point, the how many-eth time; or at any moment, once so many acts were made. */
export interface Plan {
  point: CrashPoint | "any-moment";
  count: number;
}

/** One run of a server on a data folder, from its start to its death. */
export interface Life {
  /** Resolves with the folder as the power cut left it. */
  died: Promise<string>;
  /** As a person stops it, unless it dies at that. */
  stop: () => void;
  /** The power goes now. */
  kill: () => void;
}

/** Starts a server, to die as planned; resolves once it listens, or is dead. */
export type Start = (folder: string, port: number, plan?: Plan) => Promise<Life>;

const root = fileURLToPath(new URL("../../..", import.meta.url));

/** A port below those that a system gives to connections, so that nobody takes it while its server is dead. */
export async function quietPort(draw: () => number): Promise<number> {
  for (;;) {
    const port = 20_000 + Math.floor(draw() * 10_000);
    const isFree = await new Promise<boolean>((resolve) => {
      const probe = createServer();
      probe.on("error", () => resolve(false));
      probe.listen(port, "127.0.0.1", () => probe.close(() => resolve(true)));
    });
    if (isFree) return port;
  }
}

/** The built server in a process of its own, which kills itself. */
export const processLife =
  (running: Set<ChildProcess>): Start =>
  (folder, port, plan) => {
    const child = spawn(process.execPath, ["dist/server/main.js"], {
      cwd: root,
      env: {
        ...process.env,
        NODE_ENV: "production",
        LC_ALL: "C",
        PORT: String(port),
        TRAYTIDE_DATA: folder,
        TRAYTIDE_JOIN_CODE: JOIN_CODE,
        TRAYTIDE_NAME: "off",
        ...(plan !== undefined && { TRAYTIDE_CRASH_AT: `${plan.point}:${plan.count}` }),
      },
      stdio: ["ignore", "pipe", "pipe"],
    });
    running.add(child);
    let said = "";
    const died = new Promise<string>((resolve, reject) => {
      child.on("close", (code, signal) => {
        running.delete(child);
        if (signal === "SIGKILL") resolve(folder);
        else reject(new Error(`the server ended with ${code ?? signal}: ${said}`));
      });
    });
    died.catch(() => undefined);
    const life = { died, stop: () => void child.kill("SIGTERM"), kill: () => void child.kill("SIGKILL") };
    child.stderr.on("data", (chunk: Buffer) => (said += chunk.toString("utf8")));
    return new Promise((resolve) => {
      child.stdout.on("data", (chunk: Buffer) => {
        if ((said += chunk.toString("utf8")).includes("/display/")) resolve(life);
      });
      died.then(
        () => resolve(life),
        () => resolve(life),
      );
    });
  };

/**
 * The same server in this process, to save the time of a start: at its crash point it gets no further turn, its connections
 * are cut, and what its disk held just then is copied to the folder it begins its next life from.
 */
export const simulatedLife =
  (wallMs: () => number = Date.now): Start =>
  async (folder, port, plan) => {
    let isDead = false;
    let die: (left: string) => void = () => undefined;
    const died = new Promise<string>((resolve) => (die = resolve));
    let left = plan?.count ?? 0;
    const db = openKitchenDb(join(folder, "kitchen.db"));
    const crash: CrashAt = async (point) => {
      if (isDead) await new Promise(() => undefined);
      if (point !== plan?.point || (left -= 1) !== 0) return;
      if (point === "after-acknowledge") await new Promise((resolve) => setTimeout(resolve, 5));
      fall();
      await new Promise(() => undefined);
    };
    const stops = new Set<() => void>();
    const whileAlive = (act: () => void) => (): void => void (isDead || act());
    const timers: typeof systemTimers = {
      every: (ms, act) => {
        const stop = systemTimers.every(ms, whileAlive(act));
        stops.add(stop);
        return stop;
      },
      after: (ms, act) => systemTimers.after(ms, whileAlive(act)),
    };
    let server: Awaited<ReturnType<typeof startServer>> | undefined;
    function fall(): void {
      if (isDead) return;
      isDead = true;
      for (const stop of stops) stop();
      const next = `${folder}-`;
      mkdirSync(next);
      for (const name of ["kitchen.db", "kitchen.db-wal"])
        if (existsSync(join(folder, name))) copyFileSync(join(folder, name), join(next, name));
      const http = server?.app.http;
      http?.close();
      http?.closeAllConnections();
      // Connections that have become sockets are the gateway's.
      cut();
      db.close();
      rmSync(folder, { recursive: true });
      setImmediate(() => die(next));
    }
    let cut = (): void => undefined;
    const steady = steadyClock(
      wallMs,
      () => performance.now(),
      () => undefined,
    );
    const clock = kitchenClock(steady.realMs, 1);
    const starting = startServer({
      db,
      port,
      crash,
      hands: { clock, timers, advance: () => undefined, jump: () => undefined },
      holdClock: steady.hold,
      clockProblem: steady.problem,
      monotonicMs: () => performance.now(),
      nextTurn: (act) => setImmediate(whileAlive(act)),
    }).then((started) => {
      server = started;
      const sockets = new Set<{ destroy: () => void }>();
      started.app.http.on("connection", (socket) => {
        sockets.add(socket);
        socket.on("close", () => sockets.delete(socket));
      });
      cut = () => sockets.forEach((socket) => socket.destroy());
    });
    await Promise.race([starting, died]);
    return { died, stop: () => void server?.close(), kill: fall };
  };
