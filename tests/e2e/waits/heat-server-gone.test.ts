import type { Page } from "playwright";
import { expect, it } from "vitest";
import { goTo } from "../../support/browser.ts";
import { HOT_AIR, raised, startOf } from "../../support/browser-heat.ts";
import { useKitchen } from "../../support/browser-kitchen.ts";

const kitchen = useKitchen("test");

const MIN_MS = 60_000;

it("A1 A22 H30 with the server gone under heat the holder's phone has first aid and sounds past stop-by; when it is back clock and alert are", async () => {
  const lead = await kitchen().setUp(1);
  await kitchen().send(lead, { type: "put-tool", tool: { id: "hot-1", ...HOT_AIR, capS: 20 } });
  const wall = await kitchen().wall();
  const holder = await kitchen().phone("Wren");
  const other = await kitchen().phone("Odile");
  const pulses = async (page: Page): Promise<number> =>
    page.evaluate(() => Number(document.documentElement.dataset["pulses"] ?? 0));
  for (const { page } of [holder, other])
    await page.evaluate(() => {
      type Make = (this: AudioContext) => OscillatorNode;
      const make: Make = Reflect.get(AudioContext.prototype, "createOscillator");
      AudioContext.prototype.createOscillator = function counted() {
        const { dataset } = document.documentElement;
        dataset["pulses"] = String(Number(dataset["pulses"] ?? 0) + 1);
        return make.call(this);
      };
    });
  await kitchen().send(
    holder.joined.token,
    { type: "flooded", trayId: "t1", atMs: Date.now() - 10 * MIN_MS },
    { type: "start-heat-set", trayId: "t1", toolId: "hot-1", atMs: Date.now() - 5000 },
  );
  await goTo(holder.page, "t/1/heat");
  await holder.page.getByText("Stop by 0:20, when the whole room is alerted").waitFor();
  const { atMs: startMs, actId } = startOf(await kitchen().log(lead), "t1");
  await kitchen().kill();

  // Without any connection the cautions are there all the same.
  await holder.page.getByRole("button", { name: "A burn? First aid" }).tap();
  await holder.page.getByText("Cool running tap water on it, for 20 minutes.").waitFor();
  await holder.page.getByRole("button", { name: "Close" }).tap();
  await holder.page.getByText("Stop now: no connection, the room is not alerted").waitFor();
  await expect.poll(() => pulses(holder.page), { timeout: 5000 }).toBeGreaterThanOrEqual(10);
  await expect.poll(() => pulses(holder.page), { timeout: 25_000 }).toBeGreaterThanOrEqual(20);
  expect(await pulses(other.page)).toBe(0);
  expect(await other.page.locator(".alert").count()).toBe(0);

  await kitchen().restart();
  const backMs = Date.now();
  const onWall = wall.page.getByRole("alert").locator('.alert[data-class="urgent"]');
  await onWall.getByRole("heading", { name: "Stop the heat" }).waitFor();
  await other.page.locator('.alert[data-class="urgent"]', { hasText: "Wren · Hot air 1" }).waitFor();
  await holder.page.getByText("Stop now: the whole room is alerted").waitFor();
  const [ran = ""] = (await onWall.locator(".ran").textContent())?.match(/\d+:\d\d/) ?? [];
  const [minutes = 0, seconds = 0] = ran.split(":").map(Number);
  expect(Math.abs(startMs + (minutes * 60 + seconds) * 1000 - Date.now())).toBeLessThan(2500);
  const told = raised(await kitchen().log(lead)).find(({ alert }) => alert.kind === "heat-running-long");
  expect(told).toMatchObject({ alert: { key: `heat-running-long:${actId}:0`, class: "urgent" } });
  expect(told!.atMs - backMs).toBeLessThan(1000);
}, 120_000);
