/** A heated room on a usual day, for a place where nothing was ever read. */
export const ASSUMED_AIR = { tempC: 22, rhPct: 45 };
