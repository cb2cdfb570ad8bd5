import { heatLimits } from "#shared/heat/set.ts";
import type { HeatLimitsFact } from "#shared/kitchen/model/event.ts";
import type { Forecasts } from "#shared/kitchen/model/forecast.ts";
import { filmKey } from "#shared/kitchen/model/lookups.ts";
import type { Kitchen, ToolState, Tray } from "#shared/kitchen/model/state.ts";
import { roomAir } from "#shared/kitchen/tray/place-readings.ts";
import { hottestRead } from "#shared/kitchen/tray/tool-heat.ts";
import { airOfFilm, filmSpecOf, heatToolOf } from "./air.ts";

/** The layer that heat would set now: the one in hand, else the last one laid; undefined where there is none. */
export const layerToSet = ({ status, films }: Tray): number | undefined =>
  status.stage === "flooding" ? status.layer : films.at(-1)?.layer;

/** What the heat model says of a tray's layer under a tool. RangeError where the tool's figures are out of range. */
export function heatLimitsOf(
  kitchen: Kitchen,
  forecasts: Forecasts,
  tray: Tray,
  tool: ToolState,
  layer: number,
  atMs: number,
): HeatLimitsFact {
  const design = kitchen.designs[tray.designId];
  if (design === undefined) throw new Error(`tray ${tray.id} has no design`);
  const film = tray.films.find((one) => one.layer === layer);
  const air = film === undefined ? undefined : airOfFilm(kitchen, tray, film, atMs);
  const dried =
    film === undefined || air === undefined
      ? {}
      : { driedForS: Math.max(0, (atMs - film.clockStartMs) / 1000), alreadyDried: air.spells };
  // Read hotter than it may be, it takes no tray.
  const readC = Math.min(hottestRead(kitchen, tool, atMs)?.tempC ?? Number.NEGATIVE_INFINITY, tool.maxAirC);
  const room = roomAir(kitchen);
  const spec = { ...filmSpecOf(kitchen, design, layer), roomC: air?.roomC ?? room.tempC };
  return heatLimits(spec, heatToolOf(kitchen, tool, readC), room, {
    ...dried,
    maxIcingC: kitchen.settings.icingLimitC,
    skinFactor: forecasts.films[filmKey(tray.id, layer)]?.heatFactors?.[tool.kind],
  });
}
