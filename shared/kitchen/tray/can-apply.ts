import { unreachable } from "#shared/outcome.ts";
import type { KitchenEvent, TrayAct } from "#shared/kitchen/model/event.ts";
import type { Tray } from "#shared/kitchen/model/state.ts";
import type { Design } from "#shared/kitchen/model/vocabulary.ts";

/** The layer that comes next, or none: after the last one the tray dries through and is packed. */
export const nextLayerOf = (tray: Tray, design: Design): number | undefined =>
  tray.films.length < design.layers.length ? tray.films.length : undefined;

const TRAY_ACTS: Readonly<Record<TrayAct["type"], true>> = {
  "tray-assigned": true,
  "problem-reported": true,
  "flooding-started": true,
  flooded: true,
  "touch-tested": true,
  "tray-moved": true,
  "heat-set-started": true,
  "cookie-set": true,
  "cookie-heat-started": true,
  "heat-set-ended": true,
  packed: true,
};

/** Whether an event is an act on one tray. Apart from the events' schemas, which screens need not load for it. */
export const isTrayAct = (event: KitchenEvent): event is TrayAct => Object.hasOwn(TRAY_ACTS, event.type);

/** Whether an act makes sense for the tray as it stands. The one place that says which act may follow which. */
export function canApply(tray: Tray, act: TrayAct, design: Design): boolean {
  const { stage } = tray.status;
  const resting = stage === "queued" || stage === "crusting" || stage === "full-dry";
  switch (act.type) {
    case "tray-assigned":
      return stage !== "packed";
    case "problem-reported":
      return true;
    case "flooding-started":
      return resting && nextLayerOf(tray, design) === act.layer;
    case "flooded":
      return (
        nextLayerOf(tray, design) === act.layer &&
        (resting || stage === "flooding" || isLaidBeforeHeat(tray, act.atMs))
      );
    case "touch-tested":
      return stage !== "packed" && tray.films.some((film) => film.layer === act.layer);
    case "tray-moved":
      return stage !== "packed" && stage !== "heat-set";
    case "heat-set-started":
      return stage === "flooding"
        ? tray.status.layer === act.layer
        : resting && tray.films.length - 1 === act.layer;
    case "cookie-set":
      return (
        stage === "heat-set" &&
        tray.status.heat.toolKind === "hot-air" &&
        tray.status.heat.pausedSinceMs === undefined
      );
    case "cookie-heat-started":
      return stage === "heat-set" && tray.status.heat.pausedSinceMs !== undefined;
    case "heat-set-ended":
      return stage === "heat-set";
    case "packed":
      return stage === "full-dry" && nextLayerOf(tray, design) === undefined;
    default:
      return unreachable(act);
  }
}

/** Whether a layer in hand was laid by then, before hot air came over the tray: told late, as by a phone that was offline. */
export const isLaidBeforeHeat = (tray: Tray, atMs: number): boolean =>
  tray.status.stage === "heat-set" &&
  tray.status.heat.toolKind === "hot-air" &&
  tray.status.before.stage === "flooding" &&
  atMs >= tray.status.before.startedAtMs &&
  atMs <= tray.status.heat.startedAtMs;
