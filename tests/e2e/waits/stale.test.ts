import type { Page } from "playwright";
import { expect, it } from "vitest";
import { useKitchen } from "../../support/browser-kitchen.ts";

const kitchen = useKitchen("test");

const MIN_MS = 60_000;
/** A feed is stale after 5 s, is looked at each second, and was last heard up to a second before it stopped. */
const SAID_WITHIN_MS = 7500;
const NOT_BEFORE_MS = 3500;

const isShown = (page: Page, selector: string): Promise<boolean[]> =>
  page
    .locator(selector)
    .evaluateAll((all) => all.map((one) => one.checkVisibility({ visibilityProperty: true })));

async function untilSaid(from: number, page: Page, words: RegExp): Promise<void> {
  await page.getByText(words).waitFor();
  expect(Date.now() - from).toBeGreaterThan(NOT_BEFORE_MS);
  expect(Date.now() - from).toBeLessThan(SAID_WITHIN_MS);
}

it("C4 when the server falls silent wall and phone say so and stop promising, and recover by themselves", async () => {
  const lead = await kitchen().setUp(5);
  await kitchen().send(
    lead,
    { type: "flooded", trayId: "t1" },
    { type: "flooded", trayId: "t2", atMs: Date.now() - 90 * MIN_MS },
  );
  const wall = await kitchen().wall();
  const phone = await kitchen().phone("Wren");
  await wall.page.locator(".pill .mark").first().waitFor();
  await wall.page.locator(".order .spare", { hasText: /spare|late/ }).waitFor();
  expect(await isShown(wall.page, ".pill .mark, .pill .band, .axis .tick:first-child")).not.toContain(false);

  for (const way of ["stopped", "killed"] as const) {
    await wall.page.locator('.dot[data-live="true"]').waitFor();
    await phone.page.getByRole("status").getByText("live").waitFor();
    if (way === "stopped") kitchen().server().child.kill("SIGSTOP");
    else await kitchen().kill();
    const fromMs = Date.now();
    await Promise.all([
      untilSaid(fromMs, wall.page, /No word from the kitchen's server since \d\d:\d\d:\d\d/),
      phone.page.getByText(/No connection since \d\d:\d\d/).waitFor(),
    ]);
    expect(Date.now() - fromMs).toBeLessThan(SAID_WITHIN_MS);
    await wall.page.getByText("as last heard, times not live").waitFor();
    expect(await wall.page.locator('.dot[data-live="true"]').count()).toBe(0);
    expect(await isShown(wall.page, ".pill .mark, .pill .band, .axis .tick:first-child")).not.toContain(true);
    for (const promise of await wall.page.locator(".order .spare").allTextContents())
      expect(promise).toBe("");
    // That a tray is still to be started promises nothing.
    for (const wait of await wall.page.locator(".tile .wait").allTextContents())
      expect(["", "to start"]).toContain(wait);
    expect(await phone.page.locator(".status").getAttribute("data-live")).toBe("false");

    if (way === "stopped") kitchen().server().child.kill("SIGCONT");
    else await kitchen().restart();
    await wall.page.getByText(/No word from/).waitFor({ state: "detached" });
    await phone.page.getByText(/No connection since/).waitFor({ state: "detached" });
  }
  await wall.page.locator('.dot[data-live="true"]').waitFor();
  expect(await isShown(wall.page, ".pill .mark, .axis .tick:first-child")).not.toContain(false);
}, 60_000);
