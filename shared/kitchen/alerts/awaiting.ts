import { unreachable } from "#shared/outcome.ts";
import type { ActiveAlert } from "#shared/kitchen/model/alert.ts";
import { definitionOf } from "#shared/kitchen/model/alert-kinds.ts";
import { aliveTrays, filmKey, filmLayersOf, standsAt } from "#shared/kitchen/model/lookups.ts";
import type { Tray } from "#shared/kitchen/model/state.ts";
import type { Scene } from "./scene.ts";

/**
 * Whether an active alert rests on a forecast that is not there (yet), as just after a start. It then stays, or it would
 * clear and be raised a second time.
 */
export function awaitsForecast({ kitchen, forecasts }: Scene, alert: ActiveAlert): boolean {
  const alive = aliveTrays(kitchen);
  const isUnknown = (tray: Tray, layer: number): boolean =>
    forecasts.films[filmKey(tray.id, layer)] === undefined;
  const { forecastOf } = definitionOf(alert.kind);
  switch (forecastOf) {
    case undefined:
      return false;
    case "order": {
      const orderId = alert.orderId ?? "";
      return forecasts.orders[orderId] === undefined && alive.some((tray) => tray.orderId === orderId);
    }
    case "film": {
      // In its key, which an alert of an old log has too.
      const layer = Number(alert.key.split(":")[2]);
      const tray = alive.find(({ id }) => id === alert.trayId);
      return tray !== undefined && filmLayersOf(tray).includes(layer) && isUnknown(tray, layer);
    }
    case "place":
      return alive.some(
        (tray) =>
          standsAt(tray).placeId === alert.placeId && tray.films.some(({ layer }) => isUnknown(tray, layer)),
      );
    default:
      return unreachable(forecastOf);
  }
}
