import type { ActiveAlert } from "#shared/kitchen/model/alert.ts";
import { definitionOf } from "#shared/kitchen/model/alert-kinds.ts";
import type { HeatLimitsFact } from "#shared/kitchen/model/event.ts";
import type { ToolKind } from "#shared/heat/tool.ts";
import { formatStopwatch } from "#shared/units.ts";

/** Whether an alert tells of a tray that is under heat now. */
export const isOfHeat = ({ kind }: ActiveAlert): boolean => definitionOf(kind).isOfHeat === true;

/** No finger goes into a hot chamber: what stands in one is taken out first. */
const isChamber = (kind: ToolKind): boolean => kind === "oven" || kind === "warm-cabinet";

/** "check touch 1:30–2:30"; of a chamber, "out with dry mitts, then touch 2:31–6:00"; in whole seconds as a clock shows them. */
export function touchWords(kind: ToolKind, { checkFromS, checkToS, stopByS }: HeatLimitsFact): string {
  const touch = isChamber(kind) ? "out with dry mitts, then touch" : "check touch";
  const [from, to] = [Math.floor(checkFromS), Math.floor(Math.min(checkToS, stopByS))];
  if (to < 1) return `likely set already: ${touch}${isChamber(kind) ? "" : " now"}`;
  if (from < 1) return `${touch} by ${formatStopwatch(to)}`;
  if (from === to) return `${touch} at ${formatStopwatch(to)}`;
  return `${touch} ${formatStopwatch(from)}–${formatStopwatch(to)}`;
}

/** "Stop by 2:40, when the whole room is told. Hard cap 3:00." The cap is said only where it is another figure. */
export function stopByWords({ stopByS, capS }: HeatLimitsFact, isHeard: boolean): string {
  const [stopBy, cap] = [formatStopwatch(stopByS), formatStopwatch(capS)];
  const then = isHeard ? ", when the whole room is told." : ": no connection, the room is not told.";
  return `Stop by ${stopBy}${then}${cap === stopBy ? "" : ` Hard cap ${cap}.`}`;
}
