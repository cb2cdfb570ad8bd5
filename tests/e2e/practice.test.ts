import { expect, it } from "vitest";
import { openKitchen, useKitchen } from "../support/browser-kitchen.ts";
import { cutOff, overlaps } from "../support/browser-wall.ts";

const SPEED = 60;
const kitchen = useKitchen("test", (browser) =>
  openKitchen(browser, ["--practice", "--speed", String(SPEED)]),
);

const secondsOf = (clock: string): number =>
  clock.split(":").reduce((sum, part) => sum * 60 + Number(part), 0);

it("C6 the practice kitchen runs by itself on the wall at its fast clock, and a newcomer's phone leads it", async () => {
  const wall = await kitchen().wall();
  const phone = await kitchen().phone("Newcomer");
  await wall.page.getByText(`practice kitchen · ${SPEED}×`).waitFor();
  await phone.page.getByRole("status").getByText(`practice ×${SPEED}`).waitFor();
  await phone.page.goto(`${phone.origin}/phone/#/room`);
  await phone.page.getByRole("heading", { name: "Kitchen", exact: true }).waitFor();

  const clock = wall.page.locator(".clock");
  const fromMin = secondsOf((await clock.textContent())!);
  // A minute a second: the day goes on, and the board with it.
  for (let looks = 0; looks < 4; looks += 1) {
    const before = await clock.textContent();
    await wall.page.waitForFunction(
      (before) => document.querySelector(".clock")?.textContent !== before,
      before,
    );
    // A lane takes a second to grow or shrink, and its pills go with it.
    await expect.poll(() => overlaps(wall.page), { timeout: 10_000 }).toEqual([]);
    await expect.poll(() => cutOff(wall.page), { timeout: 10_000 }).toEqual([]);
  }
  expect((secondsOf((await clock.textContent())!) - fromMin + 1440) % 1440).toBeGreaterThanOrEqual(4);
  expect(wall.complaints).toEqual([]);
  expect(phone.complaints).toEqual([]);
});
