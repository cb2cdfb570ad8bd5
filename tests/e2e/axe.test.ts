import type { Page } from "playwright";
import { beforeAll, describe, expect, it } from "vitest";
import { DESK, goTo, PHONE, WALL } from "../support/browser.ts";
import { chooseLanguage, clipped, type Finding, sideways } from "../support/browser-audit.ts";
import { axeFindings } from "../support/browser-axe.ts";
import { type JoinedScreen, useKitchen } from "../support/browser-kitchen.ts";
import { PHONE_PATHS } from "../support/phone-paths.ts";

const kitchen = useKitchen("file");

type Language = "en" | "es";
type Theme = "day" | "night";
const MIN_MS = 60_000;
/** What ":id" is on a screen that shows one of several; a tray's number is 1. */
const IDS: Readonly<Record<string, string>> = {
  order: "party",
  "order-icing": "party",
  "order-labels": "party",
  design: "lantern",
  colour: "storm",
  batch: "bowl",
  recipe: "base",
  "set-up": "2",
};

const SUGAR = { name: "Icing sugar", amount: 1000, unit: "g" };

let phone: JoinedScreen;
let wall: JoinedScreen;

/** A kitchen at work, so that there is something on each screen. */
beforeAll(async () => {
  const lead = await kitchen().setUp(8);
  const ago = (minutes: number): number => Date.now() - minutes * MIN_MS;
  const bowl = {
    id: "bowl",
    icingId: "butter",
    consistency: "flood",
    mixedAtMs: ago(120),
    useByAtMs: ago(-180),
  };
  await kitchen().send(
    lead,
    { type: "put-recipe", recipe: { id: "base", name: "Base", ingredients: [SUGAR], method: "Whip" } },
    { type: "record-batch", batch: { ...bowl, massG: 400 } },
    { type: "flooded", trayId: "t1", atMs: ago(10) },
    { type: "flooded", trayId: "t2", atMs: ago(90) },
    { type: "touch-test", trayId: "t2", finding: "still wet", atMs: ago(60) },
    { type: "start-flooding", trayId: "t6" },
    { type: "flooded", trayId: "t3", atMs: ago(30) },
    { type: "start-heat-set", trayId: "t3", toolId: "hot-1", atMs: ago(5) },
    { type: "enter-reading", reading: { placeId: "rack-a", tempC: 22.4, rhPct: 58, source: "typed" } },
    { type: "flooded", trayId: "t7", atMs: ago(700) },
    { type: "pack", trayId: "t7", acceptRisk: true },
  );
  phone = await kitchen().phone("Wren");
  await kitchen().send(lead, { type: "set-role", personId: phone.joined.personId, role: "lead" });
  await phone.page.getByText("live", { exact: true }).waitFor();
  wall = await kitchen().wall();
  await wall.page.locator(".pill, .tile").first().waitFor();
});

const wearTheme = (page: Page, theme: Theme): Promise<void> =>
  page.evaluate((theme) => void (document.documentElement.dataset["theme"] = theme), theme);

async function openScreen(page: Page, name: string): Promise<void> {
  const path = PHONE_PATHS.get(name)!
    .replace(":number", "1")
    .replace(":id", IDS[name] ?? "1");
  await goTo(page, path);
  await page.locator("main, .beside").first().waitFor();
  // Drawn, with what a screen loads by itself.
  await page.evaluate(() => new Promise((drawn) => requestAnimationFrame(() => setTimeout(drawn, 30))));
}

/** Every screen at one size, in one language and theme. */
async function onEach(
  as: { size: { width: number; height: number }; language: Language; theme: Theme },
  look: (page: Page, name: string) => Promise<readonly Finding[]>,
): Promise<Finding[]> {
  const { page } = phone;
  await page.setViewportSize(as.size);
  await chooseLanguage(page, as.language);
  await wearTheme(page, as.theme);
  const found: Finding[] = [];
  for (const name of PHONE_PATHS.keys()) {
    await openScreen(page, name);
    found.push(
      ...(await look(page, name)).map((finding) => `${name}, ${as.language}, ${as.theme}: ${finding}`),
    );
  }
  return found;
}

it("axe-core is at work in these pages: what is put there wrong, it finds", async () => {
  const { page } = wall;
  await page.evaluate(() => {
    const wrong = document.createElement("button");
    wrong.id = "wrong";
    document.querySelector("main")!.append(wrong);
  });
  expect((await axeFindings(page)).join()).toContain("critical button-name: #wrong");
  await page.evaluate(() => document.querySelector("#wrong")!.remove());
});

describe("C49 axe-core finds nothing", () => {
  it.each([
    ["a phone", "en", "day", PHONE],
    ["a phone", "es", "night", PHONE],
    ["a desk", "en", "night", DESK],
    ["a desk", "es", "day", DESK],
  ] as const)(
    "C49 on any screen of %s, %s, %s",
    async (_, language, theme, size) => {
      expect(await onEach({ size, language, theme }, axeFindings)).toEqual([]);
    },
    120_000,
  );

  it.each([
    ["en", "day"],
    ["en", "night"],
    ["es", "day"],
    ["es", "night"],
  ] as const)("C49 on the wall and the start page, %s, %s", async (language, theme) => {
    await wall.page.setViewportSize(WALL);
    await chooseLanguage(wall.page, language);
    await wearTheme(wall.page, theme);
    expect(await axeFindings(wall.page)).toEqual([]);

    const context = await kitchen().browser.newContext({
      viewport: PHONE,
      locale: language === "es" ? "es-ES" : "en-GB",
      colorScheme: theme === "night" ? "dark" : "light",
    });
    const page = await context.newPage();
    await page.goto(`http://127.0.0.1:${kitchen().server().port}/`);
    await page.locator(`html[lang="${language}"]`).waitFor();
    expect(await axeFindings(page)).toEqual([]);
    await context.close();
  });
});

it("C50 with text at 200 % nothing scrolls sideways and nothing is cut at 390 px", async () => {
  const { page } = phone;
  const wearText = (pct: number): Promise<void> =>
    page.evaluate((pct) => void (document.documentElement.style.fontSize = `${pct}%`), pct);
  await wearText(200);
  const found = await onEach({ size: PHONE, language: "es", theme: "day" }, async (page) => [
    ...(await sideways(page)),
    ...(await clipped(page)),
  ]);
  await wearText(100);
  expect(found).toEqual([]);
}, 120_000);

it("C50 on the desk the Tab key reaches every control, or a list that arrow keys go along", async () => {
  const found = await onEach({ size: DESK, language: "en", theme: "day" }, (page) => notReached(page));
  expect(found).toEqual([]);
}, 120_000);

/** Presses Tab until the page has been gone round, and tells which controls in sight never had the focus. */
async function notReached(page: Page): Promise<Finding[]> {
  const count = await page.evaluate(() => {
    (document.activeElement as HTMLElement | null)?.blur();
    const reached = new WeakSet<Element>();
    Object.assign(window, { reached });
    addEventListener("focusin", ({ target }) => reached.add(target as Element), true);
    const controls = document.querySelectorAll("button, a[href], input, select, textarea, summary").length;
    // A field of day and time has several stops of its own.
    return controls + 8 * document.querySelectorAll("input[type^=date]").length;
  });
  for (let k = 0; k < count + 3; k += 1) await page.keyboard.press("Tab");
  return page.evaluate(() => {
    const { reached } = window as unknown as { reached: WeakSet<Element> };
    const isReached = (one: Element): boolean => {
      // Of radio buttons one has the focus, and arrow keys choose; so do they in a list with one entry in the tab order.
      const group =
        one instanceof HTMLInputElement && one.type === "radio"
          ? document.querySelectorAll(`input[name="${CSS.escape(one.name)}"]`)
          : one.closest("[data-arrows], [role=list], ul, ol")?.querySelectorAll("[tabindex='0']");
      return reached.has(one) || (isInRow(one) && [...(group ?? [])].some((other) => reached.has(other)));
    };
    const isInRow = (one: Element): boolean =>
      (one instanceof HTMLInputElement && one.type === "radio") || one.getAttribute("tabindex") === "-1";
    return [...document.querySelectorAll<HTMLElement>("button, a[href], input, select, textarea, summary")]
      .filter((one) => one.checkVisibility({ visibilityProperty: true }) && !one.matches(":disabled"))
      .filter((one) => !isReached(one))
      .map(
        (one) => `${one.tagName} .${one.className} "${one.textContent.trim().slice(0, 40)}" is not reached`,
      );
  });
}
