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
import { type KitchenServer, openKitchenServer } from "./kitchen-server.ts";
import { JOIN_CODE } from "./server-app.ts";

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

/** A kitchen's server, and browsers' screens that have joined it. */
export interface LiveKitchen extends KitchenServer {
  browser: Browser;
  /** A page on this kitchen's address that has not joined. */
  open: (
    path: string,
    options: ScreenOptions & { isPhone: boolean },
  ) => Promise<Omit<JoinedScreen, "joined">>;
  phone: (name: string, options?: ScreenOptions) => Promise<JoinedScreen>;
  wall: (options?: ScreenOptions) => Promise<JoinedScreen>;
  screens: () => readonly Screen[];
}

export async function openKitchen(browser: Browser, args: readonly string[] = []): Promise<LiveKitchen> {
  const server = await openKitchenServer(args);
  const screens: Screen[] = [];
  const airs: Air[] = [];

  const kitchen: LiveKitchen = {
    ...server,
    browser,
    async open(path, { size, isSecure = false, isPhone }) {
      const air = await openAir(() => server.server().port);
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
    screens: () => screens,
    async close() {
      await Promise.all(screens.map(({ context }) => context.close()));
      for (const air of airs) air.close();
      await server.close();
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
