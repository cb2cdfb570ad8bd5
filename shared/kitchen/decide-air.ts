import type { CommandOf } from "./command.ts";
import { no, yes, type Deciding, type Decision } from "./deciding.ts";

/** Hygrometer lines, typed in or sent; and who has read which cautions. */
export function decideAir(
  command: CommandOf<"enter-reading" | "caution-read">,
  { kitchen, stamp }: Deciding,
): Decision {
  if (command.type === "caution-read")
    return yes({ type: "caution-read", ...stamp, toolKind: command.toolKind });
  if (kitchen.places[command.reading.placeId] === undefined)
    return no("unknown", `There is no place with the id ${command.reading.placeId}.`);
  return yes({ type: "reading-taken", ...stamp, reading: command.reading });
}
