import { listen } from "#shared/client/screen/browser.ts";

/** Room left around an act that is brought back into sight, px. */
const GAP_PX = 8;
/** A window this low, in lines of its own text, has no room for tabs that stay. */
const SHORT_REM = 26;
/** What a hand does next on a page; a form's own button is where its hand left it. */
const ACT = "main .act:not(form .act)";

/**
 * Watches the scrolling part of the phone, which shrinks as alerts and the toast come and grows as they go. What is read stays
 * where it is once the page is scrolled; an act that was wholly in sight stays so, and so does the one that comes after a tap
 * on it, until a finger comes down again. Calls `onSize` with whether the window is short for its text. Returns what ends it.
 */
export function watchPage(page: HTMLElement, onSize: (isShort: boolean) => void): () => void {
  const view = page.ownerDocument.defaultView;
  if (view === null || !("ResizeObserver" in view)) return () => undefined;
  let before = page.getBoundingClientRect();
  let isHeld = false;
  function onResize(): void {
    const now = page.getBoundingClientRect();
    const scrolledPx = page.scrollTop;
    const downPx = now.top - before.top;
    if (scrolledPx > 0) page.scrollTop += downPx;
    const movedPx = downPx - (page.scrollTop - scrolledPx);
    const act = page.querySelector(ACT);
    if (act !== null && (isHeld || isWithin(act.getBoundingClientRect(), before, movedPx)))
      bringIntoSight(page, act);
    before = now;
    onSize(isShort());
  }
  const { documentElement } = page.ownerDocument;
  const isShort = (): boolean =>
    documentElement.clientHeight < SHORT_REM * Number.parseFloat(getComputedStyle(documentElement).fontSize);
  const observer = new ResizeObserver(onResize);
  observer.observe(page);
  onSize(isShort());
  const stopClicks = listen(page, ["click"], onClick, { capture: true });
  const stopFingers = listen(page, ["pointerdown", "wheel"], () => void (isHeld = false), { passive: true });
  function onClick(event: Event): void {
    const act = event.target instanceof Element ? event.target.closest(ACT) : null;
    const main = act?.closest("main");
    isHeld = main !== null && main !== undefined;
    // What is above the act may grow by what it did.
    if (main) observer.observe(main);
  }
  return () => {
    observer.disconnect();
    stopClicks();
    stopFingers();
  };
}

/** Whether a box, before it moved down, lay wholly in a frame. */
const isWithin = (box: DOMRect, frame: DOMRect, movedPx: number): boolean =>
  box.top - movedPx >= frame.top - 1 && box.bottom - movedPx <= frame.bottom + 1;

function bringIntoSight(page: HTMLElement, act: Element): void {
  const [frame, box] = [page.getBoundingClientRect(), act.getBoundingClientRect()];
  if (box.top < frame.top) page.scrollTop += box.top - frame.top - GAP_PX;
  else if (box.bottom > frame.bottom)
    page.scrollTop += Math.min(box.bottom - frame.bottom + GAP_PX, box.top - frame.top);
}
