import { HOT_AIR_MIN } from "#shared/heat/tool.ts";
import { cookiesBeforeSetting, layerSinkRisk, setWithinMin, type SinkRisk } from "#shared/icing/sinking.ts";
import type { Band } from "#shared/drying/uncertainty/band.ts";
import { MIN_MS } from "#shared/time.ts";
import type { Spans } from "#shared/kitchen/forecast/films.ts";
import type { SinkAdvice, TrayForecast } from "#shared/kitchen/model/forecast.ts";
import { inHandOf } from "#shared/kitchen/model/lookups.ts";
import type { Kitchen, Tray } from "#shared/kitchen/model/state.ts";
import type { Layer, ToolKind } from "#shared/kitchen/model/vocabulary.ts";

/** The layer in hand or next: its spans if laid now, and what to do where a section of it may sink. Undefined with every layer laid. */
export function nextLayerOf(
  kitchen: Kitchen,
  tray: Tray,
  spansOf: (layer: number) => Spans,
): TrayForecast["next"] {
  const layer = inHandOf(tray)?.layer ?? tray.films.length;
  const own = kitchen.designs[tray.designId]?.layers[layer];
  if (own === undefined) return undefined;
  const spans = spansOf(layer);
  const sink = sinkAdvice(kitchen, tray, own, spans.skin);
  return { layer, ...spans, ...(sink === undefined ? {} : { sink }) };
}

/** Of a poured layer whose small sections may sink: how likely, and how soon after flooding they are to be heat-set, min. */
export function sinking(
  { settings }: Pick<Kitchen, "settings">,
  layer: Layer,
  skin: Band,
): { risk: Exclude<SinkRisk, "none">; withinMin: number } | undefined {
  const risk = layerSinkRisk(layer);
  if (risk === "none" || "never" in skin) return undefined;
  return { risk, withinMin: setWithinMin(skin.likelyMs / MIN_MS, settings.sinkShare) };
}

function sinkAdvice(kitchen: Kitchen, tray: Tray, layer: Layer, skin: Band): SinkAdvice | undefined {
  const found = sinking(kitchen, layer, skin);
  if (found === undefined) return undefined;
  const { risk, withinMin } = found;
  const eachMin = kitchen.settings.floodingMin / tray.count;
  const before = (kind: ToolKind): number =>
    Math.min(tray.count, cookiesBeforeSetting(withinMin, eachMin, HOT_AIR_MIN, kind));
  const fit = Object.values(kitchen.tools).filter((tool) => tool.outOfService === undefined);
  const hasOven = fit.some(({ kind }) => kind === "oven");
  const isOvenOnly = hasOven && !fit.some(({ kind }) => kind === "hot-air");
  return {
    risk,
    setWithinMin: Math.round(withinMin * 10) / 10,
    floodBeforeSetting: before(isOvenOnly ? "oven" : "hot-air"),
    ...(hasOven && !isOvenOnly ? { floodBeforeOven: before("oven") } : {}),
  };
}
