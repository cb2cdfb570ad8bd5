import type { Forecasts, PlaceForecast } from "#shared/kitchen/model/forecast.ts";
import type { Kitchen } from "#shared/kitchen/model/state.ts";

/**
 * What the air does in the kitchen's main rack: of the places whose air is read, racks before others, the one that holds
 * most. Undefined where no place has an outlook.
 */
export function mainOutlook(kitchen: Kitchen, forecasts: Forecasts): PlaceForecast | undefined {
  const rank = (outlook: PlaceForecast): number => {
    const place = kitchen.places[outlook.placeId];
    const kind = { rack: 3, "fan-rack": 2, bench: 1, "warm-cabinet": 0, oven: 0 }[place?.kind ?? "oven"];
    return (outlook.air === undefined ? 0 : 10_000) + kind * 1000 + (place?.capacity ?? 0);
  };
  return Object.values(forecasts.places).toSorted(
    (a, b) => rank(b) - rank(a) || (a.placeId < b.placeId ? -1 : 1),
  )[0];
}
