/** Limits at the edges: bytes of a body, and how far a tap's own time may lie from the kitchen's clock. */
export const LIMITS = { bodyBytes: 64 * 1024, pastMs: 12 * 3_600_000, futureMs: 5_000 } as const;

/** How much of everything a kitchen may hold; far above any real one. */
export const MOST = {
  people: 200,
  places: 100,
  tools: 100,
  icings: 300,
  batches: 200,
  designs: 500,
  orders: 500,
  trays: 1000,
} as const;
