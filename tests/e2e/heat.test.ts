import type { Page } from "playwright";
import { expect, it } from "vitest";
import { PHONE, SMALL_PHONE } from "../support/browser.ts";
import { HOT_AIR, raised } from "../support/browser-heat.ts";
import { useKitchen } from "../support/browser-kitchen.ts";

const kitchen = useKitchen("test");

const MIN_MS = 60_000;

it("H16 the tool's holder is asked whether it is off, though someone else ended the heat", async () => {
  const lead = await kitchen().setUp(1);
  const { page, origin, joined } = await kitchen().phone("Wren");
  await kitchen().send(
    joined.token,
    { type: "flooded", trayId: "t1" },
    { type: "start-heat-set", trayId: "t1", toolId: "hot-1" },
  );
  await page.goto(`${origin}/phone/#/t/1/heat`);
  await page.getByText("Cookie 1 of 3").waitFor();
  await kitchen().send(lead, { type: "end-heat-set", trayId: "t1", result: "not yet" });
  const question = page.getByRole("dialog", { name: "Hot air 1: off now?" });
  await question.getByRole("button", { name: "Off and on its stand" }).tap();
  await page.getByRole("heading", { name: "Tray 1" }).waitFor();
}, 60_000);

/** Whether what is at an element's middle is the element, or in it or around it: nothing lies over it. */
const isClear = (page: Page, selector: string, isScrolled: boolean): Promise<boolean> =>
  page
    .locator(selector)
    .first()
    .evaluate((element, isScrolled) => {
      if (isScrolled) element.scrollIntoView({ block: "center" });
      const { left, right, top, bottom } = element.getBoundingClientRect();
      const marks = [top + 2, (top + bottom) / 2, bottom - 2].map((y) =>
        document.elementFromPoint((left + right) / 2, y),
      );
      return marks.every((at) => at !== null && (element.contains(at) || at.contains(element)));
    }, isScrolled);

it.each([PHONE, SMALL_PHONE])(
  "C13 at $width × $height nothing lies over a heat's clock, its cautions or its start, with a toast and a hot tray",
  async (size) => {
    const lead = await kitchen().setUp(1);
    const ago = (minutes: number): number => Date.now() - minutes * MIN_MS;
    await kitchen().send(
      lead,
      { type: "flooded", trayId: "t1", atMs: ago(10) },
      { type: "start-heat-set", trayId: "t1", toolId: "oven-1", atMs: ago(4) },
      { type: "end-heat-set", trayId: "t1", result: "not yet", atMs: ago(0.5) },
    );
    // Joined after the heat's end: a phone that sees a heat end leaves the heat's page for the tray's.
    const { page, origin } = await kitchen().phone("Wren", { size });
    await page.goto(`${origin}/phone/#/t/1/heat`);
    await page.getByRole("button", { name: "Hot air 1" }).tap();
    await page.locator(".cautions").waitFor();
    expect(await isClear(page, ".act.ember", true)).toBe(true);
    await page.getByRole("button", { name: "Read: start the heat" }).tap();
    await page.locator(".toast", { hasText: "heat-set started" }).waitFor();
    for (const part of [".ring-time", "span.ring-words", "strong.ring-words"])
      expect([part, await isClear(page, part, false)]).toEqual([part, true]);
    for (const part of [".hot", ".heat-panel strong", ".heat-panel span"])
      expect([part, await isClear(page, part, true)]).toEqual([part, true]);
  },
  60_000,
);

/** Contrast of a text with what lies behind it, by the colours the browser drew. */
const contrastOn = (page: Page, selector: string, ground: string): Promise<number> =>
  page.evaluate(
    ([selector, ground]) => {
      const luminance = (colour: string): number => {
        const [r = 0, g = 0, b = 0] = (colour.match(/\d+(\.\d+)?/g) ?? []).map((part) => {
          const share = Number(part) / 255;
          return share <= 0.04045 ? share / 12.92 : ((share + 0.055) / 1.055) ** 2.4;
        });
        return 0.2126 * r + 0.7152 * g + 0.0722 * b;
      };
      const of = (at: string): CSSStyleDeclaration => getComputedStyle(document.querySelector(at)!);
      const pair = [luminance(of(selector).color), luminance(of(ground).backgroundColor)];
      return (Math.max(...pair) + 0.05) / (Math.min(...pair) + 0.05);
    },
    [selector, ground] as const,
  );

it.each([PHONE, SMALL_PHONE].flatMap((size) => [1, 6].map((others) => ({ ...size, others }))))(
  "C10 C14 at $width × $height one's own clock and stop-by stay in sight with $others other trays past theirs",
  async ({ others, ...size }) => {
    const lead = await kitchen().setUp(others + 1);
    const { page, origin, joined } = await kitchen().phone("Wren", { size });
    const ago = (minutes: number): number => Date.now() - minutes * MIN_MS;
    const numbers = Array.from({ length: others }, (_, k) => k + 2);
    for (const number of numbers)
      await kitchen().send(
        lead,
        { type: "put-tool", tool: { id: `hot-${number}`, ...HOT_AIR, name: `Hot air ${number}`, capS: 180 } },
        { type: "flooded", trayId: `t${number}`, atMs: ago(10) },
        { type: "start-heat-set", trayId: `t${number}`, toolId: `hot-${number}`, atMs: ago(6) },
      );
    await kitchen().send(
      joined.token,
      { type: "flooded", trayId: "t1", atMs: ago(10) },
      { type: "start-heat-set", trayId: "t1", toolId: "hot-1", atMs: ago(0.5) },
    );
    await page.goto(`${origin}/phone/#/t/1/heat`);
    const lines = page.locator(".alert");
    await expect.poll(() => lines.count()).toBe(Math.min(2, others));
    // The others come with the same change, or with a later one.
    const words = (): Promise<string | null> => page.locator(".alerts .more").textContent();
    if (others > 2) await expect.poll(words).toMatch(/^and 4 more: [\d–, +]+, see Room$/);
    const parts = [".ring-time", "span.ring-words", "strong.ring-words", ".alerts .more"];
    const inSight = async (): Promise<unknown> =>
      Promise.all(
        parts.slice(0, others > 2 ? 4 : 3).map(async (part) => [part, await isClear(page, part, false)]),
      );
    const all = parts.slice(0, others > 2 ? 4 : 3).map((part) => [part, true]);
    expect(await inSight()).toEqual(all);
    if (others > 2) expect(await contrastOn(page, ".alerts .more", ".phone")).toBeGreaterThan(7);
    const box = (await lines.first().boundingBox())!;
    expect(box.height).toBeLessThan(80);
    // Seen, it is smaller still, and the next comes before it.
    const seen = page.getByRole("button", { name: "Seen" });
    expect((await seen.first().boundingBox())!.height).toBeGreaterThanOrEqual(64);
    if (others > 1) await seen.first().tap();
    else {
      // By someone whose name is long: the line keeps to the screen.
      const alert = raised(await kitchen().log(lead)).find(({ alert }) => alert.class === "urgent");
      const { token } = await kitchen().join("Wilhelmina Featherstonehaugh");
      await kitchen().send(token, { type: "acknowledge-alert", key: alert!.alert.key });
    }
    if (others === 1) {
      await expect.poll(() => seen.count()).toBe(0);
      const line = (await lines.first().boundingBox())!;
      expect(line.height).toBeLessThan(48);
      expect(line.x + line.width).toBeLessThanOrEqual(size.width);
    } else await expect.poll(() => seen.count()).toBe(2);
    expect(await inSight()).toEqual(all);
  },
  60_000,
);

it("H1 H16 H30 a lap for each cookie, cautions before the first, and one question at the end", async () => {
  const lead = await kitchen().setUp(1);
  const { page, origin } = await kitchen().phone("Wren");
  await page.goto(`${origin}/phone/#/t/1`);
  await page.getByRole("button", { name: "Top-coated: start the drying clock" }).tap();
  await page.getByRole("button", { name: "Heat-set" }).tap();
  await page.getByRole("button", { name: "Hot air 1" }).tap();
  await page.locator(".cautions .deference").waitFor();
  await page.getByRole("button", { name: "Read: start the heat" }).tap();

  const next = page.getByRole("button", { name: "Set: next cookie" });
  for (const cookie of [1, 2]) {
    await page.getByText(`Cookie ${cookie} of 3`).waitFor();
    // No shorter lap is taken: it would be a thumb that tapped twice.
    await page.getByRole("timer", { name: /^0:0[2-9]/ }).waitFor();
    await next.tap();
    await page.getByText(`Cookie ${cookie + 1}: flood it if it is not`).waitFor();
    // The heat is on no cookie yet, and no clock runs. A thumb that taps twice does not put it on.
    expect(await page.getByRole("timer").count()).toBe(0);
    const heatOn = page.getByRole("button", { name: "Heat on" });
    await expect.poll(() => heatOn.getAttribute("aria-disabled")).toBe("false");
    await heatOn.tap();
  }
  await page.getByText("Cookie 3 of 3").waitFor();
  expect(await next.count()).toBe(0);
  await page.getByRole("timer", { name: /^0:0[2-9]/ }).waitFor();
  await page.getByRole("button", { name: "Set to the touch: stop" }).tap();
  const question = page.getByRole("dialog", { name: "Hot air 1: off now?" });
  await question.getByRole("button", { name: "Off and on its stand" }).tap();
  await page.getByRole("heading", { name: "Tray 1" }).waitFor();
  expect(await page.getByRole("dialog").count()).toBe(0);

  await page.getByRole("link", { name: "Heat", exact: true }).tap();
  await page.getByText("No tray is under heat").waitFor();
  await page.getByRole("button", { name: /Hot air 1\s*off, hot for about 10 min more/ }).waitFor();
  await expect
    .poll(async () => (await kitchen().log(lead)).map(({ type }) => type).slice(-6))
    .toEqual(
      [
        "flooded",
        "caution-read",
        "heat-set-started",
        "cookie-set",
        "cookie-heat-started",
        "cookie-set",
        "cookie-heat-started",
        "heat-set-ended",
        "tool-switched-off",
      ].slice(-6),
    );
  const laps = (await kitchen().log(lead)).filter(({ type }) => /^(heat-set-started|cookie-set)$/.test(type));
  expect(laps[1]!.atMs - laps[0]!.atMs).toBeGreaterThanOrEqual(2000);
  expect(laps[2]!.atMs - laps[1]!.atMs).toBeGreaterThanOrEqual(2000);
}, 60_000);
