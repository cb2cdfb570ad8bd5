import type { Locator, Page } from "playwright";
import { expect, it } from "vitest";
import { SMALL_PHONE } from "../support/browser.ts";
import { useKitchen } from "../support/browser-kitchen.ts";

const kitchen = useKitchen("test");

const goTo = (page: Page, path: string): Promise<void> =>
  page.evaluate((hash) => void (location.hash = hash), `/${path}`);

/** Presses, lets somebody else act until this phone has drawn it, and only then lets go. */
async function pressWhile(page: Page, button: Locator, others: () => Promise<void>): Promise<void> {
  await button.scrollIntoViewIfNeeded();
  const box = (await button.boundingBox())!;
  await page.mouse.move(box.x + box.width / 2, box.y + box.height / 2);
  await page.mouse.down();
  const heard = page.evaluate(
    () =>
      new Promise<void>((done) => {
        new MutationObserver(() => done()).observe(document.querySelector(".page")!, {
          subtree: true,
          childList: true,
          characterData: true,
        });
      }),
  );
  await others();
  await heard;
  // The forecasts that follow come too.
  await page.waitForTimeout(1000);
  await page.mouse.up();
}

it("a press on a tray's act counts though somebody else's tap comes between finger down and finger up", async () => {
  const lead = await kitchen().setUp(4);
  const { page, joined } = await kitchen().phone("Wren", { size: SMALL_PHONE });
  await kitchen().send(lead, { type: "start-flooding", trayId: "t2" });
  await goTo(page, "t/2");
  const flooded = page.getByRole("button", { name: /^Flooded: start the drying clock/ });
  await flooded.waitFor();
  await pressWhile(page, flooded, () =>
    kitchen().send(lead, { type: "assign-tray", trayId: "t2", to: joined.personId }),
  );
  await page.locator(".toast").waitFor();
  await expect
    .poll(async () => (await kitchen().log(lead)).map(({ type, trayId }) => `${type} ${trayId}`))
    .toContain("flooded t2");
}, 60_000);

it("a batch that is being written down stays open, and keeps what was typed, while the kitchen goes on", async () => {
  const lead = await kitchen().setUp(4);
  const { page } = await kitchen().phone("Wren", { size: SMALL_PHONE });
  await goTo(page, "icing");
  await page.getByRole("button", { name: "flood: mixed" }).tap();
  const mass = page.getByLabel("How much");
  await mass.fill("345");
  const need = page.locator("tr.need", { has: page.getByLabel("flood: mixed") });
  const before = await need.textContent();
  await kitchen().send(lead, { type: "flooded", trayId: "t2" });
  await expect.poll(() => need.textContent()).not.toBe(before);
  expect(await mass.inputValue()).toBe("345");
}, 60_000);
