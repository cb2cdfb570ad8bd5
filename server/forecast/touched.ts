import type { KitchenEvent } from "#shared/kitchen/model/event.ts";

type EventType = KitchenEvent["type"];

/**
 * What of the forecasts an event touches. "tray": this tray and the plan; "tray and learning": it may teach as well; "air": what goes
 * by these readings; "heat": what stands in the tool's place; "all": films or air anywhere.
 */
export type Touched = "nothing" | "plan" | "tray" | "tray and learning" | "air" | "heat" | "all";

/** One line an event: the compiler names what is missing. */
export const TOUCHED: Readonly<Record<EventType, Touched>> = {
  "settings-changed": "all",
  "place-put": "all",
  "place-removed": "all",
  "tool-put": "all",
  "tool-removed": "plan",
  "icing-put": "all",
  "icing-removed": "all",
  "design-put": "all",
  "design-revised": "all",
  "design-removed": "all",
  "recipe-put": "nothing",
  "recipe-removed": "nothing",
  "person-added": "plan",
  "role-changed": "plan",
  "hours-set": "plan",
  "person-removed": "plan",

  "order-put": "plan",
  "order-cancelled": "plan",
  "cookies-given": "plan",
  "tray-added": "tray",
  "tray-removed": "tray and learning",
  "trays-put-away": "plan",

  "tray-assigned": "tray",
  "flooding-started": "tray",
  flooded: "tray and learning",
  "touch-tested": "tray and learning",
  "tray-moved": "tray and learning",
  "heat-set-started": "tray and learning",
  "cookie-set": "tray and learning",
  "cookie-heat-started": "tray",
  "heat-set-ended": "tray and learning",
  "problem-reported": "tray and learning",
  packed: "tray and learning",
  "act-taken-back": "tray and learning",

  "tool-switched-on": "heat",
  "tool-switched-off": "heat",
  "tool-kept-on": "nothing",
  "tool-handed-over": "nothing",
  "tool-withdrawn": "plan",
  "tool-restored": "plan",
  "tool-temperature-read": "nothing",
  "reading-taken": "air",

  "batch-mixed": "nothing",
  "batch-finished": "nothing",
  "batch-judged": "nothing",
  "batches-put-away": "nothing",
  "note-left": "nothing",
  "device-joined": "nothing",
  "device-let-in": "nothing",
  "device-forgotten": "nothing",
  "caution-read": "nothing",
  "alert-raised": "nothing",
  "alert-changed": "nothing",
  "alert-acknowledged": "nothing",
  "alert-put-off": "nothing",
  "alert-cleared": "nothing",
};
