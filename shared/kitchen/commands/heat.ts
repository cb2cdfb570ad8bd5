import { unreachable } from "#shared/outcome.ts";
import { asId, type CommandId } from "#shared/ids.ts";
import type { CommandOf } from "#shared/kitchen/model/command.ts";
import { inHandFlooded } from "./tray.ts";
import { no, noRoomIn, yes, type Deciding, type Decision } from "./deciding.ts";
import { heatToolOf } from "#shared/kitchen/forecast/air.ts";
import { heatLimitsOf, layerToSet } from "#shared/kitchen/forecast/heat-limits.ts";
import { hotOnLeaving } from "#shared/kitchen/tray/tool-heat.ts";
import { refusedAs, unfitFor } from "./tool-unfit.ts";
import { chamberOf, cookieUnder, roomLeft } from "#shared/kitchen/model/lookups.ts";
import type { Tray } from "#shared/kitchen/model/state.ts";

type HeatCommand = CommandOf<"start-heat-set" | "next-cookie" | "heat-on" | "end-heat-set">;

/** A lap shorter than this is a floury thumb tapping twice. */
const LEAST_LAP_MS = 2_000;

/** Nothing sets in a chamber as soon as this: "stop" comes up under the thumb that tapped "start" twice. */
const LEAST_SET_MS = 10_000;

/** Heat-sets: one clock a tray in an oven or cabinet, one lap a cookie under hot air. */
export function decideHeat(command: HeatCommand, deciding: Deciding): Decision {
  const { kitchen, stamp, atMs } = deciding;
  const tray = kitchen.trays[command.trayId];
  if (tray === undefined) return no("unknown", { code: "no-such", thing: "tray", id: command.trayId });
  if (command.type === "start-heat-set") return decideStart(command, tray, deciding);
  const { status } = tray;
  if (status.stage !== "heat-set") return no("wrong-stage", { code: "not-under-heat", tray: tray.number });
  const { heat } = status;
  if (atMs < heat.lapFromMs)
    return no("bad-time", { code: "before", what: "heat-set", fromMs: heat.lapFromMs });
  switch (command.type) {
    case "next-cookie":
      if (heat.toolKind !== "hot-air") return no("wrong-stage", { code: "no-next-cookie" });
      if (cookieUnder(tray, heat) >= tray.count)
        return no("wrong-stage", { code: "all-had-heat", tray: tray.number, count: tray.count });
      if (heat.pausedSinceMs !== undefined) return no("wrong-stage", { code: "heat-paused" });
      if (atMs - heat.lapFromMs < LEAST_LAP_MS) return no("bad-time", { code: "lap-too-short" });
      return yes({ type: "cookie-set", ...stamp, trayId: tray.id, pauses: true });
    case "heat-on":
      if (heat.pausedSinceMs === undefined) return no("wrong-stage", { code: "heat-on-already" });
      return yes({ type: "cookie-heat-started", ...stamp, trayId: tray.id });
    case "end-heat-set": {
      const leastMs = heat.toolKind === "hot-air" ? LEAST_LAP_MS : LEAST_SET_MS;
      if (heat.pausedSinceMs !== undefined && command.result === "not yet")
        return no("wrong-stage", { code: "heat-paused" });
      if (command.result === "set" && heat.pausedSinceMs === undefined && atMs - heat.lapFromMs < leastMs)
        return no("bad-time", { code: "set-too-soon", leastS: leastMs / 1000 });
      const spoiled = command.spoiled ?? (command.result === "swollen or cracked" ? 1 : 0);
      if (spoiled > tray.count)
        return no("out-of-range", {
          code: "holds-fewer",
          field: "spoiled",
          tray: tray.number,
          count: tray.count,
        });
      const place = command.placeId === undefined ? undefined : kitchen.places[command.placeId];
      if (command.placeId !== undefined && (place === undefined || place.kind === "oven"))
        return no("unknown", { code: "must-name-place-not-oven", field: "placeId" });
      if (place !== undefined && place.id !== status.returnTo.placeId && roomLeft(kitchen, place.id) <= 0)
        return noRoomIn(place);
      const hotUntilMs = hotOnLeaving(kitchen, tray, atMs);
      return yes({
        type: "heat-set-ended",
        ...stamp,
        trayId: tray.id,
        result: command.result,
        spoiled,
        ...(place === undefined ? {} : { placeId: place.id }),
        ...(hotUntilMs === undefined ? {} : { hotUntilMs }),
      });
    }
    default:
      return unreachable(command);
  }
}

function decideStart(command: CommandOf<"start-heat-set">, tray: Tray, deciding: Deciding): Decision {
  const { kitchen, stamp, atMs } = deciding;
  const { status } = tray;
  const tool = kitchen.tools[command.toolId];
  if (tool === undefined) return no("unknown", { code: "no-such", thing: "tool", id: command.toolId });
  if (deciding.by === "kitchen") return no("not-allowed", { code: "needs-hands", what: "heat-set" });
  if (status.stage === "packed") return no("wrong-stage", { code: "tray-packed", tray: tray.number });
  if (status.stage === "heat-set") return no("wrong-stage", { code: "heat-running", tray: tray.number });
  const layer = layerToSet(tray);
  if (layer === undefined) return no("wrong-stage", { code: "nothing-to-set", tray: tray.number });
  const startMs = status.stage === "flooding" ? status.startedAtMs : (tray.films.at(-1)?.clockStartMs ?? 0);
  if (atMs < startMs) return no("bad-time", { code: "before", what: "icing laid", fromMs: startMs });
  const unfit = unfitFor(kitchen, tool, tray, atMs);
  if (unfit !== undefined) return refusedAs(unfit);
  const design = kitchen.designs[tray.designId];
  // What goes into a chamber is laid: its film has the heat from now on. Hot air may go on while the rest is flooded.
  const isLaid = status.stage === "flooding" && tool.kind !== "hot-air" && design !== undefined;
  const laid = isLaid
    ? [{ ...inHandFlooded(tray, design, status, deciding), actId: laidId(stamp.actId) }]
    : [];
  const placeId = chamberOf(tool);
  return yes(...laid, {
    type: "heat-set-started",
    ...stamp,
    trayId: tray.id,
    layer,
    toolId: tool.id,
    toolKind: tool.kind,
    airC: heatToolOf(kitchen, tool).airC,
    // Kept in the event: what people were told stays on record.
    limits: heatLimitsOf(kitchen, deciding.forecasts, tray, tool, layer, atMs),
    ...(placeId === undefined ? {} : { placeId }),
  });
}

/** Of the flooding that a heat-set ends: an act of its own in the tray's history, so that either is taken back alone. */
const laidId = (actId: string): CommandId => asId(`${actId.slice(0, 35)}-laid`);
