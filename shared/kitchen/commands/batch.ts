import { LIMITS, MOST } from "#shared/limits.ts";
import { LONGEST_USE_MS, PUT_AWAY_AFTER_MS } from "#shared/kitchen/mixing/batches.ts";
import type { CommandOf } from "#shared/kitchen/model/command.ts";
import { batchOf } from "#shared/kitchen/model/lookups.ts";
import { no, yes, type Deciding, type Decision } from "./deciding.ts";

/** Icing that was mixed, with the kitchen's own use-by, that is used up or thrown away, or that something was wrong with. */
export function decideBatch(
  command: CommandOf<"record-batch" | "finish-batch" | "judge-batch">,
  { kitchen, stamp, nowMs }: Deciding,
): Decision {
  if (command.type === "finish-batch")
    return kitchen.batches[command.batchId] === undefined
      ? no("unknown", { code: "batch-gone" })
      : yes({ type: "batch-finished", ...stamp, batchId: command.batchId });
  if (command.type === "judge-batch")
    return batchOf(kitchen, command.batchId) === undefined
      ? no("unknown", { code: "batch-gone" })
      : yes({ type: "batch-judged", ...stamp, batchId: command.batchId, wrong: command.wrong });
  const { batch } = command;
  const { mixedAtMs, useByAtMs } = batch;
  if (kitchen.icings[batch.icingId] === undefined)
    return no("unknown", { code: "must-name", field: "batch.icingId", thing: "icing" });
  if (kitchen.batches[batch.id] !== undefined) return no("taken", { code: "batch-recorded" });
  // As far back as a batch may stand: one said to be used up by mistake can be recorded again.
  if (mixedAtMs > nowMs + LIMITS.futureMs || mixedAtMs < nowMs - LONGEST_USE_MS - PUT_AWAY_AFTER_MS)
    return no("out-of-range", { code: "mixed-too-long-ago" });
  if (useByAtMs <= mixedAtMs || useByAtMs > mixedAtMs + LONGEST_USE_MS)
    return no("out-of-range", { code: "use-by-range" });
  if (Object.keys(kitchen.batches).length >= MOST.batches)
    return no("no-room", { code: "table-full", thing: "batch", most: MOST.batches });
  return yes({ type: "batch-mixed", ...stamp, batch });
}
