import { TOOL_DEFAULTS } from "#shared/heat/tool.ts";
import { asId } from "#shared/ids.ts";
import type { DesignId, IcingId, PlaceId, ToolId } from "#shared/ids.ts";
import type { Design, Icing, Place, Tool } from "#shared/kitchen/vocabulary.ts";

/** A room to start from, for a lead to edit: what many kitchens have; common practice, no source. */
export interface UsualRoom {
  places: readonly Place[];
  tools: readonly Tool[];
  icings: readonly Icing[];
  design: Design;
}

export function usualRoom(newId: () => string): UsualRoom {
  const rackA = asId<PlaceId>(newId());
  const oven = asId<PlaceId>(newId());
  const cream = asId<IcingId>(newId());
  const ink = asId<IcingId>(newId());
  const hotAir = TOOL_DEFAULTS["hot-air"];
  const lowOven = TOOL_DEFAULTS.oven;
  return {
    places: [
      { id: rackA, name: "Rack A", kind: "rack", airSpeedMs: 0.15, capacity: 20 },
      { id: asId(newId()), name: "Rack B", kind: "rack", airSpeedMs: 0.15, capacity: 20, airFrom: rackA },
      { id: asId(newId()), name: "Fan rack", kind: "fan-rack", airSpeedMs: 2, capacity: 20, airFrom: rackA },
      { id: asId(newId()), name: "Bench", kind: "bench", airSpeedMs: 0.15, capacity: 6, airFrom: rackA },
      { id: oven, name: "Low oven", kind: "oven", airSpeedMs: 0.5, capacity: 4, setTempC: lowOven.airC },
    ],
    tools: [
      {
        id: asId<ToolId>(newId()),
        name: "Hot-air tool 1",
        kind: "hot-air",
        airC: hotAir.airC,
        maxAirC: hotAir.maxAirC,
        capS: hotAir.capS,
        coolDownMin: hotAir.coolDownMin,
        distanceCm: 14,
        nozzleMm: 25,
      },
      {
        id: asId<ToolId>(newId()),
        name: "Low oven",
        kind: "oven",
        placeId: oven,
        airC: lowOven.airC,
        maxAirC: lowOven.maxAirC,
        capS: lowOven.capS,
        coolDownMin: lowOven.coolDownMin,
      },
    ],
    icings: [
      { id: cream, name: "cream", hex: "#f6eed8" },
      { id: ink, name: "ink blue", hex: "#2b3566" },
      { id: asId(newId()), name: "leaf", hex: "#7fa36b" },
    ],
    design: {
      id: asId<DesignId>(newId()),
      name: "Round with a border",
      sizeMm: 80,
      layers: [
        { name: "Outline", consistency: "outline", icingId: cream, thicknessMm: 3, narrowestMm: 2 },
        { name: "Flood", consistency: "flood", icingId: cream, thicknessMm: 2.4, narrowestMm: 60 },
        { name: "Border", consistency: "detail", icingId: ink, thicknessMm: 2, narrowestMm: 3 },
      ],
    },
  };
}
