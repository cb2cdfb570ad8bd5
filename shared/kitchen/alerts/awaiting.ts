import { own } from "#shared/collections.ts";
import { unreachable } from "#shared/outcome.ts";
import type { ActiveAlert } from "#shared/kitchen/model/alert.ts";
import { definitionOf } from "#shared/kitchen/model/alert-kinds.ts";
import { aliveTrays, filmKey, filmLayersOf, standsAt, traysOf } from "#shared/kitchen/model/lookups.ts";
import type { Tray } from "#shared/kitchen/model/state.ts";
import type { Scene } from "./scene.ts";

/**
 * Whether an active alert rests on a forecast that is not there (yet), as just after a start. It then stays, or it would
 * clear and be raised a second time.
 */
export function awaitsForecast({ kitchen, forecasts }: Scene, alert: ActiveAlert): boolean {
  const isAlive = (tray: Tray): boolean => tray.status.stage !== "packed";
  const isUnknown = (tray: Tray, layer: number): boolean =>
    forecasts.films[filmKey(tray.id, layer)] === undefined;
  const { forecastOf } = definitionOf(alert.kind);
  switch (forecastOf) {
    case undefined:
      return false;
    case "order": {
      const orderId = alert.orderId ?? "";
      return forecasts.orders[orderId] === undefined && traysOf(kitchen, orderId).some(isAlive);
    }
    case "film": {
      // In its key, which an alert of an old log has too.
      const layer = Number(alert.key.split(":")[2]);
      const tray = own(kitchen.trays, alert.trayId ?? "");
      if (tray === undefined || !isAlive(tray)) return false;
      return filmLayersOf(tray).includes(layer) && isUnknown(tray, layer);
    }
    case "place":
      return aliveTrays(kitchen).some(
        (tray) =>
          standsAt(tray).placeId === alert.placeId && tray.films.some(({ layer }) => isUnknown(tray, layer)),
      );
    default:
      return unreachable(forecastOf);
  }
}
