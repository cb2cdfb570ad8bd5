import { unreachable } from "#shared/outcome.ts";
import type { CommandOf } from "#shared/kitchen/model/command.ts";
import { no, noRoomIn, yes, type Deciding, type Decision } from "./deciding.ts";
import type { TrayAct } from "#shared/kitchen/model/event.ts";
import { own } from "#shared/kitchen/model/own.ts";
import {
  aliveTrays,
  keepsRoom,
  roomLeft,
  standsAt,
  type Kitchen,
  type Tray,
  type HistoryEntry,
} from "#shared/kitchen/model/state.ts";
import { cookieNumbers, canApply, replayActs } from "#shared/kitchen/tray/fold.ts";
import { hotOnLeaving } from "#shared/kitchen/tray/tool-heat.ts";
import { unfitFor, unsafePlace } from "./tool-unfit.ts";
import type { Consistency, Design } from "#shared/kitchen/model/vocabulary.ts";
import { clockTime, cookies, layerName } from "#shared/words/wording.ts";
import { MIN_MS } from "#shared/time.ts";

/** How long after a heat-set ended that ending may still be undone: later, its clock would run on from a cold tray. */
const REHEAT_MS = 2 * MIN_MS;

/** As long as the toast offers it: a slip. Later the tray has been in the heat, and its clock and alarm stand. */
const START_BACK_MS = 20_000;

/** An act is marked as taken back, where what is left still makes sense. */
export function decideTakeBack(
  command: CommandOf<"take-back">,
  tray: Tray,
  design: Design,
  deciding: Deciding,
): Decision {
  const { kitchen, stamp, role, nowMs, atMs } = deciding;
  const deed = tray.deeds.find(({ act }) => act.actId === command.actId);
  if (deed === undefined) return no("unknown", `Tray ${tray.number} has no such act in its history.`);
  if (deed.takenBack !== undefined) return no("taken", "That act was taken back already.");
  if (role !== "lead" && role !== "kitchen" && !isOwnAct(deed.act, deciding))
    return no(
      "not-allowed",
      `Only ${kitchen.people[deed.act.by]?.name ?? "whoever did it"} or a lead can take that back.`,
    );
  if (deed.act.type === "heat-set-ended" && nowMs - deed.act.atMs > REHEAT_MS)
    return no(
      "too-late",
      `That heat-set ended over ${REHEAT_MS / MIN_MS} minutes ago: start a new one instead.`,
    );
  if (deed.act.type === "heat-set-started" && atMs - deed.act.atMs > START_BACK_MS)
    return no(
      "too-late",
      `That heat-set began over ${START_BACK_MS / 1000} s ago: ${isUnderHeatOf(tray, command.actId) ? "end it instead." : "it stays in the tray's history."}`,
    );
  const cold =
    deed.act.type === "heat-set-ended" ? coldSince(kitchen, tray, deed.act.atMs, nowMs) : undefined;
  if (cold !== undefined) return no("too-late", `${cold}: start a new heat-set instead.`);
  const kept = keptActs(tray, command.actId);
  const stuck = firstUnfit(tray, design, kept);
  if (stuck !== undefined)
    return no(
      "wrong-stage",
      `Take back what came after it first: ${actWords(kitchen, design, stuck, cookieNumbers(tray, design).get(stuck.actId))}, ${clockTime(stuck.atMs, kitchen.settings.timeZone)}.`,
    );
  const after = replayActs(tray, kept, design);
  const owner = typeof after.assignedTo === "string" ? own(kitchen.people, after.assignedTo) : undefined;
  if (owner?.leftAtMs !== undefined)
    return no("unknown", `${owner.name} has left: tray ${tray.number} stays with everyone.`);
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

const isUnderHeatOf = ({ standing }: Tray, actId: string): boolean =>
  standing.stage === "heat-set" && standing.heat.actId === actId;

/** Done by the same device, or by the same person from a device of theirs. A name that was merely typed proves nothing. */
const isOwnAct = (act: TrayAct, { by, deviceId, isOwnDevice = true }: Deciding): boolean =>
  act.by === by && (isOwnDevice || deviceId === undefined || act.deviceId === deviceId);

/** What a tray would have behind it without one act. */
const keptActs = (tray: Tray, takenBackId: string): HistoryEntry[] =>
  tray.deeds.filter((deed) => deed.takenBack === undefined && deed.act.actId !== takenBackId);

/**
 * Why a tray cannot stand where it stood before an act: the place is gone, was filled since, or would warm it unsafely. What
 * is packed stands nowhere, and may have given up its number and outlived its order.
 */
function noWayBack(kitchen: Kitchen, tray: Tray, after: Tray, nowMs: number): Decision | undefined {
  if (after.standing.stage === "packed") return undefined;
  const { placeId } = standsAt(after);
  if (tray.standing.stage === "packed") {
    if (kitchen.orders[tray.orderId] === undefined)
      return no("unknown", `The order of tray ${tray.number} is not here any more.`);
    if (aliveTrays(kitchen).some(({ number }) => number === tray.number))
      return no("taken", `Another tray bears the number ${tray.number} now.`);
  } else if (keepsRoom(tray, placeId)) return undefined;
  const place = kitchen.places[placeId];
  if (place === undefined)
    return no("unknown", `Tray ${tray.number} stood in a place that is not here any more.`);
  if (roomLeft(kitchen, placeId) <= 0) return noRoomIn(place);
  return unsafePlace(kitchen, placeId, nowMs);
}

/** Why a heat-set that ended cannot run on: its clock would count, and alarm, over a tool that warms this tray no more. */
function coldSince(kitchen: Kitchen, tray: Tray, endedAtMs: number, nowMs: number): string | undefined {
  const ended = tray.heats.findLast((heat) => heat.endedAtMs === endedAtMs);
  const tool = kitchen.tools[ended?.toolId ?? ""];
  if (ended === undefined || tool === undefined) return "Its tool is not here any more";
  if (tool.kind !== ended.toolKind) return `${tool.name} is another kind of tool now`;
  return unfitFor(kitchen, tool, tray, nowMs)?.why;
}

/** The first standing act that would no longer fit if one were taken back. */
function firstUnfit(tray: Tray, design: Design, kept: readonly HistoryEntry[]): TrayAct | undefined {
  const at = kept.findIndex(
    ({ act }, index) => !canApply(replayActs(tray, kept.slice(0, index), design), act, design),
  );
  return kept[at]?.act;
}

const LAYING = { outline: "piping", detail: "piping", flood: "flooding", "top-coat": "top-coating" } as const;
const LAID = { outline: "piped", detail: "piped", flood: "flooded", "top-coat": "top-coated" } as const;

/** An act in the words of a tray's history. `cookie`: which cookie a lap of hot air set, where it is known. */
export function actWords(
  kitchen: Kitchen,
  design: Design | undefined,
  act: TrayAct,
  cookie?: number,
): string {
  const consistency = (layer: number): Consistency => design?.layers[layer]?.consistency ?? "flood";
  const place = (id: string | undefined): string => kitchen.places[id ?? ""]?.name ?? "another place";
  switch (act.type) {
    case "tray-assigned":
      return act.to === null
        ? "given back to everyone"
        : `given to ${kitchen.people[act.to]?.name ?? "someone"}`;
    case "flooding-started":
      return `${LAYING[consistency(act.layer)]} of ${layerName(kitchen, design, act.layer)} begun`;
    case "flooded":
      return `${layerName(kitchen, design, act.layer)} ${LAID[consistency(act.layer)]}, drying clock started`;
    case "touch-tested":
      return `${layerName(kitchen, design, act.layer)} found ${act.finding}`;
    case "tray-moved":
      return `moved to ${place(act.placeId)}${act.slot === undefined ? "" : ` · ${act.slot}`}`;
    case "heat-set-started":
      return `heat-set begun, ${kitchen.tools[act.toolId]?.name ?? act.toolKind}`;
    case "cookie-set":
      return cookie === undefined ? "a cookie set" : `cookie ${cookie} set`;
    case "heat-set-ended":
      return `heat-set ended: ${act.result}`;
    case "problem-reported":
      return `${cookies(act.count)} ${act.problem}`;
    case "packed":
      return "packed";
    default:
      return unreachable(act);
  }
}
