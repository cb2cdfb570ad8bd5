import type { Locator } from "playwright";
import { beforeAll, expect, it } from "vitest";
import { DESK, goTo } from "../support/browser.ts";
import { roomCommands } from "../support/browser-room.ts";
import { type JoinedScreen, useKitchen } from "../support/browser-kitchen.ts";

const kitchen = useKitchen("file");

let lead: string;
let desk: JoinedScreen;
beforeAll(async () => {
  lead = await kitchen().setUp(8);
  desk = await kitchen().phone("Wren", { size: DESK });
  await kitchen().send(lead, { type: "set-role", personId: desk.joined.personId, role: "lead" });
});

async function typeInto(field: Locator, keys: string): Promise<void> {
  await field.focus();
  for (const key of keys) await desk.page.keyboard.press(key);
}

it("the part of a date that is typed changes, and the others stay", async () => {
  await goTo(desk.page, "orders/new");
  const pickUp = desk.page.getByLabel("Pick-up");
  const [, time = ""] = (await pickUp.inputValue()).split("T");
  expect(time).not.toBe("");
  // A day or a month, whichever this browser writes first; half typed it is neither.
  await typeInto(pickUp, "05");
  const [date = "", sameTime] = (await pickUp.inputValue()).split("T");
  expect(date.split("-")).toContain("05");
  expect(sameTime).toBe(time);
});

it("opening hours of every day are typed without leaving the field", async () => {
  await goTo(desk.page, "kitchen/settings");
  const opens = desk.page.getByLabel("Every day, opens");
  await opens.waitFor();
  const field = await opens.elementHandle();
  await typeInto(opens, "0830");
  expect(await opens.inputValue()).toBe("08:30");
  expect(await field.evaluate((input) => input === document.activeElement)).toBe(true);
  expect(await desk.page.locator(".field-error").count()).toBe(0);
  await desk.page.getByRole("button", { name: "Save" }).click();
  await expect
    .poll(async () => (await kitchen().log(lead)).at(-1))
    .toMatchObject({
      type: "settings-changed",
      settings: { opening: Array.from({ length: 7 }, () => expect.objectContaining({ fromMin: 510 })) },
    });
});

it("a number that was cleared to be typed anew stays cleared, whatever else happens", async () => {
  await goTo(desk.page, "print");
  const from = desk.page.getByLabel("From tray");
  await expect.poll(() => from.inputValue()).toBe("1");
  await from.fill("");
  const { trays } = roomCommands(9, 0).at(-1) as { trays: { number: number }[] };
  await kitchen().send(lead, { type: "add-trays", trays: trays.filter(({ number }) => number === 9) });
  await expect.poll(() => desk.page.getByLabel("To tray").inputValue()).toBe("9");
  expect(await from.inputValue()).toBe("");
  await from.fill("3");
  await expect.poll(() => desk.page.locator(".tray-label").count()).toBe(7);
});
