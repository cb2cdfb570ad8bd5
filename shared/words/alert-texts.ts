import type { AlertNames } from "#shared/kitchen/alerts/names.ts";
import type { AlertKind, FactOf } from "#shared/kitchen/model/alert.ts";

/** What an alert says. No part repeats another, nor whose and where it is: those are names. */
export interface AlertText {
  /** In a few words that are read across the room: "Stop the heat". */
  act: string;
  /** "Heat nearly at its limit". */
  what: string;
  todo: string;
}

/** One language's words for every kind. */
export type AlertTexts = {
  [Kind in AlertKind]: (fact: FactOf<Kind>, names: AlertNames) => AlertText;
};
