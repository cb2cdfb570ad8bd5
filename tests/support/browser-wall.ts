import type { Page } from "playwright";
import type { Finding } from "./browser-audit.ts";

/** What is read across the room: tray numbers, acts and alarms. */
const ACROSS = ".tile .number, .tile .act, .alert .number, .alert .act, .alert .ran, .pill b";

interface Seat {
  diagonalCm: number;
  farthestM: number;
}

/**
 * Texts too small for who reads them: 20 arcminutes for the farthest reader across the room (ISO 9241-3), 16 at 2 m for all
 * else (NUREG-0700). Heights of capitals are measured in the font as the browser draws it.
 */
export const tooSmall = (page: Page, seat: Seat): Promise<Finding[]> =>
  page.evaluate(
    ([across, { diagonalCm, farthestM }]) => {
      const mPerPx = diagonalCm / 100 / Math.hypot(innerWidth, innerHeight);
      const pen = document.createElement("canvas").getContext("2d")!;
      const capPx = (one: Element): number => {
        const { fontStyle, fontWeight, fontSize, fontFamily } = getComputedStyle(one);
        // Large, since measures come in whole pixels.
        pen.font = `${fontStyle} ${fontWeight} 1000px ${fontFamily}`;
        return (pen.measureText("H").actualBoundingBoxAscent / 1000) * parseFloat(fontSize);
      };
      const arcmin = (heightM: number, distanceM: number): number =>
        (2 * Math.atan(heightM / 2 / distanceM) * 60 * 180) / Math.PI;
      const texts = document.createTreeWalker(document.body, NodeFilter.SHOW_TEXT);
      const findings: string[] = [];
      for (let text = texts.nextNode(); text !== null; text = texts.nextNode()) {
        const one = text.parentElement!;
        const words = text.textContent!.trim();
        if (words === "" || !one.checkVisibility({ visibilityProperty: true })) continue;
        const isAcross = one.closest(across) !== null;
        const seen = arcmin(capPx(one) * mPerPx, isAcross ? farthestM : 2);
        // A hundredth: sizes are rounded to a tenth of a pixel.
        if (seen < (isAcross ? 20 : 16) * 0.99)
          findings.push(`"${words}" is seen under ${seen.toFixed(1)} arcminutes`);
      }
      return findings;
    },
    [ACROSS, seat] as const,
  );

/** What reaches out of the window, scrolls it, or is cut off where it must be read. */
export const cutOff = (page: Page): Promise<Finding[]> =>
  page.evaluate((across) => {
    const { scrollWidth, scrollHeight } = document.documentElement;
    const scrolls = scrollWidth > innerWidth || scrollHeight > innerHeight;
    const shown = [...document.querySelectorAll<HTMLElement>(".wall *")].filter((one) =>
      one.checkVisibility({ visibilityProperty: true }),
    );
    const outside = shown.filter((one) => {
      const { left, right, top, bottom } = one.getBoundingClientRect();
      return left < -1 || top < -1 || right > innerWidth + 1 || bottom > innerHeight + 1;
    });
    const cut = shown.filter((one) => {
      if (!one.matches(`${across}, .order .spare`)) return false;
      const words = document.createRange();
      words.selectNodeContents(one);
      const text = words.getBoundingClientRect();
      const box = one.closest(".tile, .alert, .pill, .order")!.getBoundingClientRect();
      return text.left < box.left - 1 || text.right > box.right + 1 || one.scrollWidth > one.offsetWidth + 1;
    });
    const name = (one: HTMLElement): string => `${one.tagName} .${one.className} "${one.textContent}"`;
    return [
      ...(scrolls ? [`the page is ${scrollWidth} × ${scrollHeight}`] : []),
      ...outside.map((one) => `${name(one)} reaches out of the window`),
      ...cut.map((one) => `${name(one)} is cut off`),
    ];
  }, ACROSS);

/** Pills over one another, or out of their lane; once nothing moves. */
export const overlaps = (page: Page): Promise<Finding[]> =>
  page.evaluate(async () => {
    await Promise.allSettled(document.getAnimations().map(({ finished }) => finished));
    const findings: string[] = [];
    for (const lane of document.querySelectorAll(".lane")) {
      const bounds = lane.getBoundingClientRect();
      const pills = [...lane.querySelectorAll(".pill")].map((pill) => ({
        label: pill.textContent,
        box: pill.getBoundingClientRect(),
      }));
      for (const [k, a] of pills.entries()) {
        if (a.box.top < bounds.top - 1 || a.box.bottom > bounds.bottom + 1)
          findings.push(`${a.label} stands out of its lane`);
        for (const b of pills.slice(k + 1)) {
          const across = Math.min(a.box.right, b.box.right) - Math.max(a.box.left, b.box.left);
          const down = Math.min(a.box.bottom, b.box.bottom) - Math.max(a.box.top, b.box.top);
          if (across > 0.5 && down > 0.5)
            findings.push(`${a.label} and ${b.label} overlap by ${across} × ${down} px`);
        }
      }
    }
    return findings;
  });

/** How many trays the wall shows on their way, ready as tiles, and in words ("and 86 more", "33 to start"). */
export async function traysShown(
  page: Page,
): Promise<{ onTheirWay: number; ready: number; inWords: number }> {
  const labels = async (selector: string): Promise<string[]> => page.locator(selector).allTextContents();
  const sum = (counts: readonly number[]): number => counts.reduce((total, count) => total + count, 0);
  const more = (await labels(".hands > .more, .lane-name [data-left='true']")).flatMap(
    (words) => words.match(/\d+(?= more)|\d+(?= to start)/g) ?? [],
  );
  return {
    onTheirWay: sum((await labels(".lane .pill b")).map(countOf)),
    ready: sum((await labels(".tile .number")).map(countOf)),
    inWords: sum(more.map(Number)),
  };
}

/** Trays named by a label: "7", "27–30", "3, 5–6 +12". */
const countOf = (label: string): number =>
  label.split(/[,\s]+/).reduce((total, part) => {
    if (part.startsWith("+")) return total + Number(part);
    const [from = 0, to = from] = part.split("–").map(Number);
    return total + 1 + to - from;
  }, 0);

/** What a page itself does: its script, and the style and layout that follow. Not the browser's frames, which cost what they cost. */
const WORK = new Set(["ScriptDuration", "RecalcStyleDuration", "LayoutDuration"]);

/** Measures processor time of the page's own thread while something is done, ms. */
export async function openMeter(page: Page): Promise<(act: () => Promise<unknown>) => Promise<number>> {
  const session = await page.context().newCDPSession(page);
  await session.send("Performance.enable", { timeDomain: "threadTicks" });
  const soFarMs = async (): Promise<number> => {
    const { metrics } = await session.send("Performance.getMetrics");
    return metrics.reduce((sum, { name, value }) => (WORK.has(name) ? sum + value * 1000 : sum), 0);
  };
  return async (act) => {
    const before = await soFarMs();
    await act();
    return (await soFarMs()) - before;
  };
}

/**
 * Takes the board away and draws it anew, so many times, a second apart: style, layout and paint. As cold as a second's tick
 * finds the machine.
 */
export const drawAnew = (page: Page, times: number): Promise<void> =>
  page.evaluate(async (times) => {
    const board = document.querySelector<HTMLElement>(".wall")!;
    for (let k = 0; k < times; k += 1) {
      await new Promise((done) => setTimeout(done, 1000));
      for (const display of ["none", ""]) {
        board.style.display = display;
        // Drawn with the next frame; the one after comes when that is done.
        await new Promise((done) => requestAnimationFrame(() => requestAnimationFrame(done)));
      }
    }
  }, times);
