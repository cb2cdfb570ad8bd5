import type { TileAct } from "#shared/kitchen/tray/ready.ts";
import { unreachable } from "#shared/outcome.ts";
import type { Words } from "#shared/words/words.ts";

/** "Flood layer 2", "Pack 12". */
export function actWords({ wall }: Words, act: TileAct): string {
  switch (act.kind) {
    case "lay":
      return wall.acts.lay(act.consistency, act.layer);
    case "pack":
      return wall.acts.pack(act.count);
    default:
      return unreachable(act);
  }
}
