const STEPS: Readonly<Record<string, number | undefined>> = { ArrowDown: 1, ArrowUp: -1 };

/** Moves the focus along what fits `items` in a part of the page, at an arrow up or down that was pressed on one of them. */
export function alongItems(event: KeyboardEvent, part: Element | undefined, items: string): void {
  const by = STEPS[event.key];
  const from = event.target instanceof Element ? event.target.closest(items) : null;
  if (by === undefined || from === null || part === undefined) return;
  const all = [...part.querySelectorAll<HTMLElement>(items)];
  const next = all[all.indexOf(from as HTMLElement) + by];
  if (next === undefined) return;
  event.preventDefault();
  next.focus();
}
