import type { Lane } from "./coming-in.ts";

/** How many rows a lane wants, and until when it keeps them although it would want fewer. */
export interface HeldNeed {
  rows: number;
  untilMs: number;
}
export type HeldNeeds = Readonly<Record<Lane, HeldNeed>>;

/** A lane keeps its rows this long after it last filled them, ms: lanes must not move to and fro. */
const HELD_FOR_MS = 10 * 60_000;

export const NO_NEEDS: HeldNeeds = {
  flooding: { rows: 0, untilMs: 0 },
  "heat-set": { rows: 0, untilMs: 0 },
  crusting: { rows: 0, untilMs: 0 },
  "full-dry": { rows: 0, untilMs: 0 },
};

/** What each lane wants by now: the most it has filled lately. */
export function holdNeeds(held: HeldNeeds, needs: Readonly<Record<Lane, number>>, nowMs: number): HeldNeeds {
  const hold = (lane: Lane): HeldNeed =>
    needs[lane] >= held[lane].rows || nowMs > held[lane].untilMs
      ? { rows: needs[lane], untilMs: nowMs + HELD_FOR_MS }
      : held[lane];
  return {
    flooding: hold("flooding"),
    "heat-set": hold("heat-set"),
    crusting: hold("crusting"),
    "full-dry": hold("full-dry"),
  };
}

/** By turns, heat before all else. */
const TURNS = ["heat-set", "flooding", "crusting", "full-dry"] as const;
/** Rows nobody wants, by turns. */
const SPARE_TURNS = ["full-dry", "crusting", "full-dry", "crusting", "flooding", "heat-set"] as const;

/** Shares out a wall's rows: one for each lane, then one by one to those that want more, then what is spare. */
export function allotRows(total: number, needs: HeldNeeds): Record<Lane, number> {
  const rows = { flooding: 1, "heat-set": 1, crusting: 1, "full-dry": 1 };
  let left = total - TURNS.length;
  for (let isMore = true; isMore && left > 0;) {
    isMore = false;
    for (const lane of TURNS) {
      if (left === 0 || rows[lane] >= needs[lane].rows) continue;
      rows[lane] += 1;
      left -= 1;
      isMore = true;
    }
  }
  for (let turn = 0; left > 0; turn += 1, left -= 1) rows[SPARE_TURNS[turn % SPARE_TURNS.length]!] += 1;
  return rows;
}
