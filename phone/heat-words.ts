import { OF_HEAT, type StandingAlert } from "#shared/kitchen/alert.ts";
import type { HeatLimitsFact } from "#shared/kitchen/event.ts";
import type { ToolKind } from "#shared/heat/tool.ts";
import { formatStopwatch } from "#shared/units.ts";

/** Whether an alert tells of a tray that is under heat now. */
export const isOfHeat = ({ kind }: StandingAlert): boolean => OF_HEAT.has(kind);

/** No finger goes into a hot chamber: what stands in one is taken out first. */
const isChamber = (kind: ToolKind): boolean => kind === "oven" || kind === "warm-cabinet";

/** "check touch 1:30–2:30"; of a chamber, "out with dry mitts, then touch 2:31–6:00". */
export function touchWords(kind: ToolKind, { checkFromS, checkToS, stopByS }: HeatLimitsFact): string {
  const span = `${formatStopwatch(checkFromS)}–${formatStopwatch(Math.min(checkToS, stopByS))}`;
  return isChamber(kind) ? `out with dry mitts, then touch ${span}` : `check touch ${span}`;
}

/** "Stop by 2:40, when the whole room is told. Hard cap 3:00." The cap is said only where it is another figure. */
export function stopByWords({ stopByS, capS }: HeatLimitsFact, isHeard: boolean): string {
  const [stopBy, cap] = [formatStopwatch(stopByS), formatStopwatch(capS)];
  const then = isHeard ? ", when the whole room is told." : ": no connection, the room is not told.";
  return `Stop by ${stopBy}${then}${cap === stopBy ? "" : ` Hard cap ${cap}.`}`;
}
