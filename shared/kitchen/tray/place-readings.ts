import { ASSUMED_AIR } from "#shared/drying/air-record/assumed-air.ts";
import { AIR_SPEED_MS } from "#shared/drying/film/constants.ts";
import type { AirReading, Kitchen } from "#shared/kitchen/model/state.ts";
import { HOUR_MS } from "#shared/time.ts";

/** Lines that ended this long before the room's newest are given up for those. */
const GIVEN_UP_MS = 3 * HOUR_MS;

/**
 * The place whose hygrometer a place goes by: itself, else the one it borrows from, else the unheated one read last; that too
 * where they ended 3 h before it. What was read in a heated place itself is kept to: the room's air is not its own.
 */
export function readAt(kitchen: Kitchen, placeId: string): string | undefined {
  const place = kitchen.places[placeId];
  const room = roomReadAt(kitchen);
  if (place?.setTempC !== undefined && lastReadMs(kitchen, placeId) > 0) return placeId;
  const fromMs = Math.max(1, lastReadMs(kitchen, room) - GIVEN_UP_MS);
  return [placeId, place?.airFrom].find((id) => lastReadMs(kitchen, id) >= fromMs) ?? room;
}

const lastReadMs = ({ readings }: Kitchen, placeId: string | undefined): number =>
  readings[placeId ?? ""]?.at(-1)?.atMs ?? 0;

function roomReadAt(kitchen: Kitchen): string | undefined {
  let latest: string | undefined;
  for (const placeId of Object.keys(kitchen.readings)) {
    if (kitchen.places[placeId]?.setTempC !== undefined) continue;
    if (lastReadMs(kitchen, placeId) > lastReadMs(kitchen, latest)) latest = placeId;
  }
  return latest;
}

const NO_READINGS: readonly AirReading[] = [];

/** The hygrometer lines a place goes by. */
export const readingsAt = (kitchen: Kitchen, placeId: string): readonly AirReading[] =>
  kitchen.readings[readAt(kitchen, placeId) ?? ""] ?? NO_READINGS;

/** Those the room goes by: of the unheated place read last. */
export const roomReadings = (kitchen: Kitchen): readonly AirReading[] =>
  kitchen.readings[roomReadAt(kitchen) ?? ""] ?? NO_READINGS;

/** The room's air as last known, for heat tools and a place that was never read. */
export function roomAir(kitchen: Kitchen): { tempC: number; rhPct: number; speedMs: number } {
  const { tempC, rhPct } = roomReadings(kitchen).at(-1) ?? ASSUMED_AIR;
  return { tempC, rhPct, speedMs: AIR_SPEED_MS.still };
}
