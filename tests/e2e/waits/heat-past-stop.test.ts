import { expect, it } from "vitest";
import { HOT_AIR, raised, startOf } from "../../support/browser-heat.ts";
import { useKitchen } from "../../support/browser-kitchen.ts";

const kitchen = useKitchen("test");

const MIN_MS = 60_000;

it("A2 A13 a heat-set past its stop-by is told on the wall and on every phone, and the end clears it", async () => {
  const lead = await kitchen().setUp(2);
  // The shortest cap there is, and most of it gone: what is waited for comes within seconds.
  await kitchen().send(lead, { type: "put-tool", tool: { id: "hot-1", ...HOT_AIR, capS: 20 } });
  const wall = await kitchen().wall();
  const holder = await kitchen().phone("Wren");
  const other = await kitchen().phone("Odile");
  const { token } = holder.joined;
  await kitchen().send(
    token,
    { type: "flooded", trayId: "t1", atMs: Date.now() - 10 * MIN_MS },
    { type: "start-heat-set", trayId: "t1", toolId: "hot-1", atMs: Date.now() - 12_000 },
  );
  await wall.page.locator('.lane[data-lane="heat-set"] .pill', { hasText: "1" }).waitFor();
  expect(await wall.page.locator(".alert").count()).toBe(0);
  expect(await other.page.locator(".alert").count()).toBe(0);

  await holder.page.locator(".alert", { hasText: "stop by 0:20 at the latest" }).waitFor();
  const onWall = wall.page.getByRole("alert").locator('.alert[data-class="urgent"]');
  await onWall.getByRole("heading", { name: "Stop the heat" }).waitFor();
  expect(await onWall.textContent()).toMatch(/^1.*Wren · Hot air 1/);
  const onPhone = other.page.locator('.alert[data-class="urgent"]', { hasText: "Stop the heat" });
  await onPhone.waitFor();
  expect(await onPhone.textContent()).toContain(
    "Past its stop-by. Take the heat off, look for cracks · Wren · Hot air 1",
  );
  const [warned, told] = raised(await kitchen().log(lead)).filter(({ alert }) =>
    alert.kind.startsWith("heat"),
  );
  expect(warned).toMatchObject({
    alert: { kind: "heat-near-stop", class: "prompt", recipients: { wall: false } },
  });
  expect(told).toMatchObject({ alert: { kind: "heat-running-long", class: "urgent" } });
  const { atMs, limits } = startOf(await kitchen().log(lead), "t1");
  const lateMs = told!.atMs - atMs - limits.stopByS * 1000;
  expect(lateMs).toBeGreaterThanOrEqual(0);
  expect(lateMs).toBeLessThan(1500);

  await holder.page.goto(`${holder.origin}/phone/#/t/1/heat`);
  await holder.page.getByText("Stop now: the whole room is alerted").waitFor();
  await holder.page.getByRole("button", { name: "Set to the touch: stop" }).tap();
  await onWall.waitFor({ state: "detached" });
  await onPhone.waitFor({ state: "detached" });
}, 60_000);

it("A8 when the holder's phone is lost under heat the wall takes over at once and says whose it is", async () => {
  await kitchen().setUp(1);
  const wall = await kitchen().wall();
  const holder = await kitchen().phone("Wren");
  await kitchen().send(
    holder.joined.token,
    { type: "flooded", trayId: "t1" },
    { type: "start-heat-set", trayId: "t1", toolId: "oven-1" },
  );
  await wall.page.locator('.lane[data-lane="heat-set"] .pill', { hasText: "1" }).waitFor();
  expect(await wall.page.locator(".alert").count()).toBe(0);

  await holder.context.close();
  const lostMs = Date.now();
  const onWall = wall.page.getByRole("alert").locator(".alert");
  await onWall.getByRole("heading", { name: "Watch this heat" }).waitFor();
  expect(await onWall.textContent()).toMatch(
    /^1.*Wren · Low oven · Phone offline or muted · Stop by \d:\d\d/,
  );
  expect(Date.now() - lostMs).toBeGreaterThan(8000);
  expect(Date.now() - lostMs).toBeLessThan(13_000);
}, 60_000);
