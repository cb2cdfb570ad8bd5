import { mkdirSync } from "node:fs";
import { fileURLToPath } from "node:url";
import type { Page } from "playwright";
import type { Tray } from "#shared/kitchen/model/state.ts";
import type { Snapshot } from "#shared/protocol/snapshot.ts";
import { launchBrowser } from "./browser.ts";
import { openKitchen } from "./browser-kitchen.ts";

/** Pictures for the README, from the practice kitchen at its usual pace: `npm run screenshots`, after a build. */
const root = fileURLToPath(new URL("../..", import.meta.url));
const QUALITY = 72;

async function take(page: Page, path: string): Promise<void> {
  mkdirSync(`${root}${path}`.replace(/\/[^/]+$/, ""), { recursive: true });
  await page.screenshot({ path: `${root}${path}`, type: "jpeg", quality: QUALITY });
  console.log(path);
}

const browser = await launchBrowser();
const kitchen = await openKitchen(browser, ["--practice", "--speed", "1"]);
try {
  const phone = await kitchen.phone("Wren");
  const wall = await kitchen.wall();
  const { token } = phone.joined;
  const board = async (): Promise<Snapshot> =>
    (await (
      await fetch(`http://127.0.0.1:${kitchen.server().port}/api/board`, {
        headers: { authorization: `Bearer ${token}` },
      })
    ).json()) as Snapshot;
  const trays = Object.values((await board()).kitchen.trays);

  await phone.page.getByText("Yours next").waitFor();
  await phone.page.getByRole("button", { name: "Skip" }).tap();
  await phone.page.waitForTimeout(1500);
  await take(phone.page, "phone/docs/trays.jpg");

  // The tray whose icing is the youngest: it still wants heat.
  const laidMs = (tray: Tray): number => tray.films.at(-1)?.clockStartMs ?? 0;
  const [crusting] = trays
    .filter(({ status }) => status.stage === "crusting" || status.stage === "full-dry")
    .toSorted((a, b) => laidMs(b) - laidMs(a));
  if (crusting === undefined) throw new Error("no tray is drying");
  await phone.page.goto(`${phone.origin}/phone/#/t/${crusting.number}`);
  await phone.page.waitForTimeout(1500);
  await take(phone.page, "phone/docs/tray.jpg");

  const { tools } = (await board()).kitchen;
  const hot = Object.values(tools).find((tool) => tool.kind === "hot-air" && tool.use.status === "off");
  const atMs = (await board()).serverNowMs - 40_000;
  if (hot !== undefined) {
    await kitchen.send(
      token,
      { type: "caution-read", toolKind: "hot-air" },
      { type: "start-heat-set", trayId: crusting.id, toolId: hot.id, atMs },
    );
    await phone.page.goto(`${phone.origin}/phone/#/t/${crusting.number}/heat`);
    await phone.page.waitForTimeout(1500);
    await take(phone.page, "phone/docs/heat.jpg");
  }
  await wall.page.waitForTimeout(1000);
  await take(wall.page, "display/docs/wall.jpg");
} finally {
  await kitchen.close();
  await browser.close();
}
