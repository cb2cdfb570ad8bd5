import type { Page } from "playwright";
import { beforeAll, describe, expect, it } from "vitest";
import { LARGE_WALL, type Size, WALL } from "../support/browser.ts";
import { type JoinedScreen, useKitchen } from "../support/browser-kitchen.ts";
import { JOIN_CODE } from "../support/server-app.ts";
import { cutWords } from "../support/browser-wall-words.ts";

const kitchen = useKitchen("file");

const MIN_MS = 60_000;
const HOUR_MS = 60 * MIN_MS;
const PORTRAIT = { width: 1080, height: 1920 } as const;
const DIAGONALS_IN = [24, 32, 43, 55, 65, 85];
const READERS_M = [2, 3, 6, 8, 12];

/** The longest names there may be: of short words, of long ones, and of a single one. */
const PLACE = "Rack behind the second door by the stair";
const WORD = "Sugarpaste-and-icing-drying-rack-number-";
const PERSON = "Wilhelmina Featherstonehaugh-Cholmondele";
const TOOL = "Hot-air tool with the wide nozzle, green";
const ICING = "Midsummer forget-me-not violet blue pale";
const ORDER = "The Harbourmaster's daughter's wedding breakfast, east wing 2";

let lead: string;
let wall: JoinedScreen;

/** The wall's size and reader that each page was last told. */
const heardSeats = new Map<Page, string>();

function listen(page: Page): void {
  page.on("websocket", (socket) =>
    socket.on("framereceived", ({ payload }) => {
      const [, seat] = /"wall":(\{[^}]+\})/.exec(String(payload)) ?? [];
      if (seat !== undefined) heardSeats.set(page, seat);
    }),
  );
}

/** Sets the wall's size and reader, and waits until the page has drawn itself for them. */
async function seat(page: Page, diagonalCm: number, farthestM: number): Promise<void> {
  await kitchen().send(lead, { type: "set-kitchen", settings: { wall: { diagonalCm, farthestM } } });
  await expect
    .poll(() => heardSeats.get(page), { interval: 5 })
    .toBe(JSON.stringify({ diagonalCm, farthestM }));
  await drawn(page);
}

/** What was heard is drawn with the frame after it. */
const drawn = (page: Page): Promise<unknown> =>
  page.evaluate(() => new Promise((done) => requestAnimationFrame(() => requestAnimationFrame(done))));

const design = (id: string, layers: number, consistency: string) => ({
  id,
  name: `${ORDER.slice(0, 50)} ${id}`,
  sizeMm: 90,
  layers: Array.from({ length: layers }, (_, k) => ({
    name: PLACE,
    consistency: k % 2 === 0 ? consistency : "outline",
    icingId: k % 2 === 0 ? "violet" : "word",
    thicknessMm: 1,
    narrowestMm: 40,
  })),
});
const place = (id: string, name: string) => ({ id, name, kind: "rack", airSpeedMs: 0.15, capacity: 400 });
const tool = (id: string, name: string) => ({
  id,
  name,
  kind: "hot-air",
  airC: 270,
  maxAirC: 350,
  distanceCm: 14,
  nozzleMm: 25,
  capS: 20,
  coolDownMin: 10,
});

/** A time zone in which it is late evening now: times have two digits of hours, and what is to come its day. */
function lateZone(): string {
  const aheadH = ((22 - new Date().getUTCHours() + 12) % 24) - 12;
  return `Etc/GMT${aheadH > 0 ? "-" : "+"}${Math.abs(aheadH)}`;
}

/** Trays ready, to be touched, to be packed, hot, to start, and two runs of neighbours; every name as long as it may be. */
beforeAll(async () => {
  lead = await kitchen().setUp(1);
  const nowMs = Date.now();
  const tray = (number: number, designId: string, placeId: string, slot: string) => ({
    id: `w${number}`,
    number,
    designId,
    orderId: "wedding",
    count: 199,
    placeId,
    slot,
  });
  await kitchen().send(
    lead,
    { type: "set-kitchen", settings: { timeZone: lateZone() } },
    { type: "put-place", place: place("long", PLACE) },
    { type: "put-place", place: place("word", WORD.replaceAll(/[^a-z]/gi, "m").padEnd(40, "m")) },
    { type: "put-tool", tool: tool("wide", TOOL) },
    { type: "put-tool", tool: tool("other", WORD.replaceAll("-", "w").slice(0, 40)) },
    { type: "put-icing", icing: { id: "violet", name: ICING, hex: "#f2d16b" } },
    { type: "put-icing", icing: { id: "word", name: "v".repeat(40), hex: "#3b4152" } },
    { type: "put-design", design: design("many", 12, "top-coat") },
    { type: "put-design", design: design("one", 1, "top-coat") },
    {
      type: "put-order",
      order: { id: "wedding", name: ORDER.slice(0, 60), pickUpAtMs: nowMs + 30 * HOUR_MS, cookies: 9000 },
    },
    {
      type: "add-trays",
      trays: [
        ...[8801, 8802, 8803, 8804].map((number) => tray(number, "many", "word", "slot 1234567")),
        ...[7001, 7002, 7003].map((number) => tray(number, "many", "long", "top shelf 12")),
        ...[6001, 6003, 6005, 6007].map((number) => tray(number, "one", "word", "top shelf 12")),
        ...[5001, 5003, 5005].map((number) => tray(number, "many", "long", String(number))),
      ],
    },
    ...[6001, 6003, 6005, 7001, 7002, 7003, 5001, 5003, 5005].map((number, k) => ({
      type: "flooded",
      trayId: `w${number}`,
      atMs: nowMs - (11 * 60 - k) * MIN_MS,
    })),
  );
  wall = await kitchen().wall();
  listen(wall.page);
  await wall.page.reload();
  await wall.page.locator(".tile").first().waitFor();
});

const URGENT = 5;

/** Five urgent matters at once, of the longest names: hot air left on three trays, an oven too hot with one in it, a tool left on. */
async function ring(): Promise<void> {
  const { token } = await kitchen().join(PERSON);
  const nowMs = Date.now();
  await kitchen().send(
    token,
    ...[
      ["w6007", "wide"],
      ["w8804", "hot-1"],
      ["w8803", "oven-1"],
    ].flatMap(([trayId, toolId]) => [
      { type: "flooded", trayId, atMs: nowMs - 20 * MIN_MS },
      { type: "start-heat-set", trayId, toolId, atMs: nowMs - 10 * MIN_MS },
    ]),
    { type: "tool-on", toolId: "other", atMs: nowMs - 9 * MIN_MS },
    { type: "enter-reading", reading: { placeId: "oven", tempC: 115, rhPct: 9, source: "typed" } },
  );
  while (urgentTold(await toldOn(wall.page)) < URGENT) await wall.page.waitForTimeout(50);
}

/** What the wall names: alerts with a box, those counted, tiles, and trays counted. */
const toldOn = (page: Page) =>
  page.evaluate(() => {
    const words = (selector: string): string => document.querySelector(selector)?.textContent ?? "";
    return {
      boxes: document.querySelectorAll('.alert[data-class="urgent"]').length,
      moreAlerts: Number(/(?:and|y) (\d+) (?:more|más)/.exec(words(".alerts .more"))?.[1] ?? 0),
      tiles: document.querySelectorAll(".tile").length,
      more: words(".hands > .more"),
    };
  });
const urgentTold = ({ boxes, moreAlerts }: Awaited<ReturnType<typeof toldOn>>): number => boxes + moreAlerts;

/** Numbers of trays without a tile are left out where they would take a second line. */
const overLine = (page: Page): Promise<string[]> =>
  page.evaluate(() => {
    const line = document.querySelector<HTMLElement>(".hands > .more")!;
    const linePx = parseFloat(getComputedStyle(line).lineHeight);
    return line.offsetHeight > 1.5 * linePx && / \+\d/.test(line.textContent)
      ? [`"${line.textContent}" takes more than a line`]
      : [];
  });

/** At every diagonal and reader's distance, in one page: what is cut, covered or not told, each with where that was. */
async function lookAround(
  page: Page,
  size: Size,
  urgent: number,
  readersM: readonly number[] = READERS_M,
): Promise<string[]> {
  await page.setViewportSize(size);
  const found: string[] = [];
  for (const inches of DIAGONALS_IN)
    for (const farthestM of readersM) {
      await seat(page, Math.round(inches * 254) / 100, farthestM);
      const told = await toldOn(page);
      const faults = [...(await cutWords(page)), ...(await overLine(page))];
      if (urgentTold(told) !== urgent || (urgent > 0 && told.boxes === 0))
        faults.push(`of ${urgent} alerts ${told.boxes} have a box and ${told.moreAlerts} are counted`);
      if (told.tiles === 0 && (urgent === 0 || told.more === "")) faults.push("no tray is ready");
      found.push(...faults.map((fault) => `${inches} in at ${farthestM} m: ${fault}`));
    }
  return found;
}

const SIZES = [
  ["1920 × 1080", WALL],
  ["3840 × 2160", LARGE_WALL],
  ["1080 × 1920", PORTRAIT],
] as const;

/** Every language; in US units a clock has twelve hours and longer times. */
const VOICES = [
  ["en", "metric"],
  ["en", "us"],
  ["es", "metric"],
  ["es", "us"],
] as const;

/** Shows the wall in a language and a kitchen's units. */
async function speak(page: Page, language: string, units: string): Promise<void> {
  await kitchen().send(lead, { type: "set-kitchen", settings: { units } });
  await page.evaluate((chosen) => localStorage.setItem("traytide.language", chosen), language);
  heardSeats.delete(page);
  await page.reload();
  await page.locator(`html[lang="${language}"] .clock`).waitFor();
  await page.locator(".tile, .alert").first().waitFor();
}

describe.each(VOICES)(
  "C18 in %s with %s units, on walls of 24 to 85 in read from 2 to 12 m",
  (language, units) => {
    beforeAll(() => speak(wall.page, language, units));

    it.each(SIZES)("at %s no word of a tile is cut or covered", async (_, size) => {
      expect(await lookAround(wall.page, size, 0)).toEqual([]);
    });
  },
);

describe("C18 with five urgent matters at once", () => {
  beforeAll(ring);

  describe.each(VOICES)("in %s with %s units", (language, units) => {
    beforeAll(() => speak(wall.page, language, units));

    it.each(SIZES)("at %s no word of an alert is cut or covered, and none is left out", async (_, size) => {
      expect(await lookAround(wall.page, size, URGENT)).toEqual([]);
    });
  });
});

it("C18 at a bench, where an alert has its button, neither is cut or covered", async () => {
  const { page } = await kitchen().open("/display/", { isPhone: false });
  listen(page);
  await page.getByLabel("Join code").fill(JOIN_CODE);
  await page.getByText("a bench").click();
  await page.getByRole("button", { name: "Show the board" }).click();
  await page.locator(".alert .open").first().waitFor();
  expect(await lookAround(page, WALL, URGENT, [2, 6, 12])).toEqual([]);
});

describe("C18 when nothing is heard from the server", () => {
  it.each([
    ["24 in at 2 m", 61, 2],
    ["43 in at 6 m", 109, 6],
  ] as const)(
    "what is said of it across the top of a wall of %s is whole",
    async (_, diagonalCm, farthestM) => {
      const { page, air } = wall;
      air.mend();
      await page.locator(".stale-line").waitFor({ state: "detached" });
      await seat(page, diagonalCm, farthestM);
      air.cut();
      await page.locator(".stale-line").waitFor();
      for (const size of [WALL, LARGE_WALL, PORTRAIT]) {
        await page.setViewportSize(size);
        await drawn(page);
        expect(await cutWords(page)).toEqual([]);
      }
    },
  );
});
