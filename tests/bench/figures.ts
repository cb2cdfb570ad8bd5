/** One measured figure, and what it is measured against in the same run. */
export interface Figure {
  what: string;
  ms: number;
  yardstick: string;
  yardstickMs: number;
  /** What is asked for: less than this. */
  limitMs?: number;
}

/** One film, a board of 300 trays, the longest the event loop may be held at a time, one command decided, 600 findings learned from, a day's plan, a new one after a tap, and a phone four times as slow opened. */
export const ASKED_MS = {
  film: 1,
  board: 300,
  slice: 10,
  drawnTick: 10,
  decide: 1,
  learning: 100,
  plan: 300,
  replan: 1000,
  phone: 1000,
} as const;

/** A figure for programs. */
export const told = (figure: Figure): Figure & { ratio: number; isMet?: boolean } => ({
  ...figure,
  ratio: figure.ms / figure.yardstickMs,
  ...(figure.limitMs !== undefined && { isMet: figure.ms < figure.limitMs }),
});

/** A figure as a line for people. */
export function say(figure: Figure): string {
  const { what, ms, yardstick, yardstickMs, limitMs, ratio, isMet } = told(figure);
  const asked = limitMs === undefined ? "" : `under ${limitMs} ms: ${isMet === true ? "met" : "NOT met"}`;
  const measured = `${what.padEnd(66)} ${ms.toFixed(2).padStart(8)} ms  ${asked.padEnd(22)}`;
  return `${measured} ${ratio.toFixed(2).padStart(8)} × ${yardstick} (${yardstickMs.toFixed(2)} ms)`;
}
