import type { Page } from "playwright";
import { expect, it } from "vitest";
import { openScreen, PHONE } from "../support/browser.ts";
import { useKitchen } from "../support/browser-kitchen.ts";
import { JOIN_CODE } from "../support/server-app.ts";

const kitchen = useKitchen("test");

interface Presence {
  presence: { devices: { name: string; canAlert: boolean }[] };
}

/** Names of the buttons on a page, from the browser's accessibility tree: no script runs in the page for it. */
async function buttons(page: Page): Promise<string[]> {
  const session = await page.context().newCDPSession(page);
  const { nodes } = await session.send("Accessibility.getFullAXTree");
  await session.detach();
  return nodes.flatMap(({ role, name }) => (role?.value === "button" ? [String(name?.value)] : []));
}

/**
 * Scripts that a test runs in a page count as the user's doing there, so nothing is asked of these pages: they are only
 * touched, where a page of the same size has shown things to be, and the server says what they told it.
 */
it("the tap that joins lets a phone sound its alerts; after a reload any first tap does", async () => {
  const lead = await kitchen().setUp(1);
  const canAlert = async (name: string): Promise<boolean | undefined> => {
    const board = await kitchen().server().call("GET", "/api/board", { token: lead });
    const { presence } = board.json() as unknown as Presence;
    return presence.devices.find((device) => device.name === name)?.canAlert;
  };
  const model = await kitchen().open(`/phone/#join=${JOIN_CODE}`, { isPhone: true });
  const middle = async (box: { x: number; y: number; width: number; height: number } | null) => {
    if (box === null) throw new Error("it is not on the page");
    return [box.x + box.width / 2, box.y + box.height / 2] as const;
  };
  const field = await middle(await model.page.getByLabel("Your name").boundingBox());
  const join = await middle(await model.page.getByRole("button", { name: "Join" }).boundingBox());

  const { page, context, origin } = await kitchen().open(`/phone/#join=${JOIN_CODE}`, { isPhone: true });
  await expect.poll(() => buttons(page), { timeout: 10_000 }).toEqual([expect.stringMatching(/^Join/)]);
  await page.touchscreen.tap(...field);
  await page.keyboard.type("Wren");
  await page.touchscreen.tap(...join);
  await expect.poll(() => canAlert("Wren"), { timeout: 10_000 }).toBe(true);

  const session = await context.storageState();
  await context.close();
  await expect.poll(() => canAlert("Wren"), { timeout: 10_000 }).toBeUndefined();
  const again = await openScreen(kitchen().browser, PHONE, true, session);
  await again.page.goto(`${origin}/phone/`);
  await expect.poll(() => canAlert("Wren"), { timeout: 10_000 }).toBe(false);
  await again.page.touchscreen.tap(PHONE.width / 2, PHONE.height / 2);
  await expect.poll(() => canAlert("Wren"), { timeout: 10_000 }).toBe(true);
  await again.context.close();
});
