import type { By } from "./event.ts";
import type { Kitchen } from "./state.ts";
import type { ToolKind } from "./vocabulary.ts";
import { HOUR_MS } from "#shared/time.ts";

/** A card read this long ago was read last shift. */
const SHIFT_MS = 8 * HOUR_MS;

/** Under which key the kitchen keeps when someone last read a tool kind's full card. */
export const cautionKey = (by: By, kind: ToolKind): string => `${by}/${kind}`;

/** Whether someone has read a tool kind's full card this shift: one line will do then. */
export function hasReadCaution(kitchen: Kitchen, personId: By, kind: ToolKind, nowMs: number): boolean {
  const readMs = kitchen.cautionsRead[cautionKey(personId, kind)];
  return readMs !== undefined && nowMs - readMs < SHIFT_MS;
}
