import { HOUR_MS } from "#shared/time.ts";

/** Limits at the edges: bytes of a body, and how far a tap's own time may lie from the kitchen's clock. */
export const LIMITS = {
  bodyBytes: 64 * 1024,
  photoBytes: 400 * 1024,
  pastMs: 12 * HOUR_MS,
  futureMs: 5_000,
} as const;

/** How much of everything a kitchen may hold; far above any real one. */
export const MOST = {
  people: 200,
  /** Devices that wait to be let in. */
  waiting: 20,
  places: 100,
  tools: 100,
  icings: 300,
  recipes: 100,
  batches: 200,
  /** Used up, kept for tracing. */
  usedBatches: 200,
  designs: 500,
  orders: 500,
  trays: 1000,
} as const;
