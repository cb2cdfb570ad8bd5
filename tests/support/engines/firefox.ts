import puppeteer from "puppeteer-core";
import type { Engine } from "./engine.ts";

/** Firefox by WebDriver BiDi. */
export async function openFirefox(executablePath: string): Promise<Engine> {
  const browser = await puppeteer.launch({
    browser: "firefox",
    executablePath,
    headless: true,
    extraPrefsFirefox: { "intl.accept_languages": "en-GB" },
  });
  const version = (await browser.version()).replace("firefox/", "Firefox ");
  return {
    name: "firefox",
    async open(size) {
      const context = await browser.createBrowserContext();
      const page = await context.newPage();
      await page.setViewport(size);
      return {
        version,
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
