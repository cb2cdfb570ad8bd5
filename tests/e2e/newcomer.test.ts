import { expect, it } from "vitest";
import { useKitchen } from "../support/browser-kitchen.ts";
import { JOIN_CODE } from "../support/server-app.ts";
import { PHONE } from "../support/browser.ts";

const kitchen = useKitchen("test");

it("K4 K6 a newcomer sets up a kitchen, a design, an order and its trays on a phone, and sees them on the wall", async () => {
  const wall = await kitchen().wall();
  await wall.page.getByText("Set up the kitchen on a phone").waitFor();

  const { page, complaints } = await kitchen().open("/", { size: PHONE, isPhone: true });
  await page.getByRole("link", { name: "Set up the kitchen" }).tap();
  await page.getByLabel("Your name").fill("Wren");
  await page.getByLabel("Join code").fill(JOIN_CODE);
  await page.getByRole("button", { name: "Join" }).tap();

  await page.getByLabel("The kitchen's name").fill("Tidepool Bakes");
  await page.getByRole("button", { name: "Save and go on" }).tap();
  await page.getByRole("button", { name: "Start with a usual room" }).tap();
  await page.getByText("Rack A", { exact: true }).waitFor();
  for (const step of ["Heat tools", "Icings", "First design"])
    await page.getByRole("button", { name: `Next: ${step}` }).tap();

  await page.getByRole("button", { name: "Add a design" }).tap();
  await page.getByLabel("Design's name").fill("Shell");
  await page.getByRole("button", { name: "Save", exact: true }).tap();
  await page.getByText("Shell ·").waitFor();
  await page.getByRole("button", { name: "Done: add the first order" }).tap();

  await page.getByLabel("Name", { exact: true }).fill("Harbour fair");
  await page.getByLabel("Cookies").fill("30");
  await page.getByRole("button", { name: "Save", exact: true }).tap();
  await page.getByRole("button", { name: "Add trays" }).tap();
  await page.getByLabel("Design").selectOption({ label: "Shell" });
  await page.getByText("3 trays: 1–3, the last with 6").waitFor();
  await page.getByRole("button", { name: "Add 3 trays" }).tap();

  await wall.page.locator(".tile", { hasText: "1–3" }).getByText("Pipe layer 1").waitFor();
  await wall.page.getByText("Harbour fair · 30").waitFor();

  await page.getByRole("link", { name: "Trays" }).tap();
  await page.getByRole("link", { name: "2 Pipe layer 1" }).tap();
  await page.getByRole("button", { name: "Piped: start the drying clock" }).tap();
  await page.getByRole("status").getByText("Tray 2 clock started").waitFor();
  // The second layer is of the same icing: it is laid wet on wet, so the tray wants hands at once.
  await wall.page.locator(".tile", { hasText: "2" }).getByText("Flood layer 2").waitFor();

  expect(complaints).toEqual([]);
  expect(wall.complaints).toEqual([]);
}, 60_000);
