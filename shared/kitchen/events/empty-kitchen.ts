import { USUAL_SETTINGS } from "#shared/kitchen/model/settings.ts";
import type { Kitchen } from "#shared/kitchen/model/state.ts";
import { EMPTY_TABLES } from "./empty-tables.ts";

/** A kitchen in which nothing has happened. */
export const EMPTY_KITCHEN: Kitchen = {
  settings: USUAL_SETTINGS,
  ...EMPTY_TABLES,
};
