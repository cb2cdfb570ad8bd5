import type { AlertFact } from "#shared/kitchen/model/alert.ts";
import { kindWords, tooOld, tooOldWords } from "#shared/kitchen/mixing/batches.ts";
import { inHandOf } from "#shared/kitchen/model/state.ts";
import { sentence } from "#shared/words/wording.ts";
import { clip, peopleOf, type Scene, told } from "./scene.ts";

/**
 * Icing past its use-by, for whoever lays it: while a layer is in hand and all that stands mixed of its icing and
 * consistency is too old. A kitchen that records no batches is asked nothing.
 */
export function icingAlerts({ kitchen, nowMs }: Scene): AlertFact[] {
  return Object.values(kitchen.trays).flatMap((tray): AlertFact[] => {
    const now = inHandOf(tray);
    if (now === undefined) return [];
    const layer = kitchen.designs[tray.designId]?.layers[now.layer];
    const batch = layer && tooOld(kitchen, layer, nowMs);
    if (batch === undefined) return [];
    return [
      {
        key: `icing-too-old:${tray.id}:${now.layer}:${now.startedAtMs}:${batch.id}`,
        kind: "icing-too-old",
        class: "prompt",
        what: clip(`${sentence(kindWords(kitchen, batch))} past its use-by`),
        todo: clip(
          `Take fresh icing: ${tooOldWords(kitchen, batch, nowMs)}. Your kitchen's plan and local codes decide.`,
        ),
        told: told({ people: peopleOf(now.by) }),
        trayId: tray.id,
        trayNumber: tray.number,
      },
    ];
  });
}
