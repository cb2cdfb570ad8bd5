import type { Page } from "playwright";
import { beforeAll, expect, it } from "vitest";
import { DESK, goTo } from "../support/browser.ts";
import { chooseLanguage, clipped, nameless, sideways } from "../support/browser-audit.ts";
import { type LiveKitchen, useKitchen } from "../support/browser-kitchen.ts";
import { JOIN_CODE } from "../support/server-app.ts";

const kitchen = useKitchen("file");

const TRAYS = 300;
const SIZES = [{ width: 1000, height: 760 }, DESK, { width: 1920, height: 1080 }];
const PATHS = [
  "",
  "t/1",
  "t/2",
  "plan",
  "orders",
  "orders/party",
  "designs",
  "designs/moon",
  "icing",
  "icings/butter",
];
const ROOM = ["heat", "room", "kitchen/settings", "kitchen/places", "kitchen/day"];

let page: Page;
beforeAll(async () => {
  const lead = await kitchen().setUp(TRAYS);
  const ago = (minutes: number): number => Date.now() - minutes * 60_000;
  await kitchen().send(
    lead,
    { type: "flooded", trayId: "t1", atMs: ago(10) },
    { type: "flooded", trayId: "t2", atMs: ago(90) },
    { type: "enter-reading", reading: { placeId: "rack-a", tempC: 22.4, rhPct: 58, source: "typed" } },
  );
  page = await openDesk(kitchen(), lead);
});

/** A second lead at a desk of a kitchen. */
async function openDesk({ open, send }: LiveKitchen, lead: string): Promise<Page> {
  const { page } = await open(`/phone/#join=${JOIN_CODE}`, { isPhone: false, size: SIZES[1]! });
  const answer = page.waitForResponse("**/api/join");
  await page.getByLabel("Your name").fill("Wren");
  await page.getByRole("button", { name: "Join" }).click();
  const { personId } = (await (await answer).json()) as { personId: string };
  await send(lead, { type: "set-role", personId, role: "lead" });
  await page.locator(".side").waitFor();
  return page;
}

const openPart = async (path: string): Promise<void> => {
  await goTo(page, path);
  await page.locator(".page:not([hidden]) > main, .list-pane[data-alone=true] .beside").first().waitFor();
  if (path === "plan") await page.locator(".block").first().waitFor();
};

/** Words of the timeline that are cut, and its blocks that overlap one another. */
const muddled = (): Promise<string[]> =>
  page.evaluate(() => {
    const cut = [...document.querySelectorAll<HTMLElement>(".block a, .block strong, .row-name strong")]
      .filter((one) => one.checkVisibility() && one.scrollWidth > one.clientWidth + 1)
      .map((one) => `cut: ${one.textContent}`);
    const rows = [...document.querySelectorAll(".timeline-row")];
    const overlaps = rows.flatMap((row) => {
      const boxes = [...row.querySelectorAll(".block")].map((one) => one.getBoundingClientRect());
      return boxes.flatMap((a, k) =>
        boxes
          .slice(k + 1)
          .filter(
            (b) =>
              a.left < b.right - 1 && b.left < a.right - 1 && a.top < b.bottom - 1 && b.top < a.bottom - 1,
          )
          .map((b) => `overlap at ${a.left}, ${b.left}`),
      );
    });
    return [...cut, ...overlaps];
  });

it.each(["en", "es"])(
  "C24 C25 nothing is cut or sideways on any of the desk's screens with 300 trays (%s)",
  async (language) => {
    await page.setViewportSize(SIZES[1]!);
    await openPart("room");
    await chooseLanguage(page, language as "en" | "es");
    const found: unknown[] = [];
    for (const size of SIZES) {
      await page.setViewportSize(size);
      for (const path of [...PATHS, ...ROOM]) {
        await openPart(path);
        const findings = [
          ...(await sideways(page)),
          ...(await clipped(page)),
          ...(await nameless(page)),
          ...(await muddled()),
        ];
        if (findings.length > 0) found.push([size.width, path, findings]);
      }
    }
    expect(found).toEqual([]);
    await openPart("room");
    await chooseLanguage(page, "en");
  },
);

it("C24 C26 the desk works by keyboard: find and open a tray, go along the list, open the next one", async () => {
  await page.setViewportSize(SIZES[1]!);
  await openPart("");
  await page.getByRole("searchbox").focus();
  await page.keyboard.type("117");
  await page.keyboard.press("Enter");
  await page.getByRole("heading", { name: "Tray 117" }).waitFor();
  await openPart("designs");
  const first = page.locator(".beside .cards a").first();
  await first.focus();
  await page.keyboard.press("ArrowDown");
  await page.keyboard.press("Enter");
  await page.getByRole("main").getByRole("heading", { name: "Moon" }).waitFor();
  expect(await page.evaluate(() => document.activeElement?.getAttribute("href"))).toBe("#/designs/moon");
  const outline = await page.evaluate(() => getComputedStyle(document.activeElement!).outlineStyle);
  expect(outline).toBe("solid");
  await openPart("t/1");
  await page.getByRole("button", { name: "Problem" }).click();
  await page.locator("dialog[open]").waitFor();
  await page.keyboard.press("Escape");
  await page.locator("dialog[open]").waitFor({ state: "detached" });
});

it("C25 with 300 trays the plan draws no more blocks than are in sight, and a second's tick changes none of them", async () => {
  await page.setViewportSize(SIZES[2]!);
  await openPart("plan");
  expect(await page.locator(".block").count()).toBeLessThan(150);
  const changed = await page.evaluate(
    () =>
      new Promise<number>((resolve) => {
        let count = 0;
        const observer = new MutationObserver((records) => {
          count += records.filter(({ type }) => type === "childList").length;
        });
        observer.observe(document.querySelector(".timeline-board")!, { childList: true, subtree: true });
        setTimeout(() => resolve(count), 1300);
      }),
  );
  expect(changed).toBeLessThan(40);
});
