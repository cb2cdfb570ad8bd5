import type { Page } from "playwright";
import type { Finding } from "./browser-audit.ts";

/** Words that must be read whole: alerts, what is counted of them, tiles, tray numbers on pills, what is wrong across the top. */
const WHOLE = ".alert, .alerts .more, .tile, .pill b, .stale-line, .live p";
/** What must stand clear of each other. */
const BOXES =
  ".alert, .alerts .more, .tile, .hands > .more, .hands > .tools, .hands > .heading, .orders, .top";

/**
 * Words of alerts and tiles that are cut off by their box or by any ancestor that clips, that end in an ellipsis, that reach
 * out of the window, or that something else covers. Letters are taken from above a capital to below a descender.
 */
export const cutWords = (page: Page): Promise<Finding[]> =>
  page.evaluate(
    ([whole, boxes]) => {
      /** Of a line of text as the browser boxes it, the part that letters fill: this font's are 0.75 em over its baseline and 0.25 below. */
      const inkOf = (line: DOMRect, fontPx: number): DOMRect => {
        const middle = line.top + line.height / 2;
        return new DOMRect(line.left, middle - 0.42 * fontPx, line.width, 0.84 * fontPx);
      };
      const findings = new Set<string>();
      const walls = [...document.querySelectorAll<HTMLElement>(whole)];
      for (const root of walls) {
        const texts = document.createTreeWalker(root, NodeFilter.SHOW_TEXT);
        for (let text = texts.nextNode(); text !== null; text = texts.nextNode()) {
          const one = text.parentElement!;
          const words = text.textContent!.trim();
          if (words === "" || !one.checkVisibility({ visibilityProperty: true })) continue;
          const say = (what: string): void =>
            void findings.add(`"${words.slice(0, 60)}" (${one.className || one.tagName}) ${what}`);
          const range = document.createRange();
          range.selectNodeContents(text);
          const lines = [...range.getClientRects()]
            .filter(({ width }) => width > 0.5)
            .map((line) => inkOf(line, parseFloat(getComputedStyle(one).fontSize)));
          if (lines.length === 0) say("is not drawn");
          for (let box: HTMLElement | null = one; box !== null; box = box.parentElement) {
            const style = getComputedStyle(box);
            if (style.display !== "inline" && root.contains(box) && box.scrollWidth > box.clientWidth + 1)
              say(`is wider than ${box.className || box.tagName}: ${box.scrollWidth} in ${box.clientWidth}`);
            const clips = style.overflowX !== "visible" || style.contain.includes("paint");
            if (!clips) continue;
            if (root.contains(box) && box.scrollHeight > box.clientHeight + 1)
              say(
                `is higher than ${box.className || box.tagName}: ${box.scrollHeight} in ${box.clientHeight}`,
              );
            const edge = box.getBoundingClientRect();
            for (const line of lines)
              if (
                line.left < edge.left - 1 ||
                line.right > edge.right + 1 ||
                line.top < edge.top - 1 ||
                line.bottom > edge.bottom + 1
              )
                say(`is cut by ${box.className || box.tagName}`);
          }
          for (const line of lines) {
            if (line.left < 0 || line.top < 0 || line.right > innerWidth || line.bottom > innerHeight)
              say("reaches out of the window");
            for (const share of [0.02, 0.5, 0.98]) {
              const at = document.elementFromPoint(
                line.left + line.width * share,
                line.top + line.height / 2,
              );
              if (at !== null && at !== one && !one.contains(at) && !at.contains(one))
                say(`is covered by ${at.className || at.tagName}`);
            }
          }
        }
      }
      const parts = [...document.querySelectorAll<HTMLElement>(boxes)]
        .map((one) => ({ one, box: one.getBoundingClientRect() }))
        .filter(({ box }) => box.width > 0 && box.height > 0);
      for (const [k, a] of parts.entries()) {
        for (const b of parts.slice(k + 1)) {
          const across = Math.min(a.box.right, b.box.right) - Math.max(a.box.left, b.box.left);
          const down = Math.min(a.box.bottom, b.box.bottom) - Math.max(a.box.top, b.box.top);
          if (across > 1 && down > 1)
            findings.add(
              `${a.one.className} "${a.one.textContent.slice(0, 30)}" lies over ${b.one.className}`,
            );
        }
      }
      return [...findings];
    },
    [WHOLE, BOXES] as const,
  );
