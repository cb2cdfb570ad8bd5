import type { Band, ReachedBand } from "#shared/drying/uncertainty/band.ts";
import type { Consistency, ToolKind } from "./vocabulary.ts";
import type { PersonId } from "#shared/ids.ts";
import { MIN_MS } from "#shared/time.ts";

/** A forecast has moved when it did by more than this share of the time it spoke of, and never by less than two minutes. */
const MOVED_SHARE = 0.1;
const MOVED_LEAST_MS = 2 * MIN_MS;
export const hasMoved = (byMs: number, spokenOfMs: number): boolean =>
  Math.abs(byMs) > Math.max(MOVED_LEAST_MS, MOVED_SHARE * spokenOfMs);

/** What the air behind a forecast rests on. */
export type AirBasis = "measured" | "last known" | "assumed";

export interface FilmForecast {
  skin: Band;
  dryThrough: Band;
  basis: AirBasis;
  /** What is believed of how it sets under each kind of heat, ln of the factor on the model's time; until it has skinned. */
  heatFactors?: Readonly<Partial<Record<ToolKind, { meanLn: number; sdLn: number }>>>;
}

/** Advice on a section that may sink, for the layer in hand or next. */
export interface SinkAdvice {
  risk: "some" | "most";
  setWithinMin: number;
  /** How many cookies to flood before heat-setting them. */
  floodBeforeSetting: number;
  /** The same for an oven, which sets them all at once; only where the kitchen has hot air too. */
  floodBeforeOven?: number;
}

export interface TrayForecast {
  /** When it can be packed. */
  finish: Band;
  /** For the layer in hand or next: spans if laid now where the tray stands. */
  next?: { layer: number; skin: Band; dryThrough: Band; sink?: SinkAdvice };
  /** Its next act by the day's plan. */
  plan?: PlannedNext;
}

/** When a tray's next act comes, and by when it must for its order. */
export interface PlannedNext {
  act: "flood" | "heat" | "pack";
  layer?: number;
  startMs: number;
  who?: PersonId;
  /** Begun later, its order would likely miss its pick-up. */
  startByMs?: number;
}

export interface OrderForecast {
  /** When all its trays can be packed. */
  finish: Band;
  /** When they are packed. */
  packed?: ReachedBand;
  /** Likely spare minutes before pick-up after packing; negative is short. */
  spareMin?: number;
  spareWorstMin?: number;
  /** How likely it is packed by its pick-up, 0 to 1. */
  chance?: number;
  hangsOn?: HangsOn;
  /** It is likely late only because the kitchen closes then. */
  closedAtMs?: number;
}

/** What most often ends last of an order: its trays' numbers, and what their time goes into. */
export interface HangsOn {
  trays: readonly number[];
  because:
    | { is: "drying"; layer: number }
    /** The act itself takes longest, or it waits for someone free, or for a heat tool. */
    | { is: "work" | "hands" | "tool"; act: PlannedNext["act"]; layer?: number }
    | { is: "closed" };
}

/** What the air does in a place today, for a film of each consistency at its usual thickness. */
export interface PlaceForecast {
  placeId: string;
  air?: { tempC: number; rhPct: number; atMs: number; ageMin: number };
  basis: AirBasis;
  trouble?: "silent" | "frozen";
  /** The air is another place's, not by the lead's wish: this one's was never read, or not lately. */
  readAt?: string;
  films: readonly { consistency: Consistency; thicknessMm: number; skin: Band; dryThrough: Band }[];
}

/** The last time forecasts moved by more than a tenth. */
export interface AirChange {
  atMs: number;
  sinceMs: number;
  placeId: string;
  rhPctBy: number;
  later: number;
  sooner: number;
}

/** What the server works out beside the state, so that every screen shows the same numbers. */
export interface Forecasts {
  atMs: number;
  films: Readonly<Record<string, FilmForecast>>;
  trays: Readonly<Record<string, TrayForecast>>;
  orders: Readonly<Record<string, OrderForecast>>;
  places: Readonly<Record<string, PlaceForecast>>;
  change?: AirChange;
}

export const NO_FORECASTS: Forecasts = { atMs: 0, films: {}, trays: {}, orders: {}, places: {} };
