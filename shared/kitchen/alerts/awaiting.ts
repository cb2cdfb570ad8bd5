import { unreachable } from "#shared/outcome.ts";
import type { ActiveAlert } from "#shared/kitchen/model/alert.ts";
import {
  aliveTrays,
  type Film,
  filmKey,
  filmLayersOf,
  standsAt,
  type Tray,
} from "#shared/kitchen/model/state.ts";
import type { Scene } from "./scene.ts";

/**
 * Whether an alert that stands rests on a forecast that is not there (yet), as just after a start. It then stays, or it would
 * clear and be raised a second time.
 */
export function awaitsForecast({ kitchen, forecasts }: Scene, alert: ActiveAlert): boolean {
  const alive = aliveTrays(kitchen);
  const isUnknown = (tray: Tray, { layer }: Film): boolean =>
    forecasts.films[filmKey(tray.id, layer)] === undefined;
  switch (alert.kind) {
    case "pick-up-at-risk":
    case "waiting-long": {
      const orderId = alert.orderId ?? "";
      return forecasts.orders[orderId] === undefined && alive.some((tray) => tray.orderId === orderId);
    }
    case "bubbles-last-chance":
    case "will-sink": {
      const [, trayId = "", layer = ""] = alert.key.split(":");
      const tray = alive.find(({ id }) => id === trayId);
      const isDrying = tray !== undefined && filmLayersOf(tray).some((one) => String(one) === layer);
      return isDrying && forecasts.films[filmKey(tray.id, Number(layer))] === undefined;
    }
    case "will-not-dry-here":
      return alive.some(
        (tray) =>
          standsAt(tray).placeId === alert.placeId && tray.films.some((film) => isUnknown(tray, film)),
      );
    case "heat-running-long":
    case "heat-near-stop":
    case "heat-unwatched":
    case "set-check-by-touch":
    case "tool-left-on":
    case "oven-too-hot":
    case "air-changed":
    case "sensor-silent":
    case "order-short":
    case "icing-too-old":
      return false;
    default:
      return unreachable(alert.kind);
  }
}
