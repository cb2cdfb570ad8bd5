import { readdirSync, readFileSync } from "node:fs";
import { fileURLToPath } from "node:url";
import type { Page } from "playwright";
import { describe, expect, it } from "vitest";
import { goTo } from "../support/browser.ts";
import { useKitchen } from "../support/browser-kitchen.ts";
import { roomCommands } from "../support/browser-room.ts";
import { firstScripts, gzippedBytes, typefaces } from "../support/first-screen.ts";
import { PHONE_PATHS } from "../support/phone-paths.ts";

/** What is asked for, bytes: scripts gzipped, and type. */
const MOST = { scripts: 80_000, type: 40_000 };

describe("C52 what a first screen weighs", () => {
  it.each(["en", "es"] as const)("a phone's scripts, with its words in %s", (language) => {
    expect(gzippedBytes(firstScripts("phone", language))).toBeLessThan(MOST.scripts);
  });

  it("each of a phone's scripts is named once in its page, but for the words, which follow the language", () => {
    const page = readFileSync(new URL("../../dist/client/phone/index.html", import.meta.url), "utf8");
    const named = [...page.matchAll(/(?:href|src)="\/(assets\/[^"]+\.js)"/g)].map(([, file]) => file!);
    expect(named.toSorted()).toEqual(
      firstScripts("phone", "en")
        .filter((file) => !file.startsWith("assets/first-"))
        .toSorted(),
    );
  });

  it("a wall has none of the phone's own code", () => {
    const [phone, wall] = [firstScripts("phone", "en"), firstScripts("wall", "en")];
    const shared = phone
      .filter((file) => wall.includes(file))
      .map((file) => file.replace(/-[\w-]{8}\.js$/, ""));
    expect(shared.toSorted()).toEqual([
      "assets/begin",
      "assets/both-first",
      "assets/first",
      "assets/rolldown-runtime",
    ]);
  });

  /** Of what is written on the screens; they are shown in the browser's own type, as are names in other alphabets. */
  const IN_OTHER_TYPE = new Set("→⅛⅜⅝⅞");
  it.each(["phone", "wall"] as const)("one typeface has every character of a %s's words", (screen) => {
    const folder = fileURLToPath(new URL("../../shared/words", import.meta.url));
    const words = readdirSync(folder, { recursive: true, encoding: "utf8" })
      .filter((path) => path.endsWith(".ts"))
      .map((path) => readFileSync(`${folder}/${path}`, "utf8"))
      .join("");
    const loaded = typefaces(screen).filter(({ has }) => has("a"));
    expect(loaded.map(({ bytes }) => bytes < MOST.type)).toEqual([true]);
    const missing = [...new Set(words)].filter((character) => !loaded[0]!.has(character));
    expect(new Set(missing)).toEqual(IN_OTHER_TYPE);
  });
});

const kitchen = useKitchen("test");

/** Scripts that are let through; of all others the network knows nothing. */
async function only(page: Page, isLet: (path: string) => boolean): Promise<void> {
  await page.route("**/assets/*.js", (route) => {
    const { pathname } = new URL(route.request().url());
    return isLet(pathname.slice(1)) ? route.continue() : route.abort();
  });
}

it("C52 with nothing but that a phone joins, is live, and a tap starts a drying clock", async () => {
  const lead = await kitchen().setUp(4);
  const phone = await kitchen().phone("Wren");
  const { page } = phone;
  const first = firstScripts("phone", "en");
  await only(page, (path) => first.includes(path));
  await page.goto("about:blank");
  await page.goto(`${phone.origin}/phone/`);
  await page.getByRole("status").getByText("live", { exact: true }).waitFor();
  await page.locator('.tray-card[href="#/t/1"]').tap();
  await page.getByRole("button", { name: /start the drying clock/ }).tap();
  await page
    .getByText(/Crusting|drying|Dry/i)
    .first()
    .waitFor();
  await expect
    .poll(async () => (await kitchen().log(lead)).filter(({ type }) => type === "flooded").length)
    .toBe(1);
});

it("C53 after a quiet moment a phone without a connection still opens every screen", async () => {
  // Whoever joins first leads, and may see them all.
  const phone = await kitchen().phone("Ida");
  await kitchen().send(phone.joined.token, ...roomCommands(2, Date.now()));
  const { page } = phone;
  expect(await page.evaluate(() => isSecureContext)).toBe(false);
  // A lead's phone that comes before the kitchen is set up begins with that.
  await goTo(page, "");
  await page.locator(".tray-card").first().waitFor();
  // All that is loaded later has come.
  await page.getByRole("searchbox").or(page.getByLabel(/Find/)).first().waitFor();
  await page.waitForLoadState("networkidle");
  phone.air.cut();
  await only(page, () => false);
  for (const path of PHONE_PATHS.values()) {
    await goTo(page, path.replace(/:\w+/, "1"));
    await expect.poll(() => page.locator("main").first().innerText()).toMatch(/\p{L}/u);
    expect([path, await page.getByText("Opening…").count()]).toEqual([path, 0]);
    expect([path, await page.getByText("had not been loaded").count()]).toEqual([path, 0]);
  }
});

describe("C54 code that cannot be had", () => {
  it("of a screen: the page loads itself anew once, then says so in its place, and its tabs still work", async () => {
    await kitchen().setUp(2);
    const { page, origin } = await kitchen().phone("Wren");
    const first = firstScripts("phone", "en");
    await only(page, (path) => first.includes(path));
    let loads = 0;
    page.on("load", () => (loads += 1));
    await page.goto("about:blank");
    await page.goto(`${origin}/phone/#/heat`);
    const said = page.getByText("This page could not be loaded from the server. Reload it.");
    await said.waitFor();
    // The blank page, the phone, and the phone anew.
    expect(loads).toBe(3);
    await page.getByRole("link", { name: "Trays" }).tap();
    await page.locator(".tray-card").first().waitFor();
    // The server has it again.
    await page.unroute("**/assets/*.js");
    await page.reload();
    await page.getByRole("link", { name: "Heat" }).tap();
    await page.getByRole("heading", { name: "Heat", exact: true }).waitFor();
  });

  it("of the phone itself: it loads itself anew once, then says so in its own language", async () => {
    const { page, origin } = await kitchen().open("/phone/", { isPhone: true });
    await page.evaluate(() => localStorage.setItem("traytide.language", "es"));
    await only(page, (path) => /assets\/(phone|begin)-/.test(path));
    let loads = 0;
    page.on("load", () => (loads += 1));
    await page.goto("about:blank");
    await page.goto(`${origin}/phone/`);
    await page.getByText("No se pudo cargar Traytide desde el servidor. Recargue esta página.").waitFor();
    expect(loads).toBe(3);
  });
});
