import type { Page } from "playwright";
import { expect, it } from "vitest";
import { goTo, PHONE, SMALL_PHONE, type Size } from "../support/browser.ts";
import { sideways } from "../support/browser-audit.ts";
import { useKitchen } from "../support/browser-kitchen.ts";

const kitchen = useKitchen("test");

const MIN_MS = 60_000;
const ago = (minutes: number): number => Date.now() - minutes * MIN_MS;
const LOW_PHONE: Size = { width: 320, height: 568 };
const HOT_AIR = {
  kind: "hot-air",
  airC: 270,
  maxAirC: 350,
  distanceCm: 14,
  nozzleMm: 25,
  coolDownMin: 10,
  capS: 60,
};

/** Puts trays under heat that passed its stop-by minutes ago, each under a tool with a long name. */
async function overheat(lead: string, numbers: readonly number[]): Promise<void> {
  for (const number of numbers)
    await kitchen().send(
      lead,
      {
        type: "put-tool",
        tool: { id: `hot-${number}`, name: `Hot air of the far window bench ${number}`, ...HOT_AIR },
      },
      { type: "flooded", trayId: `t${number}`, atMs: ago(10) },
      { type: "start-heat-set", trayId: `t${number}`, toolId: `hot-${number}`, atMs: ago(5) },
    );
}

interface Seen {
  at: number;
  /** What of the page's own lies under a bar, of what a thumb may want now. */
  covered: string[];
  /** Alerts that are not wholly in the window, or under something. */
  hidden: string[];
  overlaps: string[];
}

/** Scrolls the page through in steps, and at each looks at rectangles, and at what really lies on top. */
const look = (page: Page): Promise<Seen[]> =>
  page.evaluate(async () => {
    const scroller = document.querySelector<HTMLElement>(".page")!;
    const bars = [...document.querySelectorAll<HTMLElement>(".alerts.pinned, .toast, .tabs")].filter(
      (bar) => !scroller.contains(bar),
    );
    const isOnTop = (one: Element, x: number, y: number): boolean => {
      const top = document.elementFromPoint(x, y);
      return top !== null && (one.contains(top) || top.contains(one));
    };
    const seen: Seen[] = [];
    const most = scroller.scrollHeight - scroller.clientHeight;
    for (const share of [0, 0.25, 0.5, 0.75, 1]) {
      scroller.scrollTop = share * most;
      await new Promise((done) => requestAnimationFrame(done));
      const frame = scroller.getBoundingClientRect();
      const acts = [
        ...scroller.querySelectorAll<HTMLElement>(".act, .heat-acts button, .form .choices button"),
      ];
      const covered = acts.flatMap((act) => {
        const box = act.getBoundingClientRect();
        const [top, bottom] = [Math.max(box.top, frame.top), Math.min(box.bottom, frame.bottom)];
        if (bottom - top < 4 || act.closest(".heat-acts")) return [];
        const marks = [top + 2, (top + bottom) / 2, bottom - 2];
        return marks.every((y) => isOnTop(act, (box.left + box.right) / 2, y)) ? [] : [act.textContent ?? ""];
      });
      const hidden = [...document.querySelectorAll<HTMLElement>(".alerts.pinned > .alert")].flatMap(
        (alert) => {
          const box = alert.getBoundingClientRect();
          const isInside =
            box.top >= 0 && box.left >= 0 && box.right <= innerWidth && box.bottom <= innerHeight;
          const words = alert.querySelector("strong")!.getBoundingClientRect();
          return isInside && isOnTop(alert, words.left + 2, words.top + 2) ? [] : [alert.textContent ?? ""];
        },
      );
      const overlaps = bars.flatMap((bar) => {
        const box = bar.getBoundingClientRect();
        const isApart = box.bottom <= frame.top + 0.5 || box.top >= frame.bottom - 0.5;
        return isApart ? [] : [`${bar.className} ${box.top}–${box.bottom} over ${frame.top}–${frame.bottom}`];
      });
      seen.push({ at: share, covered, hidden, overlaps });
    }
    return seen;
  });

const asItShould = [0, 0.25, 0.5, 0.75, 1].map((at) => ({ at, covered: [], hidden: [], overlaps: [] }));
const heightOf = (page: Page, selector: string): Promise<number> =>
  page.locator(selector).evaluate((one) => one.getBoundingClientRect().height);

it.each([LOW_PHONE, SMALL_PHONE, PHONE])(
  "C19 at $width × $height urgent alerts stay in sight however far a page is scrolled, and cover nothing",
  async (size) => {
    const lead = await kitchen().setUp(8);
    const { page, joined } = await kitchen().phone("Wren", { size });
    await kitchen().send(lead, { type: "set-role", personId: joined.personId, role: "lead" });
    await overheat(lead, [2, 3]);
    const pinned = page.locator(".alerts.pinned .alert");
    await expect.poll(() => pinned.count()).toBe(2);
    for (const path of ["", "t/1", "orders/new", "kitchen/settings", "room"]) {
      await goTo(page, path);
      expect([path, await look(page)]).toEqual([path, asItShould]);
      expect([path, await sideways(page)]).toEqual([path, []]);
    }
    expect(await heightOf(page, ".alerts.pinned")).toBeLessThan(0.3 * size.height + 20);
  },
  60_000,
);

it("C19 with text at 200 % the first urgent alert is in sight, and half of a small phone is left to work on", async () => {
  const lead = await kitchen().setUp(6);
  const { page } = await kitchen().phone("Wren", { size: LOW_PHONE });
  await overheat(lead, [2, 3, 4]);
  await page.locator(".alerts.pinned .more").waitFor();
  await page.evaluate(() => void (document.documentElement.style.fontSize = "200%"));
  await goTo(page, "t/1");
  await page.locator(".act").first().waitFor();
  for (const seen of await look(page)) {
    expect({ ...seen, hidden: seen.hidden.slice(1) }).toMatchObject({ covered: [], overlaps: [] });
    const [first] = await page.locator(".alerts.pinned .alert").all();
    const box = (await first!.boundingBox())!;
    expect(box.y).toBeGreaterThanOrEqual(0);
    expect(box.y + box.height).toBeLessThanOrEqual(await heightOf(page, ".alerts.pinned"));
  }
  expect(await heightOf(page, ".page")).toBeGreaterThan(LOW_PHONE.height / 2);
  expect(await sideways(page)).toEqual([]);
}, 60_000);

it("C19 of many urgent alerts two are lines, a count opens the others, and what is seen folds into one line", async () => {
  const lead = await kitchen().setUp(6);
  const { page } = await kitchen().phone("Wren", { size: LOW_PHONE });
  await overheat(lead, [2, 3, 4, 5]);
  const pinned = page.locator(".alerts.pinned > .alert");
  const more = page.locator(".alerts.pinned button.more");
  await expect.poll(() => more.textContent()).toMatch(/^and 2 more urgent: \d[–,] ?\d$/);
  expect(await pinned.count()).toBe(2);
  expect(await heightOf(page, ".page")).toBeGreaterThan(LOW_PHONE.height / 2 - 65);
  await more.tap();
  expect(await pinned.count()).toBe(4);
  expect(await heightOf(page, ".alerts.pinned")).toBeLessThan(LOW_PHONE.height * 0.46);
  await more.tap();
  // The words of a line open what to do.
  expect(await pinned.first().textContent()).not.toContain("go and end it");
  await pinned.first().locator("button.alert-words").tap();
  expect(await pinned.first().textContent()).toContain("go and end it");
  await pinned.first().locator("button.alert-words").tap();
  for (const left of [3, 2]) {
    await page.locator(".alerts.pinned").getByRole("button", { name: "Seen" }).first().tap();
    await expect
      .poll(() => page.locator(".pinned button", { hasText: "more urgent" }).count())
      .toBe(left - 2);
  }
  const fold = page.locator(".alerts.pinned .seen-alerts");
  expect(await fold.locator("summary").textContent()).toMatch(
    /^2 alerts seen: Tray \d: Stop the heat; Tray \d: Stop the heat$/,
  );
  expect(await fold.locator(".alert").first().isVisible()).toBe(false);
  expect(await heightOf(page, ".seen-alerts")).toBeLessThan(72);
  await fold.locator("summary").tap();
  expect(await fold.locator(".alert").first().isVisible()).toBe(true);
}, 60_000);

it.each([LOW_PHONE, PHONE])(
  "C19 at $width × $height a toast takes room of its own: the next act, wholly in sight before, stays so",
  async (size) => {
    await kitchen().setUp(2);
    const { page } = await kitchen().phone("Wren", { size });
    // Two layers: another act comes where the first one was.
    await goTo(page, "t/2");
    const act = page.locator(".page .act").first();
    await act.waitFor();
    // The act at the very edge, where a bar would lie over it.
    await act.evaluate((one) => {
      const scroller = one.closest(".page")!;
      scroller.scrollTop += one.getBoundingClientRect().bottom - scroller.getBoundingClientRect().bottom;
    });
    await act.tap();
    await page.locator(".toast").waitFor();
    await page.waitForTimeout(300);
    // Found and measured in one step: another act takes the first one's place.
    const isWhole = (): Promise<boolean> =>
      page.evaluate(() => {
        const [act, frame] = [".page .act", ".page"].map((one) =>
          document.querySelector(one)!.getBoundingClientRect(),
        );
        return act!.top >= frame!.top && act!.bottom <= frame!.bottom;
      });
    expect(await isWhole()).toBe(true);
    expect(await look(page)).toEqual(asItShould);
  },
  60_000,
);

it("a form that cannot be saved brings its wrong field into sight, between the bars", async () => {
  const lead = await kitchen().setUp(4);
  const { page, joined } = await kitchen().phone("Wren", { size: LOW_PHONE });
  await kitchen().send(lead, { type: "set-role", personId: joined.personId, role: "lead" });
  await overheat(lead, [2]);
  await page.locator(".alerts.pinned .alert").waitFor();
  await goTo(page, "kitchen/settings");
  // Hours that differ have a row a day.
  await page.getByLabel("The same hours every day").tap();
  const field = page.getByLabel("Sunday, closes");
  await field.fill("");
  await page.getByRole("button", { name: "Save", exact: true }).tap();
  await page
    .getByRole("alert")
    .filter({ hasText: "Sunday, closes is missing" })
    .waitFor({ state: "attached" });
  expect(await field.evaluate((one) => one === document.activeElement)).toBe(true);
  const [box, frame] = await Promise.all([field.boundingBox(), page.locator(".page").boundingBox()]);
  expect(box!.y).toBeGreaterThanOrEqual(frame!.y);
  expect(box!.y + box!.height).toBeLessThanOrEqual(frame!.y + frame!.height);
}, 60_000);
