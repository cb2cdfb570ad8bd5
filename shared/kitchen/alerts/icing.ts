import { remembered } from "#shared/collections.ts";
import { type AlertFact, makeAlert } from "#shared/kitchen/model/alert.ts";
import { tooOld } from "#shared/kitchen/mixing/batches.ts";
import { inHandOf } from "#shared/kitchen/model/lookups.ts";
import type { Kitchen } from "#shared/kitchen/model/state.ts";
import { peopleOf, type Scene } from "./scene.ts";

const traysInHand = remembered((trays: Kitchen["trays"]) =>
  Object.values(trays).filter((tray) => inHandOf(tray) !== undefined),
);

/**
 * Icing past its use-by, for whoever lays it: while a layer is in hand and all that stands mixed of its icing and
 * consistency is too old. A kitchen that records no batches is asked nothing.
 */
export function icingAlerts({ kitchen, nowMs }: Scene): AlertFact[] {
  return traysInHand(kitchen.trays).flatMap((tray): AlertFact[] => {
    const now = inHandOf(tray);
    if (now === undefined) return [];
    const layer = kitchen.designs[tray.designId]?.layers[now.layer];
    const batch = layer && tooOld(kitchen, layer, nowMs);
    if (batch === undefined) return [];
    const { icingId, consistency, useByAtMs } = batch;
    const { startedAtMs } = now;
    return [
      makeAlert(
        "icing-too-old",
        { people: peopleOf(now.by) },
        {
          key: `icing-too-old:${tray.id}:${now.layer}:${startedAtMs}:${batch.id}`,
          trayId: tray.id,
          trayNumber: tray.number,
          icingId,
          consistency,
          useByAtMs,
          startedAtMs,
        },
      ),
    ];
  });
}
