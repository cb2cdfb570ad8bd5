import { insertReading } from "#shared/drying/air-record/insert-reading.ts";
import type { CommandOf } from "#shared/kitchen/model/command.ts";
import { no, yes, type Deciding, type Decision } from "./deciding.ts";
import type { Kitchen } from "#shared/kitchen/model/state.ts";

type Line = CommandOf<"enter-reading">["reading"];

/** Whether a place's readings already tell what a line of this moment would: a repeat, or one too close between two others. */
export function addsNothing(kitchen: Kitchen, { placeId, ...air }: Line, atMs: number): boolean {
  const before = kitchen.readings[placeId] ?? [];
  return insertReading(before, { ...air, atMs }) === before;
}

/** Hygrometer lines, typed in or sent; and who has read which cautions. */
export function decideAir(
  command: CommandOf<"enter-reading" | "caution-read">,
  { kitchen, atMs, stamp, role }: Deciding,
): Decision {
  if (command.type === "caution-read")
    return yes({ type: "caution-read", ...stamp, toolKind: command.toolKind });
  if (kitchen.places[command.reading.placeId] === undefined)
    return no("unknown", { code: "no-such", thing: "place", id: command.reading.placeId });
  const source = role === "sensor" ? "sensor" : "typed";
  if (role !== "kitchen" && command.reading.source !== source)
    return no("not-allowed", { code: "wrong-source", source, role });
  if (addsNothing(kitchen, command.reading, atMs)) return yes();
  return yes({ type: "reading-taken", ...stamp, reading: command.reading });
}
