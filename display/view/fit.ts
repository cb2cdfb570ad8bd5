import { createEffect, onCleanup } from "solid-js";
import type { Accessor } from "solid-js";
import { TOOLS_LINES } from "#display/model/hands-room.ts";

/** How much of the hands' part is shown at most: what has no room is counted in words, and nothing is cut. */
export interface HandsLimit {
  alerts: number;
  tileRows: number;
  toolsLines: number;
  /** Size of secondary letters, in parts of the layout's: less than 1 only where the first alert alone is too high. */
  letters: number;
}
export const NO_LIMIT: HandsLimit = {
  alerts: Number.POSITIVE_INFINITY,
  tileRows: Number.POSITIVE_INFINITY,
  toolsLines: Number.POSITIVE_INFINITY,
  letters: 1,
};

/** The hands' part as the browser has laid it out, px. */
export interface HandsRead {
  /** How much higher it is than its room; 0 or less where all of it fits. */
  overPx: number;
  roomPx: number;
  alerts: readonly { px: number; isUrgent: boolean }[];
  tileRowsPx: readonly number[];
  tools: { lines: number; linePx: number };
}

/** Rounded heights may add up to this much more than their room. */
const ROUNDING_PX = 1;
const LEAST_LETTERS = 0.5;

/**
 * A limit under which what was read fits, or comes nearer to it. Words of heat tools beyond two lines go first, then tiles
 * but for one row, then alerts that are not urgent, then the last row of tiles, then urgent alerts but the first. Where all
 * that is not enough, letters that are read from nearby shrink: those read across the room never do.
 */
export function tighten(limit: HandsLimit, read: HandsRead): HandsLimit {
  if (read.overPx <= ROUNDING_PX) return limit;
  const urgent = read.alerts.filter(({ isUrgent }) => isUrgent).length;
  let leftPx = read.overPx;
  /** How many of `heightsPx`, of which the first `kept` stay, can be shown. */
  const take = (heightsPx: readonly number[], kept: number): number => {
    let count = heightsPx.length;
    for (; count > kept && leftPx > 0; count -= 1) leftPx -= heightsPx[count - 1]!;
    return count;
  };
  const alertsPx = read.alerts.map(({ px }) => px);
  const toolsLines = take(Array(read.tools.lines).fill(read.tools.linePx), TOOLS_LINES);
  const rows = take(read.tileRowsPx, 1);
  const alerts = take(alertsPx, Math.max(1, urgent));
  const tileRows = take(read.tileRowsPx.slice(0, rows), alerts > 0 ? 0 : 1);
  const shownAlerts = take(alertsPx.slice(0, alerts), 1);
  const isLast = shownAlerts === alertsPx.length && tileRows === read.tileRowsPx.length && leftPx > 0;
  // What went may have left room for more words of heat tools than two lines.
  const spareLines = leftPx < 0 ? Math.floor(-leftPx / read.tools.linePx) : 0;
  // Half the lines at half the height: words take room by the square of their size.
  const letters = isLast ? limit.letters * Math.sqrt(1 - leftPx / (read.roomPx + leftPx)) : limit.letters;
  return {
    alerts: Math.min(limit.alerts, shownAlerts),
    tileRows: Math.min(limit.tileRows, tileRows),
    toolsLines: Math.min(limit.toolsLines, read.tools.lines, toolsLines + spareLines),
    letters: Math.max(LEAST_LETTERS, letters),
  };
}

/** Reads the hands' part, which stands in `part`; nothing is written meanwhile, so that the browser lays it out once. */
export function readHands(part: HTMLElement): HandsRead {
  const hands = part.firstElementChild as HTMLElement;
  const all = (selector: string): HTMLElement[] => [...hands.querySelectorAll<HTMLElement>(selector)];
  const rows = new Map<number, number>();
  for (const tile of all(".tile"))
    rows.set(tile.offsetTop, Math.max(tile.offsetHeight, rows.get(tile.offsetTop) ?? 0));
  const [tools] = all(".tools");
  const linePx = tools === undefined ? 0 : parseFloat(getComputedStyle(tools).lineHeight);
  return {
    overPx: hands.offsetHeight - part.clientHeight,
    roomPx: part.clientHeight,
    alerts: all(".alert").map((alert) => ({
      px: alert.offsetHeight,
      isUrgent: alert.dataset["class"] === "urgent",
    })),
    tileRowsPx: [...rows.values()],
    tools: { lines: linePx > 0 ? Math.round(tools!.offsetHeight / linePx) : 0, linePx },
  };
}

/**
 * Lowers the limit until the hands' part fits: after each change of what is shown, before it is painted, and when the
 * browser finds that its height changed: a wait that grew by a word, or a font that came later. A second's tick changes no
 * height, so nothing is measured for it.
 */
export function fitHands(
  part: Accessor<HTMLElement | undefined>,
  limit: Accessor<HandsLimit>,
  setLimit: (limit: HandsLimit) => void,
): void {
  const fit = (element: HTMLElement): void => {
    const next = tighten(limit(), readHands(element));
    const now = limit();
    if (Object.keys(next).some((key) => next[key as keyof HandsLimit] !== now[key as keyof HandsLimit]))
      setLimit(next);
  };
  createEffect(() => {
    const element = part();
    if (element !== undefined) fit(element);
  });
  createEffect(() => {
    const element = part();
    if (element === undefined || typeof ResizeObserver === "undefined") return;
    const observer = new ResizeObserver(() => fit(element));
    observer.observe(element.firstElementChild!);
    onCleanup(() => observer.disconnect());
  });
}

/** Smaller than this part of its size the line of what is wrong cannot be: then it is as large as secondary words. */
const LEAST_LINE = 0.3;

/** What is wrong, said across the top, is as large as has room there: measured when its words or the top change. */
export function fitAlarmLine(top: HTMLElement): void {
  if (typeof ResizeObserver === "undefined") return;
  const isOver = (line: HTMLElement): boolean => {
    const [room, box] = [top.getBoundingClientRect(), line.getBoundingClientRect()];
    return box.top < room.top || box.bottom > room.bottom || line.scrollWidth > line.clientWidth;
  };
  const fit = (): void => {
    const line = top.querySelector<HTMLElement>(".stale-line");
    if (line === null) return;
    for (let size = 1; size >= LEAST_LINE; size -= 0.05) {
      line.style.setProperty("--line-fit", String(size));
      if (!isOver(line)) break;
    }
  };
  const words = new MutationObserver(fit);
  words.observe(top, { childList: true, characterData: true, subtree: true });
  const size = new ResizeObserver(fit);
  size.observe(top);
  onCleanup(() => {
    words.disconnect();
    size.disconnect();
  });
}
