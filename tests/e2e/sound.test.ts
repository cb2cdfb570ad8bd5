import type { CDPSession, Page } from "playwright";
import { expect, it } from "vitest";
import { openScreen, PHONE } from "../support/browser.ts";
import { useKitchen } from "../support/browser-kitchen.ts";
import { JOIN_CODE } from "../support/server-app.ts";

const kitchen = useKitchen("test");

interface Presence {
  presence: { devices: { name: string; canAlert: boolean }[] };
}

/** For a machine that is busy with something else: each wait is for something that comes. */
const PATIENCE = { timeout: 30_000 };

/** Something with a role on a page, as its accessibility tree and its layout have it. */
interface Part {
  name: string;
  value: string;
  isFocused: boolean;
  middle: readonly [x: number, y: number];
}

/**
 * Scripts that a test runs in a page count as the user's doing there, so nothing is asked of the page itself: where its parts
 * are, and what is in them, its browser says.
 */
async function openEyes(page: Page): Promise<(role: string) => Promise<Part[]>> {
  const session = await page.context().newCDPSession(page);
  return async (wanted) => {
    const { nodes } = await session.send("Accessibility.getFullAXTree");
    const parts = nodes.flatMap(({ role, name, value, properties, backendDOMNodeId: id }) =>
      role?.value !== wanted || id === undefined
        ? []
        : [
            middleOf(session, id).then((middle) => ({
              name: String(name?.value),
              value: String(value?.value ?? ""),
              isFocused: properties?.some((p) => p.name === "focused" && p.value.value === true) ?? false,
              middle,
            })),
          ],
    );
    return Promise.all(parts);
  };
}

async function middleOf(session: CDPSession, backendNodeId: number): Promise<readonly [number, number]> {
  const { quads } = await session.send("DOM.getContentQuads", { backendNodeId });
  const [left = 0, top = 0, , , right = 0, bottom = 0] = quads[0] ?? [];
  return [(left + right) / 2, (top + bottom) / 2];
}

it("the tap that joins lets a phone sound its alerts; after a reload any first tap does", async () => {
  const lead = await kitchen().setUp(1);
  const canAlert = async (name: string): Promise<boolean | undefined> => {
    const board = await kitchen().server().call("GET", "/api/board", { token: lead });
    const { presence } = board.json() as unknown as Presence;
    return presence.devices.find((device) => device.name === name)?.canAlert;
  };

  const { page, context, origin } = await kitchen().open(`/phone/#join=${JOIN_CODE}`, { isPhone: true });
  const see = await openEyes(page);
  const field = async (): Promise<Part | undefined> =>
    (await see("textbox")).find(({ name }) => name.startsWith("Your name"));
  const joins = async (): Promise<Part[]> =>
    (await see("button")).filter(({ name }) => name.startsWith("Join"));
  await expect.poll(async () => (await joins()).length, PATIENCE).toBe(1);
  await page.touchscreen.tap(...(await field())!.middle);
  // The browser makes a tap of the touch in its own time: letters typed before it would go nowhere.
  await expect.poll(async () => (await field())?.isFocused, PATIENCE).toBe(true);
  await page.keyboard.type("Wren");
  await expect.poll(async () => (await field())?.value, PATIENCE).toBe("Wren");
  await page.touchscreen.tap(...(await joins())[0]!.middle);
  await expect.poll(() => canAlert("Wren"), PATIENCE).toBe(true);

  const session = await context.storageState();
  await context.close();
  await expect.poll(() => canAlert("Wren"), PATIENCE).toBeUndefined();
  const again = await openScreen(kitchen().browser, PHONE, true, session);
  await again.page.goto(`${origin}/phone/`);
  await expect.poll(() => canAlert("Wren"), PATIENCE).toBe(false);
  await again.page.touchscreen.tap(PHONE.width / 2, PHONE.height / 2);
  await expect.poll(() => canAlert("Wren"), PATIENCE).toBe(true);
  await again.context.close();
}, 180_000);
