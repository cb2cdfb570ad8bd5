import { cpSync, mkdtempSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import type { JoinAnswer } from "#shared/protocol/join.ts";
import { KITCHEN_HOST } from "./browser.ts";
import { roomCommands } from "./browser-room.ts";
import { type ServerProcess, startProcess } from "./server-process.ts";

/** A line of the exported log, as far as tests look. */
export interface LogLine {
  seq: number;
  type: string;
  actId: string;
  atMs: number;
  trayId?: string;
}

/** The built server as a process with its own data folder. */
export interface KitchenServer {
  server: () => ServerProcess;
  /** Joins without a screen; the first to join leads. */
  join: (name: string) => Promise<JoinAnswer>;
  /** Sends commands one after another; throws at the first that is not taken. */
  send: (token: string, ...commands: object[]) => Promise<void>;
  /** The lead's token of a kitchen set up with so many trays of three cookies each. */
  setUp: (trays: number) => Promise<string>;
  log: (leadToken: string) => Promise<LogLine[]>;
  /** As a power cut ends it. */
  kill: () => Promise<void>;
  /** On the same data folder and port. */
  restart: () => Promise<void>;
  /** What its folder held, on another folder and port. */
  startSpare: () => Promise<void>;
  close: () => Promise<void>;
}

export async function openKitchenServer(args: readonly string[] = []): Promise<KitchenServer> {
  let folder = mkdtempSync(join(tmpdir(), "traytide-test-"));
  const start = (port: string): Promise<ServerProcess> =>
    startProcess(folder, { args, env: { NODE_ENV: "production", PORT: port, TRAYTIDE_HOSTS: KITCHEN_HOST } });
  let server = await start("0");
  let sent = 0;
  const kitchen: KitchenServer = {
    server: () => server,
    join: (name) => server.join(name),
    async send(token, ...commands) {
      for (const command of commands) {
        const answer = await server.command(token, { commandId: `e2e-${(sent += 1)}`, ...command });
        if (answer.status !== 200) throw new Error(`${JSON.stringify(command)}: ${answer.text}`);
      }
    },
    async setUp(trays) {
      const { token } = await server.join("Ida");
      await kitchen.send(token, ...roomCommands(trays, Date.now()));
      return token;
    },
    async log(token) {
      const { text } = await server.call("GET", "/api/export/events.jsonl", { token });
      return text
        .trimEnd()
        .split("\n")
        .map((line) => JSON.parse(line) as LogLine);
    },
    async kill() {
      await server.end("SIGKILL");
    },
    async restart() {
      server = await start(String(server.port));
    },
    async startSpare() {
      const other = mkdtempSync(join(tmpdir(), "traytide-test-"));
      cpSync(folder, other, { recursive: true });
      rmSync(folder, { recursive: true });
      folder = other;
      server = await start("0");
    },
    async close() {
      await server.end("SIGKILL");
      rmSync(folder, { recursive: true, force: true });
    },
  };
  return kitchen;
}
