import { eachLane, type Lane } from "./coming-in.ts";
import { MIN_MS } from "#shared/time.ts";

/** How many rows a lane wants, and until when it keeps them although it would want fewer. */
export interface HeldNeed {
  rows: number;
  untilMs: number;
}
export type HeldNeeds = Readonly<Record<Lane, HeldNeed>>;

/** A lane keeps its rows this long after it last filled them, ms: lanes must not move to and fro. */
const HELD_FOR_MS = 10 * MIN_MS;

export const NO_NEEDS: HeldNeeds = eachLane(() => ({ rows: 0, untilMs: 0 }));

/** What each lane wants by now: the most it has filled lately. */
export function holdNeeds(held: HeldNeeds, needs: Readonly<Record<Lane, number>>, nowMs: number): HeldNeeds {
  return eachLane((lane) =>
    needs[lane] >= held[lane].rows || nowMs > held[lane].untilMs
      ? { rows: needs[lane], untilMs: nowMs + HELD_FOR_MS }
      : held[lane],
  );
}

/** Pills under heat merge only once they are past stop-by: they get so many rows before all else. */
const HEAT_FIRST = 2;
/** Of lanes that lack equally many rows the one where more is at stake comes first. */
const ORDER = ["heat-set", "full-dry", "crusting", "flooding"] as const;
/** Rows nobody wants, by turns. */
const SPARE_TURNS = ["full-dry", "crusting", "full-dry", "crusting", "flooding", "heat-set"] as const;

/** Shares out a wall's rows: one for each lane, then each to the lane that lacks most, then what is spare. */
export function allotRows(total: number, needs: HeldNeeds): Record<Lane, number> {
  const rows = eachLane(() => 1);
  const lacks = (lane: Lane): number => needs[lane].rows - rows[lane];
  let left = total - ORDER.length;
  for (; left > 0; left -= 1) {
    const first = lacks("heat-set") > 0 && rows["heat-set"] < HEAT_FIRST ? "heat-set" : undefined;
    const lane = first ?? ORDER.toSorted((a, b) => lacks(b) - lacks(a))[0]!;
    if (lacks(lane) <= 0) break;
    rows[lane] += 1;
  }
  for (let turn = 0; turn < left; turn += 1) rows[SPARE_TURNS[turn % SPARE_TURNS.length]!] += 1;
  return rows;
}
