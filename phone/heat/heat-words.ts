import type { ActiveAlert } from "#shared/kitchen/model/alert.ts";
import { definitionOf } from "#shared/kitchen/model/alert-kinds.ts";

/** Whether an alert tells of a tray that is under heat now. */
export const isOfHeat = ({ kind }: ActiveAlert): boolean => definitionOf(kind).isOfHeat === true;
