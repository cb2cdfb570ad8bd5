import { type ChildProcess, spawn } from "node:child_process";
import { once } from "node:events";
import { writeFileSync } from "node:fs";
import { createServer } from "node:net";
import { setTimeout as sleep } from "node:timers/promises";
import { Builder, Capabilities, type WebDriver } from "selenium-webdriver";
import type { Engine, EnginePage } from "./engine.ts";

export interface WebKitPaths {
  driver: string;
  browser: string;
  display: string;
}

/** WebKit as GTK programs embed it, in windows of an X server that has no screen. */
export async function openWebKit(paths: WebKitPaths): Promise<Engine> {
  const display = spawn(
    paths.display,
    ["-displayfd", "3", "-screen", "0", "2000x1200x24", "-nolisten", "tcp"],
    {
      stdio: ["ignore", "ignore", "ignore", "pipe"],
    },
  );
  const [shown] = (await once(display.stdio[3]!, "data")) as [Buffer];
  const env = {
    ...process.env,
    DISPLAY: `:${shown.toString().trim()}`,
    LANG: "en_GB.UTF-8",
    // Root has no user namespaces to sandbox with, and this machine perhaps no graphics card.
    WEBKIT_DISABLE_SANDBOX_THIS_IS_DANGEROUS: "1",
    LIBGL_ALWAYS_SOFTWARE: "1",
  };
  const pages = new Set<EnginePage>();
  return {
    name: "webkit",
    async open(size) {
      // A driver has one session: each page gets a driver of its own, and with it a profile.
      const port = await freePort();
      const server = spawn(paths.driver, [`--port=${port}`], { env, stdio: "ignore" });
      const driver = await openSession(`http://127.0.0.1:${port}`, paths.browser);
      const version = (await driver.getCapabilities()).getBrowserVersion();
      await driver
        .manage()
        .window()
        .setRect({ x: 0, y: 0, ...size });
      const page: EnginePage = {
        version: `WebKitGTK ${version}`,
        goTo: (address) => driver.get(address),
        reload: () => driver.navigate().refresh(),
        evaluate: (expression) => driver.executeScript(`return ${expression}`),
        // Its driver knows no fingers.
        tapAt: (x, y) =>
          driver
            .actions({ async: true })
            .move({ x: Math.round(x), y: Math.round(y), duration: 0 })
            .press()
            .release()
            .perform(),
        type: (text) => driver.actions({ async: true }).sendKeys(text).perform(),
        picture: async (path) => writeFileSync(path, await driver.takeScreenshot(), "base64"),
        async close() {
          pages.delete(page);
          await driver.quit();
          await ended(server);
        },
      };
      pages.add(page);
      return page;
    },
    async close() {
      await Promise.all([...pages].map((page) => page.close()));
      await ended(display);
    },
  };
}

async function openSession(address: string, browser: string): Promise<WebDriver> {
  const isUp = async (): Promise<boolean> =>
    (await fetch(`${address}/status`).catch(() => undefined)) !== undefined;
  for (let tries = 0; !(await isUp()); tries += 1) {
    if (tries === 100) throw new Error("WebKit's driver does not answer");
    await sleep(50);
  }
  const wanted = new Capabilities({
    browserName: "MiniBrowser",
    // Full: no toolbar that takes its height, or keeps the window wider than a phone.
    "webkitgtk:browserOptions": { binary: browser, args: ["--automation", "--full-screen"] },
  });
  return new Builder().usingServer(address).withCapabilities(wanted).build();
}

async function freePort(): Promise<number> {
  const server = createServer().listen(0, "127.0.0.1");
  await once(server, "listening");
  const address = server.address();
  server.close();
  await once(server, "close");
  return typeof address === "object" && address !== null ? address.port : 0;
}

async function ended(child: ChildProcess): Promise<void> {
  if (child.exitCode !== null || child.signalCode !== null) return;
  child.kill();
  await once(child, "exit");
}
