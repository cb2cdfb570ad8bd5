import { LIMITS, MOST } from "#shared/limits.ts";
import { LONGEST_USE_MS, PUT_AWAY_AFTER_MS } from "#shared/kitchen/mixing/batches.ts";
import type { CommandOf } from "#shared/kitchen/model/command.ts";
import { no, yes, type Deciding, type Decision } from "./deciding.ts";

/** Icing that was mixed, with the kitchen's own use-by, and that is used up or thrown away. */
export function decideBatch(
  command: CommandOf<"record-batch" | "finish-batch">,
  { kitchen, stamp, nowMs }: Deciding,
): Decision {
  if (command.type === "finish-batch")
    return kitchen.batches[command.batchId] === undefined
      ? no("unknown", "That batch is used up, thrown away or put away already.")
      : yes({ type: "batch-finished", ...stamp, batchId: command.batchId });
  const { batch } = command;
  const { mixedAtMs, useByAtMs } = batch;
  if (kitchen.icings[batch.icingId] === undefined)
    return no("unknown", "batch.icingId must name one of the kitchen's icings.");
  if (kitchen.batches[batch.id] !== undefined) return no("taken", "That batch is recorded already.");
  // As far back as a batch may stand: one said to be used up by mistake can be recorded again.
  if (mixedAtMs > nowMs + LIMITS.futureMs || mixedAtMs < nowMs - LONGEST_USE_MS - PUT_AWAY_AFTER_MS)
    return no("out-of-range", "batch.mixedAtMs must lie within the last 15 days.");
  if (useByAtMs <= mixedAtMs || useByAtMs > mixedAtMs + LONGEST_USE_MS)
    return no("out-of-range", "batch.useByAtMs must lie after mixing, and at most 14 days after it.");
  if (Object.keys(kitchen.batches).length >= MOST.batches)
    return no(
      "no-room",
      `At most ${MOST.batches} batches of icing stand at once: say which are used up or thrown away.`,
    );
  return yes({ type: "batch-mixed", ...stamp, batch });
}
