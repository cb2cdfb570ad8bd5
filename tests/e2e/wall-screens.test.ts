import type { Page } from "playwright";
import { beforeAll, describe, expect, it } from "vitest";
import type { Change } from "#shared/protocol/change.ts";
import { LARGE_WALL, WALL } from "../support/browser.ts";
import { nameless } from "../support/browser-audit.ts";
import { type JoinedScreen, useKitchen } from "../support/browser-kitchen.ts";
import { cutOff, drawAnew, openMeter, overlaps, tooSmall, traysShown } from "../support/browser-wall.ts";

const kitchen = useKitchen("file");

const TRAYS = 300;
const MIN_MS = 60_000;
const TICKS = 2;
/** The least of so many: what else the machine does only ever adds. */
const SPELLS = 4;
/** A machine that is busy with something else takes its time over 300 trays. */
const PATIENCE_MS = 180_000;

/** Of a frame from the live socket: whether anything but time went by. An empty change comes every second. */
function tellsAnything(frame: string): boolean {
  const [, json] = /^\d+\/live,(\[.*)$/s.exec(frame) ?? [];
  if (json === undefined) return false;
  const [name, change] = JSON.parse(json) as [string, Partial<Change>];
  if (name !== "change") return true;
  return [change.events?.length ?? 0, change.forecasts, change.presence, change.unsaved].some(Boolean);
}

let wall: JoinedScreen;
let seat: { diagonalCm: number; farthestM: number };

/** Most trays on their way for up to ten hours, some not begun, a few in hand or under heat, one tool forgotten. */
beforeAll(async () => {
  const lead = await kitchen().setUp(TRAYS);
  const nowMs = Date.now();
  const acts = Array.from({ length: TRAYS }, (_, k) => k + 1).flatMap((number) => {
    const trayId = `t${number}`;
    if (number % 9 === 0) return [];
    if (number % 25 === 1) return [{ type: "start-flooding", trayId }];
    return [{ type: "flooded", trayId, atMs: nowMs - ((number * 97) % 600) * MIN_MS }];
  });
  // So many at once as one address may open connections.
  for (let k = 0; k < acts.length; k += 100)
    await Promise.all(acts.slice(k, k + 100).map((act) => kitchen().send(lead, act)));
  const tool = { id: "spare", name: "Spare hot air", kind: "hot-air", airC: 270, maxAirC: 350 };
  await kitchen().send(
    lead,
    { type: "enter-reading", reading: { placeId: "rack-a", tempC: 22.4, rhPct: 58, source: "typed" } },
    { type: "start-heat-set", trayId: "t2", toolId: "hot-1" },
    { type: "start-heat-set", trayId: "t4", toolId: "oven-1" },
    { type: "put-tool", tool: { ...tool, capS: 180, coolDownMin: 10, distanceCm: 14, nozzleMm: 25 } },
    { type: "tool-on", toolId: "spare", atMs: nowMs - 5 * MIN_MS },
  );
  wall = await kitchen().wall();
  await wall.page.locator(".alert").first().waitFor();
  await wall.page.locator(".pill").first().waitFor();
  await wall.page.locator('.pill[data-is="unknown"]').first().waitFor({ state: "detached" });
  const board = await kitchen().server().call("GET", "/api/board", { token: lead });
  seat = (board.json() as unknown as { kitchen: { settings: { wall: typeof seat } } }).kitchen.settings.wall;
});

/** Lets the page be for so long, by its own clock. */
const letBe = (page: Page, lengthMs: number): Promise<unknown> =>
  page.evaluate((lengthMs) => new Promise((resolve) => setTimeout(resolve, lengthMs)), lengthMs);

it(
  `a second's tick over ${TRAYS} trays costs the wall less than half of drawing it anew`,
  async () => {
    const { page } = wall;
    let heard = 0;
    page.on("websocket", (socket) =>
      socket.on("framereceived", ({ payload }) => {
        if (tellsAnything(String(payload))) heard += 1;
      }),
    );
    await page.reload();
    await page.locator(".pill").first().waitFor();
    const measureMs = await openMeter(page);

    /** The least a spell costs in which nothing happened in the kitchen, and so nothing but time went by on the wall. */
    const leastMs = async (spell: () => Promise<unknown>): Promise<number> => {
      const spellsMs: number[] = [];
      while (spellsMs.length < SPELLS) {
        const before = heard;
        const spellMs = await measureMs(spell);
        if (heard === before) spellsMs.push(spellMs);
      }
      return Math.min(...spellsMs);
    };
    const ticksMs = await leastMs(() => letBe(page, TICKS * 1000));
    const anewMs = (await leastMs(() => drawAnew(page, TICKS))) - ticksMs;
    expect(heard).toBeGreaterThan(0);
    expect(ticksMs).toBeGreaterThan(0);
    expect(ticksMs).toBeLessThan(anewMs / 2);
  },
  PATIENCE_MS,
);

describe.each([
  ["1920 × 1080", WALL],
  ["3840 × 2160", LARGE_WALL],
] as const)("at %s", (_, size) => {
  beforeAll(async () => {
    await wall.page.setViewportSize(size);
    // Type grows with the screen's short side, and the board is laid out for it.
    await wall.page.waitForFunction(
      (px) => Number.parseFloat(getComputedStyle(document.documentElement).fontSize) === px,
      (size.height / 1080) * 20,
    );
  });

  it("C5 tray numbers, acts and alarms are 20 arcminutes tall for the farthest reader, all else 16 at 2 m", async () => {
    // As time goes by, what no phone reaches of the heat-sets comes beside it.
    expect(await wall.page.locator(".alert .act").allTextContents()).toContain("Switch it off");
    expect(await tooSmall(wall.page, seat)).toEqual([]);
  });

  it("nothing reaches out of the window, and nothing to be read across the room is cut", async () => {
    expect(await cutOff(wall.page)).toEqual([]);
  });

  it("the air is told whole, with how sure it is, beside news that is long", async () => {
    const whole = await wall.page.evaluate(() => {
      // A copy of the top, so that what the wall shows is left alone.
      const top = document.querySelector<HTMLElement>(".top")!;
      const copy = top.cloneNode(true) as HTMLElement;
      copy.dataset["news"] = "true";
      const words = (tag: string, text: string): HTMLElement =>
        Object.assign(document.createElement(tag), { textContent: text });
      const air = words("p", "22.4 °C · 49 % RH Rack A · last read 13:02: times are wider");
      copy.querySelector(".air")!.replaceChildren(air);
      const head = words("p", "Hygrometer at Rack A silent since 13:02 · ".repeat(3));
      copy.querySelector(".change")!.replaceChildren(head, words("p", "Is it on, and in reach? ".repeat(5)));
      top.replaceWith(copy);
      const isWhole = ({ scrollWidth, clientWidth }: Element): boolean => scrollWidth <= clientWidth;
      const found = { air: isWhole(air), bar: isWhole(copy), inBar: copy.scrollHeight <= copy.clientHeight };
      copy.replaceWith(top);
      return found;
    });
    expect(whole).toEqual({ air: true, bar: true, inBar: true });
  });

  it("C6 pills do not overlap and stay in their lanes", async () => {
    expect(await overlaps(wall.page)).toEqual([]);
  });

  it(`C6 all ${TRAYS} trays are there, merged or counted where there is no room for each`, async () => {
    const { onTheirWay, ready, inWords } = await traysShown(wall.page);
    expect(onTheirWay).toBeGreaterThan(TRAYS / 2);
    expect(onTheirWay + ready + inWords).toBe(TRAYS);
  });
});

it("every control and picture of the wall has a name, and what is urgent is announced", async () => {
  expect(await nameless(wall.page)).toEqual([]);
  await wall.page.getByRole("alert").getByText("Switch it off").waitFor();
});

it("the wall breaks no content rule and throws nothing", () => {
  expect(wall.complaints).toEqual([]);
});
