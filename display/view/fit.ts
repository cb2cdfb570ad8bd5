import { batch, createEffect, onCleanup } from "solid-js";
import type { Accessor } from "solid-js";
import { isAlike } from "#shared/client/screen/alike.ts";

/** The height that tiles may fill, px, once the browser has measured it, and how often it was too much. */
export interface TilesRoom {
  px: number | undefined;
  cuts: number;
}
export const UNMEASURED: TilesRoom = { px: undefined, cuts: 0 };
/** After so many cuts tiles do not grow. */
export const MOST_CUTS = 4;

/** How much of the hands' part is shown at most: what has no room is counted in words, and nothing is cut. */
export interface HandsLimit {
  alerts: number;
  tileRows: number;
  toolsLines: number;
  /** Size of secondary letters, in parts of the layout's: less than 1 only where the first alert alone is too high. */
  letters: number;
}
const ALL = Number.POSITIVE_INFINITY;
export const NO_LIMIT: HandsLimit = { alerts: ALL, tileRows: ALL, toolsLines: ALL, letters: 1 };

/** The hands' part as the browser has laid it out, px. */
export interface HandsRead {
  /** How much higher it is than its room; 0 or less where all of it fits. */
  overPx: number;
  roomPx: number;
  /** What is left for tiles beside all else that is shown. */
  tilesPx: number;
  alerts: readonly { px: number; isUrgent: boolean }[];
  tileRowsPx: readonly number[];
  tools: { lines: number; linePx: number };
}

/** Heat tools have so many lines if they need them, whatever else there is. */
const TOOLS_LINES = 2;
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
function readHands(part: HTMLElement): HandsRead {
  const hands = part.firstElementChild as HTMLElement;
  const all = (selector: string): HTMLElement[] => [...hands.querySelectorAll<HTMLElement>(selector)];
  const rows = new Map<number, number>();
  for (const { offsetTop, offsetHeight } of all(".tile"))
    rows.set(offsetTop, Math.max(offsetHeight, rows.get(offsetTop) ?? 0));
  const [tools] = all(".tools");
  const linePx = tools === undefined ? 0 : parseFloat(getComputedStyle(tools).lineHeight);
  return {
    overPx: hands.offsetHeight - part.clientHeight,
    roomPx: part.clientHeight,
    tilesPx: part.clientHeight - hands.offsetHeight + (all(".tiles")[0]?.offsetHeight ?? 0),
    alerts: all(".alert").map((alert) => ({
      px: alert.offsetHeight,
      isUrgent: alert.dataset["class"] === "urgent",
    })),
    tileRowsPx: [...rows.values()],
    tools: { lines: linePx > 0 ? Math.round(tools!.offsetHeight / linePx) : 0, linePx },
  };
}

/** Does `fit` when `element` is first laid out, before it is painted, and whenever its size changes, a font that came later among it. */
function onSize(element: Element, fit: () => void): void {
  if (typeof ResizeObserver === "undefined") return;
  const observer = new ResizeObserver(fit);
  observer.observe(element);
  onCleanup(() => observer.disconnect());
}

/** Tiles grow into the room that was measured, and into less of it where their words then need more than that. */
export function fitGrowth({ px, cuts }: TilesRoom, { overPx, tilesPx }: HandsRead): TilesRoom {
  if (px === undefined) return { px: tilesPx > 0 ? tilesPx : undefined, cuts };
  if (overPx <= ROUNDING_PX || cuts >= MOST_CUTS) return { px, cuts };
  return { px: px - overPx, cuts: cuts + 1 };
}

/**
 * Lowers the limit until the hands' part fits: after each change of what is shown, and when the browser finds that its height
 * changed: a wait that grew by a word. A second's tick changes no height, so nothing is measured for it.
 */
export function fitHands(
  part: HTMLElement,
  view: {
    limit: Accessor<HandsLimit>;
    setLimit: (limit: HandsLimit) => void;
    tilesRoom: Accessor<TilesRoom>;
    setTilesRoom: (room: TilesRoom) => void;
  },
): void {
  const fit = (): void => {
    const read = readHands(part);
    const [room, limit] = [fitGrowth(view.tilesRoom(), read), tighten(view.limit(), read)];
    // Tiles shrink before anything is left out.
    if (!isAlike(room, view.tilesRoom())) view.setTilesRoom(room);
    else if (!isAlike(limit, view.limit()))
      batch(() => {
        view.setLimit(limit);
        view.setTilesRoom(UNMEASURED);
      });
  };
  createEffect(fit);
  createEffect(() => onSize(part.firstElementChild!, fit));
}

/**
 * Says the first of `ways`, which grow ever shorter, that has room in so many lines, or else the last of them. Each that is tried
 * is laid out, so the search begins where the last one ended.
 */
export function fitText(line: HTMLElement, ways: Accessor<readonly string[]>, lines: number): void {
  let at = 0;
  const fit = (): void => {
    const all = [...new Set(ways())];
    const say = (k: number): void => {
      if (line.textContent !== all[k]) line.textContent = all[k] ?? "";
    };
    const hasRoom = (k: number): boolean => {
      say(k);
      return !(line.offsetHeight > (lines + 0.5) * parseFloat(getComputedStyle(line).lineHeight));
    };
    at = firstThat(hasRoom, all.length, at);
    say(at);
  };
  createEffect(fit);
  onSize(line, fit);
}

/** The first of `count` that `is`, sought up and down from `from`, where all after it are so as well; or else the last. */
export function firstThat(is: (k: number) => boolean, count: number, from: number): number {
  const last = Math.max(0, count - 1);
  let at = Math.min(from, last);
  if (is(at)) {
    while (at > 0 && is(at - 1)) at -= 1;
    return at;
  }
  do at += 1;
  while (at < last && !is(at));
  return Math.min(at, last);
}

/** Smaller than this part of its size the line of what is wrong cannot be: then it is as large as secondary words. */
const LEAST_LINE = 0.3;

/** What is wrong, said across the top, is as large as has room there. */
export function fitAlarmLine(line: HTMLElement): void {
  const isOver = (): boolean => {
    const [room, box] = [line.parentElement!.getBoundingClientRect(), line.getBoundingClientRect()];
    return box.top < room.top || box.bottom > room.bottom || line.scrollWidth > line.clientWidth;
  };
  onSize(line, () => {
    for (let size = 1; size >= LEAST_LINE; size -= 0.05) {
      line.style.setProperty("--line-fit", String(size));
      if (!isOver()) return;
    }
  });
}
