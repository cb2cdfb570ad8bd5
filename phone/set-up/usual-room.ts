import type { Drawing } from "#shared/drawing/drawing.ts";
import { measureDrawing } from "#shared/drawing/measures.ts";
import { round } from "#shared/drawing/templates/plain.ts";
import { AIR_SPEED_MS } from "#shared/drying/film/constants.ts";
import { HOT_AIR_TOOL, OVEN_TOOL } from "#shared/heat/tool.ts";
import { asId } from "#shared/ids.ts";
import type { DesignId, IcingId, PlaceId, ToolId } from "#shared/ids.ts";
import { measuredLayers } from "#shared/kitchen/drawn/measured.ts";
import type { Design, Icing, Layer, Place, Tool } from "#shared/kitchen/model/vocabulary.ts";
import type { Words } from "#shared/words/words.ts";

/** A room to start from, for a lead to edit: what many kitchens have; common practice, no source. */
export interface UsualRoom {
  places: readonly Place[];
  tools: readonly Tool[];
  icings: readonly Icing[];
  design: Design;
}

export function usualRoom(newId: () => string, names: Words["setUp"]["usualRoom"]["names"]): UsualRoom {
  const rackA = asId<PlaceId>(newId());
  const oven = asId<PlaceId>(newId());
  const cream = asId<IcingId>(newId());
  const ink = asId<IcingId>(newId());
  const drawing = drawnRound();
  const layers: Layer[] = [
    {
      name: names.outline,
      consistency: "outline",
      icingId: cream,
      thicknessMm: 3,
      narrowestMm: 2,
      covers: { areas: [], lines: ["edge"] },
    },
    {
      name: names.flood,
      consistency: "flood",
      icingId: cream,
      thicknessMm: 2.4,
      narrowestMm: 60,
      covers: { areas: ["field"], lines: [] },
    },
    {
      name: names.border,
      consistency: "detail",
      icingId: ink,
      thicknessMm: 2,
      narrowestMm: 2,
      covers: { areas: [], lines: ["ring"] },
    },
  ];
  return {
    places: [
      { id: rackA, name: names.rackA, kind: "rack", airSpeedMs: AIR_SPEED_MS.still, capacity: 20 },
      {
        id: asId(newId()),
        name: names.rackB,
        kind: "rack",
        airSpeedMs: AIR_SPEED_MS.still,
        capacity: 20,
        airFrom: rackA,
      },
      {
        id: asId(newId()),
        name: names.fanRack,
        kind: "fan-rack",
        airSpeedMs: AIR_SPEED_MS.fan,
        capacity: 20,
        airFrom: rackA,
      },
      {
        id: asId(newId()),
        name: names.bench,
        kind: "bench",
        airSpeedMs: AIR_SPEED_MS.still,
        capacity: 6,
        airFrom: rackA,
      },
      {
        id: oven,
        name: names.oven,
        kind: "oven",
        airSpeedMs: OVEN_TOOL.airSpeedMs,
        capacity: 4,
        setTempC: OVEN_TOOL.airC,
      },
    ],
    tools: [
      {
        id: asId<ToolId>(newId()),
        name: names.hotAir,
        kind: "hot-air",
        airC: HOT_AIR_TOOL.airC,
        maxAirC: HOT_AIR_TOOL.maxAirC,
        capS: HOT_AIR_TOOL.capS,
        coolDownMin: HOT_AIR_TOOL.coolDownMin,
        distanceCm: HOT_AIR_TOOL.distanceCm,
        nozzleMm: HOT_AIR_TOOL.nozzleMm,
      },
      {
        id: asId<ToolId>(newId()),
        name: names.oven,
        kind: "oven",
        placeId: oven,
        airC: OVEN_TOOL.airC,
        maxAirC: OVEN_TOOL.maxAirC,
        capS: OVEN_TOOL.capS,
        coolDownMin: OVEN_TOOL.coolDownMin,
      },
    ],
    icings: [
      { id: cream, name: names.cream, hex: "#f6eed8" },
      { id: ink, name: names.blue, hex: "#2b3566" },
      { id: asId(newId()), name: names.green, hex: "#7fa36b" },
    ],
    design: {
      id: asId<DesignId>(newId()),
      name: names.design,
      sizeMm: SIZE_MM,
      drawing,
      layers: measuredLayers({ drawing, measures: measureDrawing(drawing) }, layers),
    },
  };
}

const SIZE_MM = 80;

function drawnRound(): Drawing {
  const drawn = round({ widthMm: SIZE_MM });
  if (!drawn.ok) throw new Error(`the usual room's design: ${drawn.refusal.code}`);
  return drawn.value;
}
