import type { Page } from "playwright";

/** What a page drew and heard, by its own frames. Times are the device's clock, ms since 1970. */
interface FrameWatch {
  frame: number;
  /** Things to see: the first frame that was drawn with each. */
  wanted: Map<string, { isThere: () => boolean; seen?: { frame: number; atMs: number } }>;
  heard: { frame: number; atMs: number; text: string }[];
  taps: { frame: number; atMs: number }[];
}
declare global {
  interface Window {
    frameWatch: FrameWatch;
  }
}

/** Loads the page anew with an eye on its frames, its socket and its taps. */
export async function watchFrames(page: Page): Promise<void> {
  await page.addInitScript(() => {
    const watch: FrameWatch = { frame: 0, wanted: new Map(), heard: [], taps: [] };
    window.frameWatch = watch;
    const now = (): { frame: number; atMs: number } => ({ frame: watch.frame, atMs: Date.now() });
    const onFrame = (): void => {
      watch.frame += 1;
      // What stands in the document before a frame is drawn is drawn with it.
      for (const one of watch.wanted.values()) if (one.seen === undefined && one.isThere()) one.seen = now();
      requestAnimationFrame(onFrame);
    };
    requestAnimationFrame(onFrame);
    window.WebSocket = class extends WebSocket {
      constructor(...given: ConstructorParameters<typeof WebSocket>) {
        super(...given);
        this.addEventListener("message", ({ data }) => {
          if (typeof data === "string") watch.heard.push({ ...now(), text: data });
        });
      }
    };
    addEventListener("click", () => void watch.taps.push(now()), { capture: true });
  });
  await page.reload();
}

/** From now on looks, at each frame, for an element with that text. */
export const lookFor = (page: Page, selector: string, text: string): Promise<void> =>
  page.evaluate(
    ([selector, text]) => {
      const isThere = (): boolean =>
        [...document.querySelectorAll(selector)].some((one) => one.textContent.includes(text));
      if (isThere()) throw new Error(`${selector} with ${text} is there already`);
      window.frameWatch.wanted.set(text, { isThere });
    },
    [selector, text] as const,
  );

/** When it was first drawn; waits for it. */
export async function drawn(page: Page, text: string): Promise<{ frame: number; atMs: number }> {
  const seen = await page.waitForFunction((text) => window.frameWatch.wanted.get(text)?.seen, text);
  return (await seen.jsonValue())!;
}

/** When the socket first brought a message that contains all of it. */
export const heardOf = (page: Page, ...parts: string[]): Promise<{ frame: number; atMs: number }> =>
  page.evaluate((parts) => {
    const found = window.frameWatch.heard.find(({ text }) => parts.every((part) => text.includes(part)));
    if (found === undefined) throw new Error(`nothing was heard of ${parts.join(", ")}`);
    return { frame: found.frame, atMs: found.atMs };
  }, parts);

export const lastTap = (page: Page): Promise<{ frame: number; atMs: number }> =>
  page.evaluate(() => window.frameWatch.taps.at(-1)!);
