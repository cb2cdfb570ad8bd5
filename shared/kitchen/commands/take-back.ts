import type { CommandOf } from "#shared/kitchen/model/command.ts";
import { no, noRoomIn, yes, type Deciding, type Decision } from "./deciding.ts";
import type { TrayAct } from "#shared/kitchen/model/event.ts";
import { own } from "#shared/collections.ts";
import { aliveTrays, keepsRoom, roomLeft, standsAt } from "#shared/kitchen/model/lookups.ts";
import type { Kitchen, Tray, HistoryEntry } from "#shared/kitchen/model/state.ts";
import { cookieNumbers, replayActs } from "#shared/kitchen/tray/fold.ts";
import { canApply } from "#shared/kitchen/tray/can-apply.ts";
import { hotOnLeaving } from "#shared/kitchen/tray/tool-heat.ts";
import { unfitFor, unsafePlace } from "./tool-unfit.ts";
import type { Design } from "#shared/kitchen/model/vocabulary.ts";
import { actFact } from "#shared/kitchen/tray/act-facts.ts";
import type { UnfitFact } from "#shared/kitchen/model/refusal.ts";
import { MIN_MS } from "#shared/time.ts";

/** How long after a heat-set ended that ending may still be undone: later, its clock would run on from a cold tray. */
const REHEAT_MS = 2 * MIN_MS;

/**
 * As long as the toast offers it: a slip. Later the tray, or its cookie, has been in the heat, and its clock and alarm stand; nor does
 * the clock of a cookie that was set run on over the next one.
 */
const SLIP_MS = 20_000;

/** An act is marked as taken back, where what is left still makes sense. */
export function decideTakeBack(command: CommandOf<"take-back">, deciding: Deciding): Decision {
  const { kitchen, stamp, role, nowMs, atMs } = deciding;
  const tray = kitchen.trays[command.trayId];
  const design = kitchen.designs[tray?.designId ?? ""];
  if (tray === undefined || design === undefined)
    return no("unknown", { code: "no-such", thing: "tray", id: command.trayId });
  const entry = tray.history.find(({ act }) => act.actId === command.actId);
  if (entry === undefined) return no("unknown", { code: "no-such-act", tray: tray.number });
  if (entry.takenBack !== undefined) return no("taken", { code: "taken-back" });
  if (role !== "lead" && role !== "kitchen" && !isOwnAct(entry.act, deciding)) {
    const name = kitchen.people[entry.act.by]?.name;
    return no("not-allowed", { code: "not-yours", ...(name !== undefined && { name }) });
  }
  if (entry.act.type === "heat-set-ended" && nowMs - entry.act.atMs > REHEAT_MS)
    return no("too-late", { code: "heat-ended-long-ago", minutes: REHEAT_MS / MIN_MS });
  const isLongAgo = atMs - entry.act.atMs > SLIP_MS;
  const isStart = entry.act.type === "heat-set-started" || entry.act.type === "cookie-heat-started";
  if (isStart && isLongAgo)
    return no("too-late", {
      code: "heat-started-long-ago",
      seconds: SLIP_MS / 1000,
      isRunning: isHeatRunning(tray, entry.act),
    });
  if (entry.act.type === "cookie-set" && tray.status.stage === "heat-set" && isLongAgo)
    return no("too-late", { code: "cookie-set-long-ago", seconds: SLIP_MS / 1000 });
  const cold =
    entry.act.type === "heat-set-ended" ? coldSince(kitchen, tray, entry.act.atMs, nowMs) : undefined;
  if (cold !== undefined) return no("too-late", { code: "tool-cold", unfit: cold });
  const kept = keptActs(tray, command.actId);
  const stuck = firstUnfit(tray, design, kept);
  if (stuck !== undefined)
    return no("wrong-stage", {
      code: "take-back-first",
      act: actFact(kitchen, design, stuck, cookieNumbers(tray, design).get(stuck.actId)),
      atMs: stuck.atMs,
    });
  const after = replayActs(tray, kept, design);
  const owner = typeof after.assignedTo === "string" ? own(kitchen.people, after.assignedTo) : undefined;
  if (owner?.leftAtMs !== undefined)
    return no("unknown", { code: "owner-left", name: owner.name, tray: tray.number });
  const isMoved = standsAt(after).placeId !== standsAt(tray).placeId;
  const hotUntilMs = isMoved ? hotOnLeaving(kitchen, tray, atMs) : undefined;
  return (
    noWayBack(kitchen, tray, after, nowMs) ??
    yes({
      type: "act-taken-back",
      ...stamp,
      trayId: tray.id,
      takenBackId: command.actId,
      ...(hotUntilMs === undefined ? {} : { hotUntilMs }),
    })
  );
}

/** Of what began a heat, or a cookie's heat: whether its clock runs. */
const isHeatRunning = ({ status }: Tray, { type, actId }: TrayAct): boolean =>
  status.stage === "heat-set" &&
  (type === "cookie-heat-started" ? status.heat.pausedSinceMs === undefined : status.heat.actId === actId);

/** Done by the same device, or by the same person from a device of theirs. A name that was merely typed proves nothing. */
const isOwnAct = (act: TrayAct, { by, deviceId, isOwnDevice = true }: Deciding): boolean =>
  act.by === by && (isOwnDevice || deviceId === undefined || act.deviceId === deviceId);

/** What a tray would have behind it without one act. */
const keptActs = (tray: Tray, takenBackId: string): HistoryEntry[] =>
  tray.history.filter((entry) => entry.takenBack === undefined && entry.act.actId !== takenBackId);

/**
 * Why a tray cannot stand where it stood before an act: the place is gone, was filled since, or would warm it unsafely. What
 * is packed stands nowhere, and may have given up its number and outlived its order.
 */
function noWayBack(kitchen: Kitchen, tray: Tray, after: Tray, nowMs: number): Decision | undefined {
  if (after.status.stage === "packed") return undefined;
  const { placeId } = standsAt(after);
  if (tray.status.stage === "packed") {
    if (kitchen.orders[tray.orderId] === undefined)
      return no("unknown", { code: "order-gone", tray: tray.number });
    if (aliveTrays(kitchen).some(({ number }) => number === tray.number))
      return no("taken", { code: "number-taken", tray: tray.number });
  } else if (keepsRoom(tray, placeId)) return undefined;
  const place = kitchen.places[placeId];
  if (place === undefined) return no("unknown", { code: "place-gone", tray: tray.number });
  if (roomLeft(kitchen, placeId) <= 0) return noRoomIn(place);
  return unsafePlace(kitchen, placeId, nowMs);
}

/** Why a heat-set that ended cannot run on: its clock would count, and alarm, over a tool that warms this tray no more. */
function coldSince(kitchen: Kitchen, tray: Tray, endedAtMs: number, nowMs: number): UnfitFact | undefined {
  const ended = tray.heats.findLast((heat) => heat.endedAtMs === endedAtMs);
  const tool = kitchen.tools[ended?.toolId ?? ""];
  if (ended === undefined || tool === undefined) return { why: "gone" };
  if (tool.kind !== ended.toolKind) return { why: "another kind", tool: tool.name };
  return unfitFor(kitchen, tool, tray, nowMs)?.fact;
}

/** The first standing act that would no longer fit if one were taken back. */
function firstUnfit(tray: Tray, design: Design, kept: readonly HistoryEntry[]): TrayAct | undefined {
  const at = kept.findIndex(
    ({ act }, index) => !canApply(replayActs(tray, kept.slice(0, index), design), act, design),
  );
  return kept[at]?.act;
}
