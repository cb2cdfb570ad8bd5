import { eachLane, type Lane, LANES } from "./coming-in.ts";
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

/**
 * Moves rows to lanes in which a tray finds none from lanes that can do without, as long as there are any: first from those
 * with most to spare, then the only row of an empty lane, which is not shown then. `leftOut`: how many trays of a lane find no
 * room in so many rows.
 */
export function giveRows(
  allotted: Readonly<Record<Lane, number>>,
  needs: HeldNeeds,
  leftOut: (lane: Lane, rows: number) => number,
): Record<Lane, number> {
  const rows = { ...allotted };
  const total = LANES.reduce((sum, lane) => sum + rows[lane], 0);
  const spare = (lane: Lane): number => (rows[lane] > 1 ? rows[lane] - needs[lane].rows : -Infinity);
  for (let moved = 0; moved < total; moved += 1) {
    const lacks = eachLane((lane) => leftOut(lane, rows[lane]));
    const [taker] = LANES.filter((lane) => lacks[lane] > 0).toSorted((a, b) => lacks[b] - lacks[a]);
    const [giver] = LANES.filter((lane) => lacks[lane] === 0 && rows[lane] > 0)
      .filter((lane) => leftOut(lane, rows[lane] - 1) === 0)
      .toSorted((a, b) => spare(b) - spare(a) || 0);
    if (taker === undefined || giver === undefined) break;
    rows[giver] -= 1;
    rows[taker] += 1;
  }
  return rows;
}
