/** One measured figure, and what it is measured against in the same run. */
export interface Figure {
  what: string;
  ms: number;
  yardstick: string;
  yardstickMs: number;
  /** What is asked for: less than this. */
  limitMs?: number;
  /** What is asked for: so many times the yardstick at most. */
  limitTimes?: number;
}

/**
 * One film, a board of 300 trays, the longest the event loop may be held at a time, one command decided, 600 findings learned from, a
 * day's plan, a new one after a tap, a phone four times as slow opened, and a start on 200,000 events without a snapshot.
 */
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
  start: 4000,
} as const;

/** A figure for programs. */
export const told = (figure: Figure): Figure & { ratio: number; isMet?: boolean } => ({
  ...figure,
  ratio: figure.ms / figure.yardstickMs,
  ...(figure.limitMs !== undefined && { isMet: figure.ms < figure.limitMs }),
  ...(figure.limitTimes !== undefined && {
    isMet: figure.ms <= figure.limitTimes * figure.yardstickMs,
  }),
});

/** A figure as a line for people. */
export function say(figure: Figure): string {
  const { what, ms, yardstick, yardstickMs, limitMs, limitTimes, ratio, isMet } = told(figure);
  const limit = limitMs === undefined ? `at most ${limitTimes} ×` : `under ${limitMs} ms`;
  const asked = isMet === undefined ? "" : `${limit}: ${isMet ? "met" : "NOT met"}`;
  const measured = `${what.padEnd(66)} ${ms.toFixed(2).padStart(8)} ms  ${asked.padEnd(22)}`;
  return `${measured} ${ratio.toFixed(2).padStart(8)} × ${yardstick} (${yardstickMs.toFixed(2)} ms)`;
}

/** How something grows with the trays, and what is asked of it: their number to this power at most. */
export interface GrowthFigure {
  what: string;
  exponent: number;
  limit: number;
}

export const sayGrowth = ({ what, exponent, limit }: GrowthFigure): string =>
  `${what} grows as its trays to the power ${exponent.toFixed(2)}, at most ${limit}: ${exponent <= limit ? "met" : "NOT met"}`;

/** Which of all that is asked for holds, and what does not. */
export function sayWhatHolds(figures: readonly Figure[], growths: readonly GrowthFigure[]): string {
  const asked = [
    ...figures.map(told).flatMap(({ what, isMet }) => (isMet === undefined ? [] : [{ what, isMet }])),
    ...growths.map(({ what, exponent, limit }) => ({ what: `${what}, growth`, isMet: exponent <= limit })),
  ];
  const over = asked.filter(({ isMet }) => !isMet).map(({ what }) => `  over: ${what.trim()}`);
  return [
    `Asked for: ${asked.length}, ok: ${asked.length - over.length}, over: ${over.length}`,
    ...over,
  ].join("\n");
}
