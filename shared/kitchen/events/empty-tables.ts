import type { Kitchen } from "#shared/kitchen/model/state.ts";

/** What a kitchen holds before anything has happened, but for its settings, which need their schemas. */
export const EMPTY_TABLES: Omit<Kitchen, "settings"> = {
  isSetUp: false,
  people: {},
  places: {},
  tools: {},
  icings: {},
  designs: {},
  orders: {},
  trays: {},
  batches: {},
  readings: {},
  alerts: {},
  evidence: [],
  cautionsRead: {},
};
