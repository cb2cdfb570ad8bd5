import { type ChildProcess, spawn } from "node:child_process";
import { fileURLToPath } from "node:url";
import { JOIN_CODE } from "../server-app.ts";

const root = fileURLToPath(new URL("../../..", import.meta.url));

/** One of the servers, at a port that it keeps; it is started again after each death. */
export interface FleetServer {
  readonly port: number;
  /** Resolves once it listens. */
  start: () => Promise<void>;
  /** As if its machine lost power; resolves once it is gone. */
  kill: () => Promise<void>;
  isUp: () => boolean;
  /** What it wrote about trouble. */
  said: () => string;
}

export function fleetServer(port: number, env: Readonly<Record<string, string>>): FleetServer {
  let child: ChildProcess | undefined;
  let said = "";
  const gone = (one: ChildProcess): Promise<void> =>
    new Promise((resolve) => {
      if (one.exitCode !== null || one.signalCode !== null) resolve();
      else one.on("close", () => resolve());
    });
  return {
    port,
    start: () =>
      new Promise((resolve, reject) => {
        const started = spawn(process.execPath, ["dist/server/main.js"], {
          cwd: root,
          env: {
            ...process.env,
            NODE_ENV: "production",
            LC_ALL: "C",
            TRAYTIDE_JOIN_CODE: JOIN_CODE,
            TRAYTIDE_NAME: "off",
            ...env,
            PORT: String(port),
          },
          stdio: ["ignore", "pipe", "pipe"],
        });
        child = started;
        started.stderr.on("data", (chunk: Buffer) => (said += chunk.toString("utf8")));
        started.stdout.on("data", (chunk: Buffer) => {
          if (chunk.toString("utf8").includes("/display/")) resolve();
        });
        started.on("close", (code, signal) => {
          if (child === started) child = undefined;
          reject(new Error(`a server ended with ${code ?? signal} before it listened: ${said}`));
        });
      }),
    kill: async () => {
      const dying = child;
      if (dying === undefined) return;
      dying.kill("SIGKILL");
      await gone(dying);
    },
    isUp: () => child !== undefined,
    said: () => said,
  };
}
