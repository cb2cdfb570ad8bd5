import { formatBand, formatSpan } from "#shared/units.ts";
import type { Help } from "#shared/kitchen/advice/advice.ts";
import { spareAfterPacking } from "#shared/kitchen/plan/finish.ts";
import type { Band, ReachedBand } from "#shared/kitchen/model/forecast.ts";
import { spareWords } from "#shared/kitchen/orders/progress.ts";
import type { Kitchen } from "#shared/kitchen/model/state.ts";
import type { Order } from "#shared/kitchen/model/vocabulary.ts";
import { MIN_MS } from "#shared/time.ts";

/** One thing that would help, in words. */
export interface HelpWords {
  what: string;
  /** "2–4½ h sooner", earliest to latest. */
  gain: string;
  /** "pick-up met, 1–3 h spare". */
  pickUp: string;
  isMet: boolean;
}

/** `before` is the finish as things stand. */
export function helpWords(
  kitchen: Kitchen,
  order: Order,
  before: Band,
  help: Help,
  nowMs: number,
): HelpWords {
  const { finish } = help;
  const what = help.what.replaceAll(" %", "\u00A0%");
  if ("never" in finish) return { what, gain: "no gain", pickUp: "pick-up missed", isMet: false };
  const spare = (finishMs: number): number => spareAfterPacking(kitchen, order, finishMs, nowMs);
  const spareMin = spare(finish.likelyMs);
  const spareWorstMin = spare(finish.latestMs);
  const { words, is } = spareWords({ finish, spareMin, spareWorstMin });
  const isMet = is === "spare" || is === "may be short";
  return {
    what,
    gain: "never" in before ? "it dries at all" : gainWords(before, finish),
    pickUp: isMet
      ? is === "spare"
        ? `pick-up met, ${words}`
        : `pick-up likely met, at worst ${formatSpan(-spareWorstMin)} late`
      : `pick-up missed all the same, ${words}`,
    isMet,
  };
}

/** The least and the most of what is won at the earliest, the likeliest and the latest; the least may be a loss. */
function gainWords(before: ReachedBand, after: ReachedBand): string {
  const gains = (["earliestMs", "likelyMs", "latestMs"] as const).map((point) =>
    Math.round((before[point] - after[point]) / MIN_MS),
  );
  const [least, most] = [Math.min(...gains), Math.max(...gains)];
  return least < 0
    ? `up to ${formatSpan(most)} sooner, at worst ${formatSpan(-least)} later`
    : `${formatBand(least, most)} sooner`;
}

/** What to say where nothing the kitchen has wins five minutes or more. */
export const NOTHING_HELPS =
  "Nothing the kitchen has would make it sooner: no other place with room, no heat and no drier air wins five minutes.";
