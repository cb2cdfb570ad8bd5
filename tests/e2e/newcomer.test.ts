import type { Locator } from "playwright";
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
  await page.getByText("Round with a border").first().waitFor();
  await page.getByRole("button", { name: "Add a design" }).tap();
  await page.getByRole("button", { name: "Shell", exact: true }).tap();
  await page.getByRole("button", { name: "Save", exact: true }).tap();
  await page.getByText("Shell", { exact: true }).first().waitFor();
  await page.getByRole("button", { name: "Done: add the first order" }).tap();

  await page.getByLabel("Name", { exact: true }).fill("Harbour fair");
  await page.getByLabel("Cookies").fill("30");
  await page.getByRole("button", { name: "Save", exact: true }).tap();
  await page.getByRole("button", { name: "Add trays" }).tap();
  await page.getByLabel("Design").selectOption({ label: "Round with a border" });
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

it("C48 from an empty kitchen to the first tray a phone needs at most 15 taps and 5 typed fields", async () => {
  const { page, complaints } = await kitchen().open("/", { size: PHONE, isPhone: true });
  let taps = 0;
  let fields = 0;
  const tap = async (target: Locator): Promise<void> => {
    taps += 1;
    await target.tap();
  };
  /** A field is tapped before it is typed into. */
  const type = async (label: string, text: string): Promise<void> => {
    fields += 1;
    const field = page.getByLabel(label, { exact: true });
    await tap(field);
    await field.fill(text);
  };
  const button = (name: string): Locator => page.getByRole("button", { name, exact: true });

  await tap(page.getByRole("link", { name: "Set up the kitchen" }));
  await type("Your name", "Wren");
  await type("Join code", JOIN_CODE);
  await tap(page.getByRole("button", { name: "Join" }));
  await type("The kitchen's name", "Tidepool Bakes");
  await tap(button("Save and go on"));
  await tap(page.getByRole("button", { name: "Start with a usual room" }));
  await tap(button("Done: add the first order"));
  await type("Name", "Harbour fair");
  await type("Cookies", "30");
  await tap(button("Save"));
  await tap(button("Add trays"));
  await tap(button("Add 3 trays"));
  await page.getByRole("link", { name: "Trays" }).tap();
  await page.getByText("Pipe layer 1").first().waitFor();

  expect(taps).toBeLessThanOrEqual(15);
  expect(fields).toBeLessThanOrEqual(5);
  expect(complaints).toEqual([]);
}, 60_000);
