import { LIMITS } from "#shared/limits.ts";
import { refused, unreachable } from "#shared/outcome.ts";
import { decideAir } from "./air.ts";
import { decideAlert } from "./alert.ts";
import { decideBatch } from "./batch.ts";
import { decideHeat } from "./heat.ts";
import { decideSetUp } from "./set-up.ts";
import { decideTool } from "./tool.ts";
import { decideTray } from "./tray.ts";
import type { DecideContext, Deciding, Decision } from "./deciding.ts";
import { KITCHEN_ONLY, type Command, type CommandType } from "#shared/kitchen/model/command.ts";
import { hasLeft } from "#shared/kitchen/model/people.ts";
import type { Refusal, RefusalFact } from "#shared/kitchen/model/refusal.ts";
import type { Kitchen } from "#shared/kitchen/model/state.ts";

export type { DecideContext, Decision } from "./deciding.ts";

/**
 * The single place where a command becomes events, or a refusal with a sentence. Throws only for bugs.
 * `atMs` may lie up to 5 s ahead of the kitchen's clock (then it counts as now) and 12 h back.
 */
export function decide(kitchen: Kitchen, command: Command, context: DecideContext): Decision {
  const atMs = Math.min(command.atMs ?? context.nowMs, context.nowMs);
  const barred =
    gone(kitchen, context) ?? mayNot(command.type, context.role) ?? badTime(command, context.nowMs);
  if (barred !== undefined) return refused(barred);
  const deciding: Deciding = {
    ...context,
    kitchen,
    atMs,
    stamp: {
      atMs,
      by: context.by,
      actId: command.commandId,
      ...(context.deviceId !== undefined && { deviceId: context.deviceId }),
    },
  };
  switch (command.type) {
    case "set-kitchen":
    case "add-person":
    case "set-role":
    case "remove-people":
    case "put-place":
    case "remove-place":
    case "put-tool":
    case "remove-tool":
    case "put-icing":
    case "remove-icing":
    case "put-design":
    case "remove-design":
    case "put-order":
    case "cancel-order":
    case "add-trays":
    case "remove-tray":
      return decideSetUp(command, deciding);
    case "assign-tray":
    case "start-flooding":
    case "flooded":
    case "touch-test":
    case "move-tray":
    case "report-problem":
    case "pack":
    case "take-back":
      return decideTray(command, deciding);
    case "start-heat-set":
    case "next-cookie":
    case "end-heat-set":
      return decideHeat(command, deciding);
    case "tool-on":
    case "tool-off":
    case "tool-still-in-use":
    case "hand-over-tool":
    case "tool-out-of-service":
    case "tool-back-in-service":
    case "read-tool-temperature":
      return decideTool(command, deciding);
    case "record-batch":
    case "finish-batch":
      return decideBatch(command, deciding);
    case "enter-reading":
    case "caution-read":
      return decideAir(command, deciding);
    case "acknowledge-alert":
    case "put-off-alert":
    case "tend-alerts":
    case "put-away":
      return decideAlert(command, deciding);
    default:
      return unreachable(command);
  }
}

const LEADS_ONLY: ReadonlySet<CommandType> = new Set([
  "set-kitchen",
  "set-role",
  "remove-people",
  "put-place",
  "remove-place",
  "put-tool",
  "remove-tool",
  "put-icing",
  "remove-icing",
  "put-design",
  "remove-design",
  "put-order",
  "cancel-order",
  "add-trays",
  "remove-tray",
  "tool-back-in-service",
]);

function mayNot(type: CommandType, role: DecideContext["role"]): Refusal | undefined {
  if (role === "kitchen") return undefined;
  const no = (fact: RefusalFact): Refusal => ({ reason: "not-allowed", fact });
  if (KITCHEN_ONLY.has(type)) return no({ code: "kitchen-only" });
  if (role === "sensor") return type === "enter-reading" ? undefined : no({ code: "sensor-only-reads" });
  if (role === "wall") return no({ code: "wall-only-shows" });
  if (role !== "lead" && LEADS_ONLY.has(type)) return no({ code: "leads-only" });
  return undefined;
}

/** A removed person's taps that were under way count no more. */
function gone(kitchen: Kitchen, { by, role }: DecideContext): Refusal | undefined {
  if (role === "kitchen" || !hasLeft(kitchen, by)) return undefined;
  return { reason: "not-allowed", fact: { code: "removed" } };
}

function badTime(command: Command, nowMs: number): Refusal | undefined {
  if (command.atMs === undefined) return undefined;
  if (command.atMs > nowMs + LIMITS.futureMs) return { reason: "bad-time", fact: { code: "in-future" } };
  if (command.atMs < nowMs - LIMITS.pastMs) return { reason: "bad-time", fact: { code: "too-far-back" } };
  return undefined;
}
