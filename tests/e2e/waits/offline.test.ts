import type { Page } from "playwright";
import { expect, it } from "vitest";
import { type JoinedScreen, useKitchen } from "../../support/browser-kitchen.ts";
import type { LogLine } from "../../support/kitchen-server.ts";

const kitchen = useKitchen("test");

interface Tap {
  type: string;
  trayId: string;
  /** Between these, by the same clock as the phone's. */
  fromMs: number;
  toMs: number;
}

async function tap(phone: JoinedScreen, number: number, name: string | RegExp, type: string): Promise<Tap> {
  await phone.page.goto(`${phone.origin}/phone/#/t/${number}`);
  const button = phone.page.getByRole("button", { name });
  await button.waitFor();
  const fromMs = Date.now();
  await button.tap();
  return { type, trayId: `t${number}`, fromMs, toMs: Date.now() };
}

const acts = (log: readonly LogLine[]): LogLine[] =>
  log.filter(({ type }) => type === "flooded" || type === "touch-tested");

/** Each tap is in the log once, with the time it was made, to a second. */
function expectOnce(log: readonly LogLine[], taps: readonly Tap[]): void {
  const lines = acts(log);
  expect(lines.map(({ type, trayId }) => `${type} ${trayId}`)).toEqual(
    taps.map(({ type, trayId }) => `${type} ${trayId}`),
  );
  for (const [k, { fromMs, toMs }] of taps.entries()) {
    expect(lines[k]!.atMs).toBeGreaterThanOrEqual(fromMs - 1000);
    expect(lines[k]!.atMs).toBeLessThanOrEqual(toMs + 1000);
  }
}

const waits = (page: Page, count: number): Promise<void> =>
  page.getByText(`Waiting: ${count} taps to send`).waitFor();

async function threeTaps(phone: JoinedScreen): Promise<Tap[]> {
  return [
    await tap(phone, 1, /start the drying clock/, "flooded"),
    await tap(phone, 2, /start the drying clock/, "flooded"),
    await tap(phone, 1, /Still wet/, "touch-tested"),
  ];
}

it("C2 taps made out of reach survive a reload while the live socket stays away, and land once at their own time", async () => {
  const lead = await kitchen().setUp(4);
  const wall = await kitchen().wall();
  const phone = await kitchen().phone("Wren");
  await phone.page.locator(".tray-card").first().waitFor();
  expect(await phone.page.evaluate(() => isSecureContext)).toBe(false);

  phone.air.cut();
  const taps = await threeTaps(phone);
  await waits(phone.page, 3);
  expect(acts(await kitchen().log(lead))).toEqual([]);

  // Back in reach, but the page was thrown away meanwhile: what is loaded is the page alone.
  phone.air.pagesOnly();
  await phone.page.reload();
  await waits(phone.page, 3);
  await phone.page.goto(`${phone.origin}/phone/#/t/1`);
  await phone.page.getByRole("button", { name: "Pack 3" }).waitFor();
  expect(acts(await kitchen().log(lead))).toEqual([]);

  phone.air.mend();
  await phone.page.getByRole("status").getByText("live", { exact: true }).waitFor();
  await wall.page.locator('.lane[data-lane="full-dry"] .pill', { hasText: "1" }).waitFor();
  await wall.page.locator('.lane[data-lane="crusting"] .pill', { hasText: "2" }).waitFor();
  expectOnce(await kitchen().log(lead), taps);
}, 60_000);

it("C2 on a secure page the phone opens without any server, with its taps, and each lands once when it is back", async () => {
  const lead = await kitchen().setUp(2);
  const phone = await kitchen().phone("Wren", { isSecure: true });
  await phone.page.locator(".tray-card").first().waitFor();
  await phone.page.evaluate(async () => void (await navigator.serviceWorker.ready));

  await kitchen().kill();
  const taps = await threeTaps(phone);
  await waits(phone.page, 3);
  await phone.page.reload();
  await waits(phone.page, 3);

  await kitchen().restart();
  await phone.page.getByRole("status").getByText("live", { exact: true }).waitFor();
  expectOnce(await kitchen().log(lead), taps);
}, 60_000);
