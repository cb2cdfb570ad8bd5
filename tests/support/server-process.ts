import { type ChildProcess, spawn } from "node:child_process";
import { fileURLToPath } from "node:url";
import type { JoinAnswer } from "#shared/protocol/join.ts";
import { type Answer, caller, JOIN_CODE } from "./server-app.ts";

const root = fileURLToPath(new URL("../..", import.meta.url));

/** The built server in a process of its own, as `npm start` runs it. */
export interface ServerProcess {
  child: ChildProcess;
  port: number;
  said: () => string;
  call: ReturnType<typeof caller>;
  join: (name: string) => Promise<JoinAnswer>;
  command: (token: string, command: object) => Promise<Answer>;
  /** Sends a signal and resolves with how it ended. */
  end: (signal: NodeJS.Signals) => Promise<Ended>;
}

export interface Ended {
  code: number | null;
  signal: NodeJS.Signals | null;
  said: string;
}

interface Run {
  args?: readonly string[];
  env?: Readonly<Record<string, string>>;
  /** The tree it runs from; this one unless given. */
  root?: string;
  /** The account it runs as, for who may choose one. */
  uid?: number;
}

function launch(dataFolder: string, { args = [], env = {}, root: cwd = root, uid }: Run) {
  const child = spawn(process.execPath, ["server/start.mjs", ...args], {
    cwd,
    // What it throws away at its end goes with its data folder where it is killed.
    env: {
      ...process.env,
      LC_ALL: "C",
      PORT: "0",
      TRAYTIDE_DATA: dataFolder,
      TMPDIR: dataFolder,
      TRAYTIDE_JOIN_CODE: JOIN_CODE,
      TRAYTIDE_NAME: "off",
      ...env,
    },
    stdio: ["ignore", "pipe", "pipe"],
    ...(uid !== undefined && { uid }),
  });
  let said = "";
  const listeners = new Set<() => void>();
  for (const stream of [child.stdout, child.stderr]) {
    stream.on("data", (chunk: Buffer) => {
      said += chunk.toString("utf8");
      for (const listener of listeners) listener();
    });
  }
  const ended = new Promise<Ended>((resolve) => {
    child.on("close", (code, signal) => resolve({ code, signal, said }));
  });
  return { child, ended, said: () => said, listeners };
}

/** Starts a server and waits until it has printed its addresses; rejects with what it said if it ends instead. */
export async function startProcess(dataFolder: string, run: Run = {}): Promise<ServerProcess> {
  const { child, ended, said, listeners } = launch(dataFolder, run);
  const port = await new Promise<number>((resolve, reject) => {
    const look = (): void => {
      const found = /Wall\s+\S+:(\d+)\/display\//.exec(said())?.[1];
      if (found === undefined) return;
      listeners.delete(look);
      resolve(Number(found));
    };
    listeners.add(look);
    void ended.then(({ code }) => reject(new Error(`it ended with ${code}: ${said()}`)));
  });
  const call = caller(port);
  return {
    child,
    port,
    said,
    call,
    join: async (name) => {
      const answer = await call("POST", "/api/join", { body: { code: JOIN_CODE, name } });
      if (answer.status !== 200) throw new Error(`join: ${answer.status} ${answer.text}`);
      return answer.json() as unknown as JoinAnswer;
    },
    command: (token, command) => call("POST", "/api/commands", { token, body: command }),
    end: (signal) => {
      child.kill(signal);
      return ended;
    },
  };
}

/** Runs a server that is expected to end by itself. */
export const runProcess = (dataFolder: string, run: Run = {}): Promise<Ended> =>
  launch(dataFolder, run).ended;
