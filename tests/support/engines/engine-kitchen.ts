import { mkdtempSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterAll, afterEach, beforeAll, beforeEach } from "vitest";
import { PHONE, type Size, WALL } from "../browser.ts";
import { type Air, openAir } from "../browser-air.ts";
import { type KitchenServer, openKitchenServer } from "../kitchen-server.ts";
import { JOIN_CODE } from "../server-app.ts";
import type { Engine } from "./engine.ts";
import { button, type EngineScreen, engineScreen } from "./screen.ts";

/** A page of this kitchen in an engine, with the air it is reached through. */
export interface KitchenScreen extends EngineScreen {
  air: Air;
  origin: string;
}

/** A kitchen's server, and screens of it in one engine. */
export interface EngineKitchen extends KitchenServer {
  open: (path: string, size: Size) => Promise<KitchenScreen>;
  phone: (name: string) => Promise<KitchenScreen>;
  wall: () => Promise<KitchenScreen>;
  /** Files with what each screen shows. */
  pictures: (of: string) => Promise<string>;
}

async function openEngineKitchen(engine: Engine): Promise<EngineKitchen> {
  const server = await openKitchenServer();
  const screens: KitchenScreen[] = [];
  const kitchen: EngineKitchen = {
    ...server,
    async open(path, size) {
      const air = await openAir(() => server.server().port);
      const origin = `http://127.0.0.1:${air.port}`;
      const screen = { ...engineScreen(await engine.open(size)), air, origin };
      screens.push(screen);
      await screen.goTo(origin + path);
      return screen;
    },
    async phone(name) {
      const phone = await kitchen.open(`/phone/#join=${JOIN_CODE}`, PHONE);
      await phone.type("Your name", name);
      await phone.tap(button("Join"));
      return phone;
    },
    async wall() {
      const wall = await kitchen.open("/display/", WALL);
      await wall.type("Join code", JOIN_CODE);
      await wall.tap(button("Show the board"));
      return wall;
    },
    async pictures(of) {
      const folder = mkdtempSync(join(tmpdir(), "traytide-failed-"));
      const name = of.replaceAll(/\W+/g, "-").slice(0, 60);
      await Promise.allSettled(
        screens.map(({ page }, k) => page.picture(join(folder, `${name}-${k + 1}.png`))),
      );
      return folder;
    },
    async close() {
      await Promise.all(screens.map(({ page }) => page.close()));
      for (const { air } of screens) air.close();
      await server.close();
    },
  };
  return kitchen;
}

/** A kitchen for each test, its screens in the engine that `open` starts. Pictures of them are kept when a test fails. */
export function useEngineKitchen(open: () => Promise<Engine>): () => EngineKitchen {
  let engine: Engine | undefined;
  let kitchen: EngineKitchen | undefined;
  beforeAll(async () => {
    engine = await open();
  });
  beforeEach(async () => {
    kitchen = await openEngineKitchen(engine!);
  });
  afterEach(async ({ task }) => {
    if (task.result?.state === "fail")
      console.error(`Pictures of the screens: ${await kitchen?.pictures(task.name)}`);
    await kitchen?.close();
    kitchen = undefined;
  });
  afterAll(() => engine?.close());
  return () => {
    if (kitchen === undefined) throw new Error("there is no kitchen open");
    return kitchen;
  };
}
