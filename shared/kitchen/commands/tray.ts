import { unreachable } from "#shared/outcome.ts";
import type { CommandOf } from "#shared/kitchen/model/command.ts";
import { no, noRoomIn, yes, type Deciding, type Decision } from "./deciding.ts";
import { hotOnLeaving } from "#shared/kitchen/tray/tool-heat.ts";
import { unsafePlace } from "./tool-unfit.ts";
import type { EventOf, ImpliedFactor } from "#shared/kitchen/model/event.ts";
import { personHere } from "#shared/kitchen/model/people.ts";
import { needsOf, waitsOf } from "#shared/kitchen/tray/route.ts";
import { goodOn, inHandOf, roomLeft, standsAt } from "#shared/kitchen/model/lookups.ts";
import type { Tray } from "#shared/kitchen/model/state.ts";
import { isLaidBeforeHeat, nextLayerOf } from "#shared/kitchen/tray/can-apply.ts";
import { bowlAt } from "#shared/kitchen/tray/bowl.ts";
import type { Bowl, Design } from "#shared/kitchen/model/vocabulary.ts";
import { shownNow } from "#shared/kitchen/forecast/shown-now.ts";
import { layerFact } from "#shared/kitchen/tray/act-facts.ts";
import type { BeforeWhat } from "#shared/kitchen/model/refusal.ts";
import { bleedRisk, notYet, stillOpen } from "./waits-risk.ts";

type TrayCommand = CommandOf<
  "assign-tray" | "start-flooding" | "flooded" | "touch-test" | "move-tray" | "report-problem" | "pack"
>;

/** What hands do to a tray. */
export function decideTray(command: TrayCommand, deciding: Deciding): Decision {
  const tray = deciding.kitchen.trays[command.trayId];
  const design = deciding.kitchen.designs[tray?.designId ?? ""];
  if (tray === undefined || design === undefined)
    return no("unknown", { code: "no-such", thing: "tray", id: command.trayId });
  const { stage } = tray.status;
  if (stage === "packed" && command.type !== "report-problem")
    return no("wrong-stage", { code: "tray-packed", tray: tray.number });
  const { kitchen, stamp, role, by } = deciding;
  switch (command.type) {
    case "assign-tray": {
      if (role === "decorator" && !isOwnToAssign(tray, command.to, by))
        return no("not-allowed", { code: "give-is-leads" });
      if (command.to !== null && personHere(kitchen, command.to) === undefined)
        return no("unknown", { code: "no-such", thing: "person", id: command.to });
      return yes({ type: "tray-assigned", ...stamp, trayId: tray.id, to: command.to });
    }
    case "start-flooding":
    case "flooded":
      return decideFlooding(command, tray, design, deciding);
    case "touch-test":
      return decideTouch(command, tray, deciding);
    case "move-tray":
      return decideMove(command, tray, deciding);
    case "report-problem":
      if (command.count > tray.count)
        return no("out-of-range", {
          code: "holds-fewer",
          field: "count",
          tray: tray.number,
          count: tray.count,
        });
      return yes({
        type: "problem-reported",
        ...stamp,
        trayId: tray.id,
        problem: command.problem,
        count: command.count,
        ...(command.note === undefined ? {} : { note: command.note }),
      });
    case "pack":
      return decidePack(command, tray, design, deciding);
    default:
      return unreachable(command);
  }
}

/** Taken for oneself, or given back. */
const isOwnToAssign = ({ assignedTo }: Tray, to: string | null, by: string): boolean =>
  to === by || (to === null && (assignedTo ?? null) === by);

function decideFlooding(
  command: CommandOf<"start-flooding" | "flooded">,
  tray: Tray,
  design: Design,
  deciding: Deciding,
): Decision {
  const { kitchen, stamp, atMs } = deciding;
  const { status } = tray;
  const inHand = inHandOf(tray);
  if (command.type === "flooded" && inHand !== undefined && isLaidBeforeHeat(tray, atMs))
    return yes(inHandFlooded(tray, design, inHand, deciding));
  if (status.stage === "heat-set") return no("wrong-stage", { code: "under-heat", tray: tray.number });
  const layer = nextLayerOf(tray, design);
  if (layer === undefined) return no("wrong-stage", { code: "all-layers-laid", tray: tray.number });
  if (status.stage === "flooding") {
    if (command.type === "start-flooding")
      return no("wrong-stage", { code: "flooding-already", tray: tray.number });
    if (atMs < status.startedAtMs) return tooEarly(tray, "flooding", status.startedAtMs);
    return yes(inHandFlooded(tray, design, status, deciding));
  }
  const last = tray.films.at(-1);
  if (last !== undefined && atMs < last.clockStartMs) return tooEarly(tray, "laid", last.clockStartMs);
  const openWaits = stillOpen(waitsOf(kitchen, deciding.forecasts, tray), atMs);
  if (openWaits.length > 0 && command.acceptRisk !== true)
    return no("risk", { code: "risk", risk: bleedRisk(openWaits, tray, design, kitchen), next: layer });
  const risk = openWaits.length === 0 ? {} : { risk: bleedRisk(openWaits, tray, design, kitchen) };
  if (command.type === "start-flooding")
    return yes({ type: "flooding-started", ...stamp, trayId: tray.id, layer, ...risk });
  return yes({
    type: "flooded",
    ...stamp,
    trayId: tray.id,
    layer,
    weighed: openWaits.length === 0 ? laidAgainst(tray, design, layer) : [],
    ...outOfBowl(deciding, design, layer),
    ...toldOfSinking(deciding, tray, layer),
    ...risk,
  });
}

/** What ends the flooding in hand, and starts its film's drying clock. */
export function inHandFlooded(
  tray: Tray,
  design: Design,
  { layer, risk }: Extract<Tray["status"], { stage: "flooding" }>,
  deciding: Deciding,
): EventOf<"flooded"> {
  return {
    type: "flooded",
    ...deciding.stamp,
    trayId: tray.id,
    layer,
    weighed: risk === undefined ? laidAgainst(tray, design, layer) : [],
    ...outOfBowl(deciding, design, layer),
    ...toldOfSinking(deciding, tray, layer),
    ...(risk === undefined ? {} : { risk }),
  };
}

/** Which bowl the icing came from, as far as the kitchen knows. */
function outOfBowl({ kitchen, atMs }: Deciding, design: Design, layer: number): { bowl?: Bowl } {
  const own = design.layers[layer];
  return own === undefined ? {} : { bowl: bowlAt(kitchen, own, atMs) };
}

/**
 * Laying a neighbour, no risk accepted, says that the films it waited for had skinned when it was begun. What that implies of
 * the kitchen's factors is added before it is logged.
 */
function laidAgainst(tray: Tray, design: Design, layer: number): ImpliedFactor[] {
  const waited = new Set(needsOf(design, layer).flatMap((wait) => (wait.need === "wet" ? [] : [wait.layer])));
  return tray.films.filter((film) => waited.has(film.layer)).map(({ layer }) => ({ layer }));
}

/** What the screens told of a section that may sink, kept with the film. */
function toldOfSinking({ forecasts }: Deciding, tray: Tray, layer: number): { setWithinMin?: number } {
  const next = forecasts.trays[tray.id]?.next;
  return next?.layer === layer && next.sink !== undefined ? { setWithinMin: next.sink.setWithinMin } : {};
}

function decideTouch(command: CommandOf<"touch-test">, tray: Tray, deciding: Deciding): Decision {
  const { stamp, atMs } = deciding;
  const layer = command.layer ?? tray.films.at(-1)?.layer;
  const film = tray.films.find((one) => one.layer === layer);
  if (layer === undefined || film === undefined)
    return no("wrong-stage", {
      code: "nothing-drying",
      tray: tray.number,
      ...(command.layer !== undefined && { layer: command.layer }),
    });
  if (atMs < film.clockStartMs) return tooEarly(tray, "drying", film.clockStartMs);
  return yes({
    type: "touch-tested",
    ...stamp,
    trayId: tray.id,
    layer,
    finding: command.finding,
    weighed: { layer },
    shown: shownNow(deciding.forecasts, tray, film),
  });
}

function decideMove(
  command: CommandOf<"move-tray">,
  tray: Tray,
  { kitchen, stamp, atMs }: Deciding,
): Decision {
  const place = kitchen.places[command.placeId];
  if (place === undefined) return no("unknown", { code: "no-such", thing: "place", id: command.placeId });
  if (tray.status.stage === "heat-set") return no("wrong-stage", { code: "under-heat", tray: tray.number });
  if (place.kind === "oven") return no("wrong-stage", { code: "is-oven", place: place.name });
  const now = standsAt(tray);
  if (now.placeId === place.id && now.slot === command.slot)
    return no("taken", { code: "stands-there", tray: tray.number });
  if (now.placeId !== place.id && roomLeft(kitchen, place.id) <= 0) return noRoomIn(place);
  if (atMs < now.fromMs) return tooEarly(tray, "placed", now.fromMs);
  const unfit = now.placeId === place.id ? undefined : unsafePlace(kitchen, place.id, atMs);
  if (unfit !== undefined) return unfit;
  const hotUntilMs = now.placeId === place.id ? undefined : hotOnLeaving(kitchen, tray, atMs);
  return yes({
    type: "tray-moved",
    ...stamp,
    trayId: tray.id,
    placeId: place.id,
    ...(command.slot === undefined ? {} : { slot: command.slot }),
    ...(hotUntilMs === undefined ? {} : { hotUntilMs }),
  });
}

function decidePack(command: CommandOf<"pack">, tray: Tray, design: Design, deciding: Deciding): Decision {
  const { kitchen, stamp, atMs } = deciding;
  const { status } = tray;
  const layer = nextLayerOf(tray, design);
  if (status.stage === "heat-set") return no("wrong-stage", { code: "under-heat", tray: tray.number });
  if (layer !== undefined)
    return no("wrong-stage", {
      code: "still-needs",
      tray: tray.number,
      layer: layerFact(kitchen, design, layer),
    });
  if (status.stage !== "full-dry") return no("wrong-stage", { code: "still-flooding", tray: tray.number });
  const openWaits = stillOpen(waitsOf(kitchen, deciding.forecasts, tray), atMs);
  const risk = notYet("pack", openWaits, "dry through", tray, design, kitchen);
  if (openWaits.length > 0 && command.acceptRisk !== true) return no("risk", { code: "risk", risk });
  const { seconds = 0, lost = [] } = command;
  const good = goodOn(tray);
  const notGood = lost.reduce((sum, { count }) => sum + count, seconds);
  if (notGood > good) return no("out-of-range", { code: "holds-fewer-good", tray: tray.number, count: good });
  return yes(
    ...lost.map(({ problem, count }) => ({
      type: "problem-reported" as const,
      ...stamp,
      trayId: tray.id,
      problem,
      count,
    })),
    {
      type: "packed",
      ...stamp,
      trayId: tray.id,
      weighed: openWaits.length === 0 ? tray.films.map(({ layer }) => ({ layer })) : [],
      ...(openWaits.length === 0 ? {} : { risk }),
      ...(seconds > 0 && { seconds }),
    },
  );
}

const tooEarly = (tray: Tray, what: BeforeWhat, fromMs: number): Decision =>
  no("bad-time", { code: "before", what, fromMs, tray: tray.number });
