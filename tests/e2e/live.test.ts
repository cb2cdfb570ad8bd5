import { expect, it } from "vitest";
import { drawn, heardOf, lastTap, lookFor, watchFrames } from "../support/browser-frames.ts";
import { useKitchen } from "../support/browser-kitchen.ts";
import { roomCommands } from "../support/browser-room.ts";
import type { LogLine } from "../support/kitchen-server.ts";

const kitchen = useKitchen("test");

/** Frames from a message or a tap to the picture: the one under way, and the next. */
const FRAMES_MOST = 2;
/** Up to this, one's thought is not broken off (Nielsen, Response times: the three important limits). */
const THOUGHT_MS = 1000;

it("P3 C1 a tap on the phone is on the wall within two frames of the change's arriving", async () => {
  await kitchen().setUp(5);
  const wall = await kitchen().wall();
  const phone = await kitchen().phone("Wren");
  await watchFrames(wall.page);
  await watchFrames(phone.page);
  await wall.page.locator(".tile").first().waitFor();

  const tookMs: number[] = [];
  // Trays of one layer: flooded once, all that is left for them is to dry through.
  for (const number of [1, 3, 5]) {
    await phone.page.goto(`${phone.origin}/phone/#/t/${number}`);
    await lookFor(wall.page, '.lane[data-lane="full-dry"] .pill b', String(number));
    await phone.page.getByRole("button", { name: "start the drying clock" }).tap();
    const seen = await drawn(wall.page, String(number));
    const heard = await heardOf(wall.page, '"flooded"', `"trayId":"t${number}"`);
    expect(seen.frame - heard.frame).toBeGreaterThanOrEqual(0);
    expect(seen.frame - heard.frame).toBeLessThanOrEqual(FRAMES_MOST);
    tookMs.push(seen.atMs - (await lastTap(phone.page)).atMs);
  }
  expect(tookMs.toSorted((a, b) => a - b)[1]).toBeLessThan(THOUGHT_MS);
});

it("C1 the phone shows its own tap within two frames, before any answer can have come", async () => {
  const lead = await kitchen().setUp(3);
  const wall = await kitchen().wall();
  const phone = await kitchen().phone("Wren");
  await watchFrames(phone.page);
  await phone.page.goto(`${phone.origin}/phone/#/t/1`);
  await phone.page.getByRole("button", { name: "Top-coated: start the drying clock" }).waitFor();

  phone.air.cut();
  await lookFor(phone.page, "button", "Pack 3");
  await lookFor(phone.page, ".toast", "Tray 1 clock started");
  await phone.page.getByRole("button", { name: "start the drying clock" }).tap();
  const tap = await lastTap(phone.page);
  for (const words of ["Pack 3", "Tray 1 clock started"])
    expect((await drawn(phone.page, words)).frame - tap.frame).toBeLessThanOrEqual(FRAMES_MOST);
  await phone.page.getByRole("status").getByText("sending 1 tap").waitFor();
  expect((await kitchen().log(lead)).filter(({ type }) => type === "flooded")).toEqual([]);

  phone.air.mend();
  await wall.page.locator('.lane[data-lane="full-dry"] .pill', { hasText: "1" }).waitFor();
  await phone.page.getByRole("status").getByText("live").waitFor();
  expect((await kitchen().log(lead)).filter(({ type }) => type === "flooded")).toHaveLength(1);
});

it("C3 a phone whose own clock is seven minutes fast counts as the wall does, and its taps have the kitchen's time", async () => {
  const lead = await kitchen().setUp(3);
  const wall = await kitchen().wall();
  const phone = await kitchen().phone("Wren");
  await phone.page.addInitScript(() => {
    const { now } = Date;
    Date.now = () => now() + 7 * 60_000;
  });
  await phone.page.reload();
  await phone.page.getByRole("status").getByText("live", { exact: true }).waitFor();
  await kitchen().send(
    phone.joined.token,
    { type: "flooded", trayId: "t1", atMs: Date.now() - 10 * 60_000 },
    { type: "start-heat-set", trayId: "t1", toolId: "hot-1", atMs: Date.now() - 20_000 },
  );
  await phone.page.goto(`${phone.origin}/phone/#/t/1/heat`);
  const clocks = [
    phone.page.locator(".ring-time"),
    wall.page.locator('.lane[data-lane="heat-set"] .pill', { hasText: "1" }).locator("small"),
  ];
  const [onPhone = 0, onWall = 0] = await Promise.all(
    clocks.map(async (clock) => {
      const [minutes = 0, seconds = 0] = (await clock.textContent())!.split(":").map(Number);
      return minutes * 60 + seconds;
    }),
  );
  // It counts whole seconds, once a second.
  expect(onWall).toBeGreaterThanOrEqual(19);
  expect(Math.abs(onPhone - onWall)).toBeLessThanOrEqual(1);

  await phone.page.goto(`${phone.origin}/phone/#/t/3`);
  const button = phone.page.getByRole("button", { name: "start the drying clock" });
  await button.waitFor();
  const fromMs = Date.now();
  await button.tap();
  const toMs = Date.now();
  const tap = async (): Promise<LogLine | undefined> =>
    (await kitchen().log(lead)).find(({ type, trayId }) => type === "flooded" && trayId === "t3");
  await expect.poll(tap).toBeDefined();
  const { atMs } = (await tap())!;
  expect(atMs).toBeGreaterThanOrEqual(fromMs - 1000);
  expect(atMs).toBeLessThanOrEqual(toMs + 1000);
});

it("P34 a second phone under the lead's name waits, and opens by itself once the lead lets it in", async () => {
  const lead = await kitchen().phone("Ida");
  await kitchen().send(lead.joined.token, ...roomCommands(2, Date.now()));
  const second = await kitchen().phone("ida");
  await second.page.getByRole("heading", { name: "Waiting to be let in" }).waitFor();
  await lead.page.getByText("A phone asks to join as Ida, who leads").waitFor();
  await lead.page.getByRole("button", { name: "Let it in" }).tap();
  await second.page.getByRole("heading", { name: "Yours next" }).waitFor();
  await lead.page.getByText("A phone asks to join").waitFor({ state: "detached" });
});
