import { launchBrowser } from "../browser.ts";
import type { Engine } from "./engine.ts";

export async function openChromium(): Promise<Engine> {
  const browser = await launchBrowser();
  return {
    name: "chromium",
    async open(size) {
      const context = await browser.newContext({ viewport: size, hasTouch: true, locale: "en-GB" });
      const page = await context.newPage();
      return {
        version: `Chromium ${browser.version()}`,
        goTo: async (address) => void (await page.goto(address)),
        reload: async () => void (await page.reload()),
        evaluate: (expression) => page.evaluate(expression),
        tapAt: (x, y) => page.touchscreen.tap(x, y),
        type: (text) => page.keyboard.type(text),
        picture: async (path) => void (await page.screenshot({ path })),
        close: () => context.close(),
      };
    },
    close: () => browser.close(),
  };
}
