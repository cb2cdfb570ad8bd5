import { USUAL_SETTINGS } from "#shared/kitchen/model/settings.ts";
import type { Kitchen } from "#shared/kitchen/model/state.ts";

/** A kitchen in which nothing has happened. */
export const EMPTY_KITCHEN: Kitchen = {
  settings: USUAL_SETTINGS,
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
