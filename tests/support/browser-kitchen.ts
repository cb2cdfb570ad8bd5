import { mkdtempSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import type { Browser } from "playwright";
import { afterAll, afterEach, beforeAll, beforeEach } from "vitest";
import type { JoinAnswer } from "#shared/protocol/join.ts";
import {
  KITCHEN_HOST,
  launchBrowser,
  openScreen,
  PHONE,
  type Screen,
  type Size,
  takePictures,
  WALL,
} from "./browser.ts";
import { type Air, openAir } from "./browser-air.ts";
import { roomCommands } from "./browser-room.ts";
import { JOIN_CODE } from "./server-app.ts";
import { type ServerProcess, startProcess } from "./server-process.ts";

/** A screen that has joined, with the air it is reached through. */
export interface JoinedScreen extends Screen {
  air: Air;
  origin: string;
  /** What the server let this screen in with. */
  joined: JoinAnswer;
}

export interface ScreenOptions {
  size?: Size;
  /** On the one address that browsers hold secure without TLS. */
  isSecure?: boolean;
}

/** A line of the exported log, as far as tests look. */
export interface LogLine {
  seq: number;
  type: string;
  actId: string;
  atMs: number;
  trayId?: string;
}

/** The built server as a process with its own data folder, and browsers' screens that have joined it. */
export interface LiveKitchen {
  browser: Browser;
  server: () => ServerProcess;
  /** A page on this kitchen's address that has not joined. */
  open: (
    path: string,
    options: ScreenOptions & { isPhone: boolean },
  ) => Promise<Omit<JoinedScreen, "joined">>;
  phone: (name: string, options?: ScreenOptions) => Promise<JoinedScreen>;
  wall: (options?: ScreenOptions) => Promise<JoinedScreen>;
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
  screens: () => readonly Screen[];
  close: () => Promise<void>;
}

export async function openKitchen(browser: Browser, args: readonly string[] = []): Promise<LiveKitchen> {
  const folder = mkdtempSync(join(tmpdir(), "traytide-test-"));
  const start = (port: string): Promise<ServerProcess> =>
    startProcess(folder, { args, env: { NODE_ENV: "production", PORT: port, TRAYTIDE_HOSTS: KITCHEN_HOST } });
  let server = await start("0");
  const screens: Screen[] = [];
  const airs: Air[] = [];
  let sent = 0;

  const kitchen: LiveKitchen = {
    browser,
    server: () => server,
    async open(path, { size, isSecure = false, isPhone }) {
      const air = await openAir(() => server.port);
      airs.push(air);
      const screen = await openScreen(browser, size ?? (isPhone ? PHONE : WALL), isPhone);
      screens.push(screen);
      const origin = `http://${isSecure ? "127.0.0.1" : KITCHEN_HOST}:${air.port}`;
      await screen.page.goto(origin + path);
      return { ...screen, air, origin };
    },
    async phone(name, options = {}) {
      const screen = await kitchen.open(`/phone/#join=${JOIN_CODE}`, { ...options, isPhone: true });
      const answer = screen.page.waitForResponse("**/api/join");
      await screen.page.getByLabel("Your name").fill(name);
      await screen.page.getByRole("button", { name: "Join" }).tap();
      return { ...screen, joined: (await (await answer).json()) as JoinAnswer };
    },
    async wall(options = {}) {
      const screen = await kitchen.open("/display/", { ...options, isPhone: false });
      const answer = screen.page.waitForResponse("**/api/join");
      await screen.page.getByLabel("Join code").fill(JOIN_CODE);
      await screen.page.getByRole("button", { name: "Show the board" }).click();
      return { ...screen, joined: (await (await answer).json()) as JoinAnswer };
    },
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
    screens: () => screens,
    async close() {
      await Promise.all(screens.map(({ context }) => context.close()));
      for (const air of airs) air.close();
      await server.end("SIGKILL");
      rmSync(folder, { recursive: true, force: true });
    },
  };
  return kitchen;
}

/** A kitchen for each test, or for a file's tests together. Pictures of its screens are kept when a test fails. */
export function useKitchen(
  per: "test" | "file",
  open: (browser: Browser) => Promise<LiveKitchen> = openKitchen,
): () => LiveKitchen {
  let browser: Browser;
  let kitchen: LiveKitchen | undefined;
  const close = async (): Promise<void> => {
    await kitchen?.close();
    kitchen = undefined;
  };
  beforeAll(async () => {
    browser = await launchBrowser();
    if (per === "file") kitchen = await open(browser);
  });
  beforeEach(async () => {
    kitchen ??= await open(browser);
  });
  afterEach(async ({ task }) => {
    if (task.result?.state === "fail") {
      const pages = kitchen?.screens().flatMap(({ context }) => context.pages()) ?? [];
      console.error(`Pictures of the screens: ${await takePictures(pages, task.name)}`);
    }
    if (per === "test") await close();
  });
  afterAll(async () => {
    await close();
    await browser.close();
  });
  return () => {
    if (kitchen === undefined) throw new Error("there is no kitchen open");
    return kitchen;
  };
}
