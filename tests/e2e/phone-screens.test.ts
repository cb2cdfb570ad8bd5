import type { Page } from "playwright";
import { beforeAll, expect, it } from "vitest";
import { goTo, type Size, PHONE, SMALL_PHONE } from "../support/browser.ts";
import {
  chooseLanguage,
  clipped,
  lowTargets,
  nameless,
  sideways,
  textsOn,
} from "../support/browser-audit.ts";
import { type JoinedScreen, useKitchen } from "../support/browser-kitchen.ts";

const kitchen = useKitchen("file");

const MIN_MS = 60_000;
/** SPEC of the phone: floury, gloved, in a hurry. 76 px are 20 mm at 96 px an inch (MIL-STD-1472E has 19 mm). */
const TARGET_PX = 64;
const MAIN_ACT_PX = 76;

const RECIPE = {
  id: "house",
  name: "House royal icing",
  ingredients: [{ name: "Icing sugar", amount: 1000, unit: "g" }],
  allergens: "egg",
};
const BATCH = (mixedAtMs: number) => ({
  id: "b1",
  icingId: "butter",
  consistency: "flood",
  mixedAtMs,
  useByAtMs: mixedAtMs + 600 * MIN_MS,
});

let phone: JoinedScreen;
beforeAll(async () => {
  const lead = await kitchen().setUp(8);
  const ago = (minutes: number): number => Date.now() - minutes * MIN_MS;
  await kitchen().send(
    lead,
    { type: "set-kitchen", settings: { boxOf: 4, bestBeforeDays: 14 } },
    // A kitchen at work: every stage, every kind of card, an alert, an order that is short.
    { type: "put-recipe", recipe: RECIPE },
    { type: "record-batch", batch: BATCH(ago(20)) },
    { type: "flooded", trayId: "t1", atMs: ago(10) },
    { type: "judge-batch", batchId: "b1", wrong: "Sugar was not sieved" },
    { type: "leave-note", text: "Rack B is for tomorrow" },
    { type: "flooded", trayId: "t2", atMs: ago(90) },
    { type: "touch-test", trayId: "t2", finding: "still wet", atMs: ago(60) },
    { type: "flooded", trayId: "t4", atMs: ago(600) },
    { type: "touch-test", trayId: "t4", finding: "skinned", atMs: ago(500) },
    { type: "start-flooding", trayId: "t6" },
    { type: "flooded", trayId: "t3", atMs: ago(30) },
    { type: "start-heat-set", trayId: "t3", toolId: "hot-1", atMs: ago(5) },
    { type: "enter-reading", reading: { placeId: "rack-a", tempC: 22.4, rhPct: 58, source: "typed" } },
    { type: "flooded", trayId: "t7", atMs: ago(700) },
    { type: "report-problem", trayId: "t2", problem: "bled", count: 1 },
    { type: "pack", trayId: "t7", acceptRisk: true },
  );
  phone = await kitchen().phone("Wren");
  await kitchen().send(lead, { type: "set-role", personId: phone.joined.personId, role: "lead" });
  await phone.page.getByText("live", { exact: true }).waitFor();
});

/** Every screen of the phone, by its path and what is on it once it is there; and what opens a sheet over it. */
const SCREENS: readonly { path: string; shows: string | RegExp; opens?: string | RegExp }[] = [
  { path: "", shows: "Yours next" },
  { path: "", shows: /^(Pipe|Flood|Top-coat) layer/, opens: "Everyone's" },
  { path: "t/1", shows: "Problem" },
  { path: "t/2", shows: /Touched? |touch test/ },
  { path: "t/4", shows: "start the drying clock" },
  { path: "t/5", shows: "start the drying clock" },
  { path: "t/6", shows: "start the drying clock" },
  { path: "t/7", shows: /Packed/ },
  { path: "t/99", shows: "No tray 99" },
  { path: "t/1", shows: "What went wrong on tray 1?", opens: "Problem" },
  { path: "t/1", shows: "Move tray 1", opens: "Move" },
  { path: "t/1", shows: "Do it anyway", opens: /^Pack 3/ },
  { path: "t/1", shows: "3 of 3 good", opens: "Some are not good" },
  { path: "t/1/label", shows: "The codes open" },
  { path: "t/1/heat", shows: "Heat-set tray 1" },
  { path: "t/1/heat", shows: /Read: start the heat/, opens: /^Low oven/ },
  { path: "t/3/heat", shows: "Stop now: the whole room is alerted" },
  { path: "t/3/heat", shows: "Stop and record 1", opens: "Cracked or swollen? Stop and record it" },
  { path: "heat", shows: "End-of-shift check" },
  { path: "heat", shows: "Before you go", opens: "End-of-shift check" },
  { path: "heat", shows: "First aid and cautions", opens: "A burn? First aid" },
  { path: "heat", shows: "Enter its temperature", opens: /^Low oven/ },
  { path: "orders", shows: "Add an order" },
  { path: "orders/new", shows: "A new order" },
  { path: "orders/party", shows: "Add trays" },
  { path: "orders/party", shows: "On each tray", opens: "Add trays" },
  { path: "orders/party", shows: "Change the order", opens: "Change the order" },
  { path: "orders/party/labels", shows: "The codes open" },
  { path: "orders/party/labels", shows: "box 1 of 6", opens: "Boxes" },
  { path: "print", shows: "From tray" },
  { path: "icing", shows: "Base icing in all" },
  { path: "icing", shows: "From memory", opens: "What that takes" },
  { path: "icing/party", shows: "Base icing in all" },
  { path: "batch/b1", shows: "Sugar was not sieved" },
  { path: "batch/b1", shows: "What was wrong with", opens: "Change what was wrong" },
  { path: "recipes", shows: "House royal icing" },
  { path: "recipes", shows: "Recipe's name", opens: "Add a recipe" },
  { path: "recipes/house", shows: "How much to make" },
  { path: "designs", shows: "Add a design" },
  { path: "designs/lantern", shows: "Layers, in order" },
  { path: "designs/lantern", shows: "Remove layer 2", opens: /^Border/ },
  { path: "designs/new", shows: "Snowman" },
  { path: "designs/new", shows: "Margin kept free at the edge", opens: "A simple shape" },
  { path: "designs/new", shows: "Choose an SVG file", opens: "From an SVG file" },
  { path: "designs/new", shows: "Choose a photo", opens: "Trace a photo" },
  { path: "icings", shows: "Add an icing" },
  { path: "icings", shows: "Icing's name", opens: /^storm/ },
  { path: "room", shows: "Alerts on this phone" },
  { path: "kitchen/settings", shows: "The kitchen's name" },
  { path: "kitchen/places", shows: "Add a place" },
  { path: "kitchen/places", shows: "Trays it holds", opens: /^Rack A/ },
  { path: "kitchen/tools", shows: "Add a heat tool" },
  { path: "kitchen/tools", shows: "Longest on one cookie", opens: /^Hot air 1/ },
  { path: "kitchen/trust", shows: "How this kitchen dries" },
  { path: "kitchen/trust", shows: "The last surprises", opens: "Dry through" },
  { path: "kitchen/day", shows: "Day sheet" },
  { path: "kitchen/hand-over", shows: "What is wet, and where" },
  { path: "kitchen/hand-over", shows: "Everyone sees it", opens: "Change the note" },
  { path: "kitchen/hygrometers", shows: "Over HTTP" },
  { path: "kitchen/hygrometers", shows: "Save and listen", opens: "Listen to a broker" },
  { path: "set-up/1", shows: "Save" },
  { path: "set-up/5", shows: "Done: add the first order" },
];

async function open(page: Page, { path, shows, opens }: (typeof SCREENS)[number]): Promise<void> {
  // By way of another screen, so that no sheet is left open over it.
  while ((await page.locator("dialog[open]").count()) > 0) await page.keyboard.press("Escape");
  await goTo(page, "t/98");
  await page.getByText("No tray 98").waitFor();
  await goTo(page, path);
  await page.getByText("No tray 98").waitFor({ state: "detached" });
  if (opens !== undefined) {
    // What the server works out pushes down what stands below it.
    const working = page.getByText("Working it out…");
    while ((await working.count()) > 0) await working.first().waitFor({ state: "detached" });
    const opener = page.locator("button, summary, .choice label").filter({ hasText: opens }).first();
    await opener.tap();
  }
  await page.locator("#phone").getByText(shows).first().waitFor();
}

const SIZES: readonly { name: string; size: Size; textPct: number }[] = [
  { name: "390 px", size: PHONE, textPct: 100 },
  { name: "320 px", size: SMALL_PHONE, textPct: 100 },
  { name: "320 px and 200 % text", size: SMALL_PHONE, textPct: 200 },
];

async function become(page: Page, { size, textPct }: (typeof SIZES)[number]): Promise<void> {
  await page.setViewportSize(size);
  await page.evaluate((pct) => {
    document.documentElement.style.fontSize = `${pct}%`;
  }, textPct);
}

const found = {
  sideways: new Array<string>(),
  clipped: new Array<string>(),
  low: new Array<string>(),
  nameless: new Array<string>(),
  inEnglish: new Array<string>(),
};
/** The same in both languages: what people typed, names, units and figures. */
const SHARED =
  /^(Wren|Ida|Tidepool|\d+ × (Moon|Lantern)$|Moon|Lantern|Traytide|Rack A|Low oven|Hot air 1|[Bb]utter|[Ss]torm|party|House|Icing sugar|Rack B is|top|Flood|Border|English|Español|Europe\/|curl |mqtt|FDA Food Code|Prudent Practices|29 CFR|mm, g)|^[^\p{L}]*(min|h|mm|cm|kg|mL|°C|°F|% RH)?[^\p{L}]*$/u;

beforeAll(async () => {
  const { page } = phone;
  for (const screen of SCREENS) {
    await become(page, SIZES[0]!);
    await open(page, screen);
    const at = `${screen.path} ${screen.opens ?? ""}:`;
    found.nameless.push(...(await nameless(page)).map((finding) => `${at} ${finding}`));
    const english = new Set(await textsOn(page));
    for (const language of ["en", "es"] as const) {
      await chooseLanguage(page, language);
      if (language === "es")
        for (const text of await textsOn(page))
          if (english.has(text) && !SHARED.test(text)) found.inEnglish.push(`${at} ${text}`);
      for (const size of SIZES) {
        await become(page, size);
        const here = (finding: string): string => `${at} ${language}, ${size.name}: ${finding}`;
        found.sideways.push(...(await sideways(page)).map(here));
        if (size.textPct === 100) found.clipped.push(...(await clipped(page)).map(here));
        found.low.push(...(await lowTargets(page, TARGET_PX, MAIN_ACT_PX)).map(here));
      }
    }
    await chooseLanguage(page, "en");
  }
});

it("no screen is left in English once Spanish is chosen", () => {
  expect(found.inEnglish).toEqual([]);
});

it("no label is cut off by its place at 390 and 320 px, in either language", () => {
  expect(found.clipped).toEqual([]);
});

it("no screen scrolls sideways, at 390 and 320 px and with text at 200 %", () => {
  expect(found.sideways).toEqual([]);
});

it("every target is 64 px high, and a main act 20 mm", () => {
  expect(found.low).toEqual([]);
});

it("every control, dialog and picture has a name", () => {
  expect(found.nameless).toEqual([]);
});

it("no screen breaks the content rules or throws", () => {
  expect(phone.complaints).toEqual([]);
});
