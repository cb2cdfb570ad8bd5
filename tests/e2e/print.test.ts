import { beforeAll, describe, expect, it } from "vitest";
import type { Page } from "playwright";
import { goTo, PHONE } from "../support/browser.ts";
import { type JoinedScreen, useKitchen } from "../support/browser-kitchen.ts";
import { design, layer } from "../support/furnishings.ts";
import { type PrintedPage, printed, readCode } from "../support/browser-print.ts";
import { JOIN_CODE } from "../support/server-app.ts";

const kitchen = useKitchen("file");

/** As long as the schemas allow. */
const LONG = {
  design: "A crescent moon above the harbour with its stars and a boat!",
  order: "The harbour school's summer party with all its many friends!",
  text: `Contains: wheat, egg, milk. ${"Keep dry, below twenty degrees and out of the sun. ".repeat(5)}`.slice(
    0,
    279,
  ),
  allergens:
    "wheat, egg, milk, almond, hazelnut, walnut, soy, sesame, mustard, lupin, celery and whatever else our own labels name in this kitchen today",
};
const MARGIN_MM = 10;
const PAPERS = [
  { paper: "A4", widthMm: 210, heightMm: 297, labelMm: 69, units: "metric" },
  { paper: "Letter", widthMm: 215.9, heightMm: 279.4, labelMm: 64.5, units: "us" },
] as const;

let phone: JoinedScreen;
let lead: string;
let page: Page;
beforeAll(async () => {
  lead = await kitchen().setUp(19);
  await kitchen().send(
    lead,
    {
      type: "put-design",
      design: design("long", LONG.design, 70, [layer("top", "top-coat", "butter", { narrowestMm: 60 })]),
    },
    { type: "set-kitchen", settings: { boxOf: 6, bestBeforeDays: 21, labelText: LONG.text } },
    { type: "enter-reading", reading: { placeId: "rack-a", tempC: 22, rhPct: 48, source: "typed" } },
    {
      type: "put-order",
      order: {
        id: "long",
        name: LONG.order,
        pickUpAtMs: Date.now() + 90 * 3_600_000,
        cookies: 12,
        allergens: LONG.allergens,
      },
    },
    {
      type: "add-trays",
      trays: [{ id: "x", number: 9999, designId: "long", orderId: "long", count: 200, placeId: "rack-a" }],
    },
  );
  phone = await kitchen().phone("Wren");
  ({ page } = phone);
  await kitchen().send(lead, { type: "set-role", personId: phone.joined.personId, role: "lead" });
  await page.getByText("live", { exact: true }).waitFor();
});

async function open(path: string, paper?: string): Promise<void> {
  await page.goto(`${phone.origin}/phone/#/${path}`);
  if (paper !== undefined) await page.getByLabel(paper, { exact: true }).check();
}

const textsOf = ({ texts }: PrintedPage, of: RegExp) => texts.filter(({ text }) => of.test(text));

describe("C31 labels tile the sheet, two beside each other and four below, and no page cuts one", () => {
  it.each(PAPERS)("trays on $paper", async ({ paper, widthMm, heightMm, labelMm }) => {
    await open("orders/party/labels", paper);
    await page.locator(".label").nth(18).waitFor();
    const pages = await printed(page);
    expect(pages).toHaveLength(3);
    const found: number[] = [];
    for (const one of pages) {
      expect(one.widthMm).toBeCloseTo(widthMm, 0);
      expect(one.heightMm).toBeCloseTo(heightMm, 0);
      const numbers = textsOf(one, /^\d+$/);
      const pickUps = textsOf(one, /^pick-up /);
      expect(numbers.length).toBe(Math.min(8, 19 - found.length));
      expect(pickUps).toHaveLength(numbers.length);
      for (const { text, leftMm, topMm } of numbers) {
        // The first and the last line of a label lie on one page, in one label's box.
        const column = leftMm < widthMm / 2 ? 0 : 1;
        const row = Math.floor((topMm - MARGIN_MM) / labelMm);
        const last = pickUps.find(
          (pickUp) =>
            Math.abs(pickUp.leftMm - leftMm) < 5 && pickUp.topMm > topMm && pickUp.topMm < topMm + labelMm,
        );
        expect(Math.floor((last!.topMm - MARGIN_MM) / labelMm)).toBe(row);
        expect(found.length).toBe(pages.indexOf(one) * 8 + row * 2 + column);
        found.push(Number(text));
      }
    }
    expect(found).toEqual(Array.from({ length: 19 }, (_, k) => k + 1));
  });

  it.each(PAPERS)("boxes on $paper", async ({ paper, heightMm, labelMm }) => {
    await open("orders/party/labels", paper);
    await page.getByRole("radio", { name: "Boxes" }).check();
    await page.locator(".box-label").nth(9).waitFor();
    const pages = await printed(page);
    expect(pages.map((one) => textsOf(one, /^box \d+ of 10 · /).length)).toEqual([8, 2]);
    expect(pages.map((one) => textsOf(one, /^Packed /).length)).toEqual([8, 2]);
    for (const { texts } of pages)
      for (const { topMm } of texts) {
        expect(topMm).toBeGreaterThan(MARGIN_MM);
        expect(topMm).toBeLessThan(heightMm - MARGIN_MM);
        // No line lies on a cut.
        expect((topMm - MARGIN_MM) % labelMm).toBeGreaterThan(2);
      }
  });

  it.each(PAPERS)(
    "the longest texts there may be fit a label on $paper, in both languages",
    async ({ paper, widthMm, units }) => {
      await kitchen().send(lead, { type: "set-kitchen", settings: { units } });
      for (const language of ["en", "es"]) {
        await page.evaluate((chosen) => localStorage.setItem("traytide.language", chosen), language);
        await page.goto(`${phone.origin}/phone/#/orders/long/labels`);
        await page.reload();
        for (const kind of [0, 1]) {
          await page.setViewportSize(PHONE);
          await page.locator('input[type="radio"]').nth(kind).check();
          await page.getByLabel(paper === "A4" ? "A4" : /^(Letter|Carta)$/, { exact: true }).check();
          await page.locator(".label").first().waitFor();
          await page.setViewportSize({
            width: Math.round(((widthMm - 2 * MARGIN_MM) / 25.4) * 96),
            height: 1000,
          });
          await page.emulateMedia({ media: "print" });
          const over = await page.locator(".label").evaluateAll((labels) =>
            labels.map((label) => {
              const inner = label.getBoundingClientRect();
              const ends = [...label.querySelectorAll("*")].map((one) => one.getBoundingClientRect());
              // A name cut short hides what does not fit in its own box.
              const cut = [...label.querySelectorAll(".label-words > :not(.label-number)")].map(
                ({ scrollHeight, clientHeight }) => scrollHeight - clientHeight - 1,
              );
              return Math.max(
                ...cut,
                ...ends.map(({ bottom, right }) => Math.max(bottom - inner.bottom, right - inner.right)),
              );
            }),
          );
          await page.emulateMedia({ media: null });
          expect(over.length, `${language} ${kind}`).toBeGreaterThan(0);
          expect(Math.max(...over), `${language} ${kind}`).toBeLessThanOrEqual(0);
        }
      }
      await kitchen().send(lead, { type: "set-kitchen", settings: { units: "metric" } });
      await page.evaluate(() => localStorage.setItem("traytide.language", "en"));
      await page.setViewportSize(PHONE);
      await page.reload();
      await page.getByText("live", { exact: true }).waitFor();
    },
  );

  it.each(["icing", "kitchen/day", "kitchen/hand-over"])(
    "%s is one page of the paper chosen, black on white by night too",
    async (path) => {
      await open("print", "Letter");
      await page.evaluate(() => localStorage.setItem("traytide.theme", "night"));
      await goTo(page, path);
      await page.locator("main h1").waitFor();
      const pages = await printed(page);
      expect(pages).toHaveLength(1);
      expect(pages[0]?.widthMm).toBeCloseTo(215.9, 0);
      expect(textsOf(pages[0]!, /Tidepool Bakes/)).toHaveLength(1);
    },
  );
});

describe("C28 a label's code", () => {
  it("says the kitchen's address and the tray", async () => {
    await open("t/7/label");
    expect(await readCode(page.locator(".label-code"))).toBe(`${phone.origin}/t/7`);
    await open("print");
    await page.locator(".label").nth(19).waitFor();
    expect(await readCode(page.locator(".label-code").last())).toBe(`${phone.origin}/t/9999`);
  });

  it("C32 opens the tray on a phone that has joined, and leads one that has not through joining to it", async () => {
    await page.goto(`${phone.origin}/t/5`);
    await page.getByRole("heading", { name: "Tray 5" }).waitFor();
    const stranger = await kitchen().open("/t/9", { isPhone: true });
    await stranger.page.getByLabel("Your name").fill("Sol");
    await stranger.page.getByLabel("Join code").fill(JOIN_CODE);
    await stranger.page.getByRole("button", { name: "Join" }).tap();
    await stranger.page.getByRole("heading", { name: "Tray 9" }).waitFor();
    expect(new URL(stranger.page.url()).hash).toBe("#/t/9");
    expect(stranger.complaints).toEqual([]);
  });
});
