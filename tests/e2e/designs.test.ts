import { beforeAll, expect, it } from "vitest";
import type { Snapshot } from "#shared/protocol/snapshot.ts";
import { goTo } from "../support/browser.ts";
import { type JoinedScreen, useKitchen } from "../support/browser-kitchen.ts";

const kitchen = useKitchen("file");

let phone: JoinedScreen;
let lead: string;
beforeAll(async () => {
  lead = await kitchen().setUp(4);
  phone = await kitchen().phone("Wren");
  await kitchen().send(lead, { type: "set-role", personId: phone.joined.personId, role: "lead" });
  await phone.page.getByText("live", { exact: true }).waitFor();
});

const designs = async (): Promise<Snapshot["kitchen"]["designs"]> => {
  const headers = { authorization: `Bearer ${lead}` };
  const answer = await fetch(`http://127.0.0.1:${kitchen().server().port}/api/board`, { headers });
  return ((await answer.json()) as Snapshot).kitchen.designs;
};
const designNamed = async (name: string) =>
  Object.values(await designs()).find((design) => design.name === name);

it("C41 from a template to a saved design it is four taps from the orders, under a minute", async () => {
  const { page } = phone;
  await goTo(page, "orders");
  let taps = 0;
  const tap = async (role: "link" | "button", name: string): Promise<void> => {
    taps += 1;
    await page.getByRole(role, { name, exact: true }).first().tap();
  };
  const beganMs = Date.now();
  await tap("link", "Designs");
  await tap("link", "Add a design");
  await tap("button", "Boat");
  await tap("button", "Save");
  await expect.poll(async () => (await designNamed("Boat"))?.drawing?.areas.length).toBe(3);
  expect(taps).toBeLessThanOrEqual(10);
  expect(Date.now() - beganMs).toBeLessThan(60_000);
  expect((await designNamed("Boat"))!.layers.every(({ areaCm2 = 0 }) => areaCm2 > 0)).toBe(true);
});

it("C42 a tap on the drawing takes an area into the layer that is open", async () => {
  const { page } = phone;
  await goTo(page, "designs/new");
  await page.getByRole("button", { name: "Kite", exact: true }).tap();
  await page.locator(".design-layer > summary").nth(1).tap();
  const area = page.locator('.design-layer[open] [data-part="top-right"]');
  await area.scrollIntoViewIfNeeded();
  // In its right angle: the middle of the box around a triangle lies on its edge.
  const { width, height } = (await area.boundingBox())!;
  await area.tap({ position: { x: width * 0.25, y: height * 0.75 } });
  await page.getByRole("button", { name: "Save", exact: true }).tap();
  await expect.poll(async () => (await designNamed("Kite"))?.layers[1]?.covers?.areas).toContain("top-right");
});

it("C46 a photo is scaled, traced by taps, kept on this phone, and shared on request", async () => {
  const { page } = phone;
  // So low that the photo is narrower than the page.
  await page.setViewportSize({ width: 1200, height: 700 });
  await goTo(page, "designs/new");
  await page.getByRole("button", { name: "Trace a photo" }).tap();
  const png = await page.evaluate(async () => {
    const canvas = document.createElement("canvas");
    [canvas.width, canvas.height] = [2400, 2400];
    const pen = canvas.getContext("2d")!;
    pen.fillStyle = "#c96";
    pen.fillRect(300, 300, 1800, 1800);
    return canvas.toDataURL("image/png").split(",")[1]!;
  });
  await page
    .getByLabel("Choose a photo, or take one")
    .setInputFiles({ name: "cookie.png", mimeType: "image/png", buffer: Buffer.from(png, "base64") });
  const canvas = page.locator(".trace-canvas");
  await canvas.scrollIntoViewIfNeeded();
  const box = (await canvas.boundingBox())!;
  const at = (x: number, y: number) => canvas.tap({ position: { x: box.width * x, y: box.height * y } });
  await page.getByRole("button", { name: "Curved" }).tap();
  await canvas.scrollIntoViewIfNeeded();
  for (const [x, y] of [
    [0.15, 0.15],
    [0.85, 0.15],
    [0.85, 0.85],
    [0.15, 0.85],
  ] as const)
    await at(x, y);
  await page.getByRole("button", { name: "Close", exact: true }).tap();
  await page.getByRole("button", { name: "Use this drawing" }).tap();
  await page.getByLabel("Design's name").fill("Tile");
  await page.getByRole("button", { name: "Save", exact: true }).tap();
  await page.getByText("The traced photo is on this device only.").waitFor();
  const { id, drawing } = (await designNamed("Tile"))!;
  expect(drawing!.heightMm / drawing!.widthMm).toBeCloseTo(1, 1);
  const photo = async (): Promise<Response> =>
    fetch(`http://127.0.0.1:${kitchen().server().port}/api/designs/${id}/photo`, {
      headers: { authorization: `Bearer ${lead}` },
    });
  expect((await photo()).status).toBe(204);
  await page.reload();
  await page.getByText("The traced photo is on this device only.").waitFor();
  await page.getByRole("button", { name: "Share this photo with the kitchen" }).tap();
  await page.getByText("The whole kitchen can see this photo.").waitFor();
  const shared = await (await photo()).arrayBuffer();
  expect(shared.byteLength).toBeLessThanOrEqual(400 * 1024);
  expect([...new Uint8Array(shared).slice(0, 3)]).toEqual([0xff, 0xd8, 0xff]);
});
