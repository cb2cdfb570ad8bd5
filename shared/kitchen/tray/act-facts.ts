import { unreachable } from "#shared/outcome.ts";
import type { ActFact } from "#shared/kitchen/model/act-fact.ts";
import type { TrayAct } from "#shared/kitchen/model/event.ts";
import type { LayerFact } from "#shared/kitchen/model/risk.ts";
import type { Kitchen } from "#shared/kitchen/model/state.ts";
import type { Consistency, Design } from "#shared/kitchen/model/vocabulary.ts";

/** A layer of a design with the name of its icing. */
export function layerFact(kitchen: Kitchen, design: Design | undefined, layer: number): LayerFact {
  const icing = kitchen.icings[design?.layers[layer]?.icingId ?? ""]?.name;
  return { layer, ...(icing !== undefined && { icing }) };
}

/** An act of a tray's history with the names it needs. `cookie`: which cookie a lap of hot air set, where it is known. */
export function actFact(
  kitchen: Kitchen,
  design: Design | undefined,
  act: TrayAct,
  cookie?: number,
): ActFact {
  const layer = (index: number): LayerFact => layerFact(kitchen, design, index);
  const consistency = (index: number): Consistency => design?.layers[index]?.consistency ?? "flood";
  switch (act.type) {
    case "tray-assigned": {
      const to = kitchen.people[act.to ?? ""]?.name;
      return { act: act.type, isToEveryone: act.to === null, ...(to !== undefined && { to }) };
    }
    case "flooding-started":
    case "flooded":
      return { act: act.type, layer: layer(act.layer), consistency: consistency(act.layer) };
    case "touch-tested":
      return { act: act.type, layer: layer(act.layer), finding: act.finding };
    case "tray-moved": {
      const place = kitchen.places[act.placeId]?.name;
      return {
        act: act.type,
        ...(place !== undefined && { place }),
        ...(act.slot !== undefined && { slot: act.slot }),
      };
    }
    case "heat-set-started": {
      const tool = kitchen.tools[act.toolId]?.name;
      return { act: act.type, kind: act.toolKind, ...(tool !== undefined && { tool }) };
    }
    case "cookie-set":
      return { act: act.type, ...(cookie !== undefined && { cookie }) };
    case "cookie-heat-started":
      return { act: act.type, ...(cookie !== undefined && { cookie }) };
    case "heat-set-ended":
      return { act: act.type, result: act.result };
    case "problem-reported":
      return { act: act.type, count: act.count, problem: act.problem };
    case "packed":
      return { act: act.type };
    default:
      return unreachable(act);
  }
}
