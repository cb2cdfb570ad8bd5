import { needsOf } from "#shared/kitchen/tray/route.ts";
import type { Kitchen } from "#shared/kitchen/model/state.ts";
import type { Design } from "#shared/kitchen/model/vocabulary.ts";

/** ": waits for the skin of layer 1 (storm)"; nothing when it may be laid at once. */
export function waitWords(kitchen: Kitchen, design: Pick<Design, "layers">, layer: number): string {
  const waits = needsOf(design as Design, layer)
    .filter(({ need }) => need !== "wet")
    .map(({ layer, need }) => {
      const icing = kitchen.icings[design.layers[layer]?.icingId ?? ""]?.name;
      const which = `layer ${layer + 1}${icing === undefined ? "" : ` (${icing})`}`;
      return need === "skin" ? `the skin of ${which}` : `${which} to dry through`;
    });
  if (layer === 0) return "";
  return waits.length === 0 ? ": laid at once" : `: waits for ${waits.join(", ")}`;
}
