import type { Band, Forecasts } from "./forecast.ts";
import type { Pill } from "./pill-packing.ts";
import { readiness } from "./route.ts";
import { aliveTrays, filmKey, type HeatSet, type Kitchen, type Tray } from "./state.ts";

/** The lanes of the wall, each a stage, top to bottom. */
export const LANES = [
  { lane: "flooding", name: "Flooding", words: "needle while wet" },
  { lane: "heat-set", name: "Heat-set", words: "count up" },
  { lane: "crusting", name: "Crusting", words: "next layer waits" },
  { lane: "full-dry", name: "Full-dry", words: "then detail or pack" },
] as const;
export type Lane = (typeof LANES)[number]["lane"];

/** Trays on their way in one lane. */
export interface LaneView {
  pills: readonly Pill[];
  /** Where the air cannot dry them: numbers, and why. */
  never: { numbers: readonly number[]; why: string } | undefined;
  /** No forecast has come for them yet. */
  unknown: readonly number[];
}

/** What each lane holds. Trays that want hands are not in it: see ready-tiles.ts. */
export function comingIn(
  kitchen: Kitchen,
  forecasts: Forecasts,
  nowMs: number,
): Readonly<Record<Lane, LaneView>> {
  const lanes = {
    flooding: emptyLane(),
    "heat-set": emptyLane(),
    crusting: emptyLane(),
    "full-dry": emptyLane(),
  };
  for (const tray of aliveTrays(kitchen)) {
    const { stage } = tray.standing;
    if (stage === "queued" || stage === "packed") continue;
    const due = dueOf(kitchen, forecasts, tray, nowMs);
    if (due === "wants hands") continue;
    const lane = lanes[stage];
    if (due === undefined) lane.unknown.push(tray.number);
    else if ("never" in due) {
      lane.never ??= { numbers: [], why: due.never };
      lane.never.numbers.push(tray.number);
    } else lane.pills.push(pillOf(tray, due));
  }
  return lanes;
}

type Filling = { pills: Pill[]; never: { numbers: number[]; why: string } | undefined; unknown: number[] };
const emptyLane = (): Filling => ({ pills: [], never: undefined, unknown: [] });

function dueOf(
  kitchen: Kitchen,
  forecasts: Forecasts,
  tray: Tray,
  nowMs: number,
): Band | "wants hands" | undefined {
  const { standing } = tray;
  // Its clock counts from the first cookie: past its skin, bubbles are out of reach.
  if (standing.stage === "flooding") return forecasts.films[filmKey(tray.id, standing.layer)]?.skin;
  if (standing.stage === "heat-set") return setBand(standing.heat);
  const state = readiness(kitchen, forecasts, tray, nowMs);
  if (state.is === "coming") return state.band;
  if (state.is === "never") return { never: state.why };
  return state.is === "unknown" ? undefined : "wants hands";
}

/** When the heat has set it: check by touch from the earliest on. Spans of this kind are log-normal, so the middle is geometric. */
function setBand({ lapFromMs, limits }: HeatSet): Band {
  return {
    earliestMs: lapFromMs + limits.checkFromS * 1000,
    likelyMs: lapFromMs + Math.sqrt(limits.checkFromS * limits.checkToS) * 1000,
    latestMs: lapFromMs + limits.checkToS * 1000,
  };
}

function pillOf(tray: Tray, due: Exclude<Band, { never: string }>): Pill {
  const key = `${tray.id}/${pointOf(tray)}`;
  const heat = tray.standing.stage === "heat-set" ? tray.standing.heat : undefined;
  return {
    key,
    keys: [key],
    trayIds: [tray.id],
    numbers: [tray.number],
    label: String(tray.number),
    ...due,
    ...(heat === undefined
      ? { group: `${tray.designId}/${pointOf(tray)}` }
      : { countFromMs: heat.lapFromMs }),
  };
}

/** Where on its way a tray is: trays of one design at one point wait on the same thing. */
function pointOf({ standing, films }: Tray): string {
  const layer = standing.stage === "flooding" ? standing.layer : films.length;
  return `${standing.stage}/${layer}`;
}
