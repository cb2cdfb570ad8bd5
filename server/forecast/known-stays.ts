import { staysOf } from "#shared/kitchen/model/lookups.ts";
import type { Tray } from "#shared/kitchen/model/state.ts";

/** Where trays had stood when they were last forecast: one moved to another slot of its place dries as it did. */
export interface KnownStays {
  see: (tray: Tray) => void;
  forget: (trayId: string) => void;
  /** Whether this tray has stood nowhere else since. */
  areKnown: (tray: Tray | undefined) => boolean;
}

export function makeKnownStays(): KnownStays {
  const known = new Map<string, string>();
  return {
    see: (tray) => void known.set(tray.id, textOf(tray)),
    forget: (trayId) => void known.delete(trayId),
    areKnown: (tray) => tray !== undefined && known.get(tray.id) === textOf(tray),
  };
}

const textOf = (tray: Tray): string =>
  staysOf(tray)
    .map(({ placeId, fromMs }) => `${placeId} ${fromMs}`)
    .join();
