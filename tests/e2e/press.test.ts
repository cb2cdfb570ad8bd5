import type { Locator, Page } from "playwright";
import { expect, it } from "vitest";
import { HOUR_MS } from "#shared/time.ts";
import { DESK, goTo, PHONE, SMALL_PHONE } from "../support/browser.ts";
import { useKitchen } from "../support/browser-kitchen.ts";
import { JOIN_CODE } from "../support/server-app.ts";

const kitchen = useKitchen("test");

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
  // The last layer that needs it.
  await kitchen().send(lead, { type: "flooded", trayId: "t4" });
  await need.waitFor({ state: "detached" });
  expect(await mass.inputValue()).toBe("345");
  await page.getByLabel("Use by").fill(new Date(Date.now() + 24 * HOUR_MS).toISOString().slice(0, 16));
  await page.locator(".sheet").getByRole("button", { name: "Mixed" }).tap();
  await expect.poll(async () => (await kitchen().log(lead)).map(({ type }) => type)).toContain("batch-mixed");
}, 60_000);

/** Keeps hold of what can be pressed now. Gives what of it was replaced: it is there, but for times of day, as another element. */
async function holdPressable(page: Page): Promise<() => Promise<string[]>> {
  const held = await page.evaluateHandle(() => {
    const words = (element: Element): string =>
      `${element.tagName} ${element.textContent}`.replaceAll(/\d+:\d\d/g, "");
    const all = (): Element[] => [...document.querySelectorAll("button, a, input, select, summary")];
    return { words, all, before: all().map((element) => ({ element, said: words(element) })) };
  });
  expect(await held.evaluate(({ before }) => before.length)).toBeGreaterThan(2);
  return () =>
    held.evaluate(({ words, all, before }) => {
      const said = new Set(all().map(words));
      return before.flatMap((was) => (!was.element.isConnected && said.has(was.said) ? [was.said] : []));
    });
}

it.each([
  ["a phone", PHONE, ["t/6", "t/2", "plan", "orders/party", "icing", "kitchen/devices", "kitchen/hand-over"]],
  ["a desk", DESK, ["plan"]],
] as const)(
  "what can be pressed on %s stays the same element while the air, forecasts and plans change",
  async (_, size, paths) => {
    const lead = await kitchen().setUp(8);
    const { page, joined } = await kitchen().phone("Wren", { size });
    const send = (...commands: object[]): Promise<void> => kitchen().send(lead, ...commands);
    await send(
      { type: "set-role", personId: joined.personId, role: "lead" },
      { type: "flooded", trayId: "t2" },
      { type: "start-flooding", trayId: "t6" },
    );
    for (const [k, path] of paths.entries()) {
      await goTo(page, path);
      await page.locator("main a, main button").first().waitFor();
      // Its own questions are answered.
      await page.waitForTimeout(1000);
      const before = await holdPressable(page);
      const reading = { placeId: "rack-a", tempC: 21 + k, rhPct: 51, source: "typed" };
      await send({ type: "enter-reading", reading });
      // A plan is made within a second, and asked for a moment after.
      await page.waitForTimeout(path === "plan" ? 4000 : 1500);
      expect([path, await before()]).toEqual([path, []]);
    }
  },
  90_000,
);

it("at a bench the names to choose from stay under the finger while the kitchen goes on", async () => {
  const lead = await kitchen().setUp(4);
  const { page } = await kitchen().open("/display/", { isPhone: false });
  await page.getByLabel("Join code").fill(JOIN_CODE);
  await page.getByText("a bench").click();
  await page.getByRole("button", { name: "Show the board" }).click();
  await page.locator(".tile").first().click();
  const name = page.locator(".sheet").getByRole("button", { name: "Ida" });
  await name.waitFor();
  const before = await holdPressable(page);
  await kitchen().send(lead, { type: "start-flooding", trayId: "t2" });
  await page.locator(".pill").first().waitFor();
  expect(await before()).toEqual([]);
  await name.click();
  await page.locator(".sheet").getByText("Ida", { exact: false }).first().waitFor();
}, 60_000);
