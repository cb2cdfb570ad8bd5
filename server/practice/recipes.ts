import { asId, type IcingId } from "#shared/ids.ts";
import { drawingOf } from "./drawings.ts";
import type { Design, Icing, Layer } from "#shared/kitchen/model/vocabulary.ts";

/** What small sections are flooded with is mixed tighter, so that it can be set before it sinks. */
const TIGHT = { waterPct: { flood: 19.2 } };

/** The invented icings. */
export const ICINGS: readonly Icing[] = [
  icing("oyster", "oyster", "#f3ede1"),
  { ...icing("sea-glass", "sea glass", "#8fc7c3"), ...TIGHT },
  icing("storm", "storm", "#3d4a63"),
  icing("butter", "butter", "#e8cf83"),
  { ...icing("marmalade", "marmalade", "#e0813c"), ...TIGHT },
  { ...icing("heather", "heather", "#a48bb8"), ...TIGHT },
  { ...icing("moss", "moss", "#7a8c56"), ...TIGHT },
  icing("rosehip", "rosehip", "#b8433f"),
  icing("midnight", "midnight", "#1f2538"),
  icing("shell", "shell", "#efc4b4"),
];

function icing(id: string, name: string, hex: string): Icing {
  return { id: asId(id), name, hex };
}

/** A design, and how many of it go on a tray. */
export interface Recipe {
  design: Design;
  onATray: number;
}

type More = Partial<Omit<Layer, "icingId" | "consistency" | "covers">>;
/** Ids of the drawing's parts that a layer covers. */
type Parts = readonly string[];

const lay =
  (consistency: Layer["consistency"], usual: { thicknessMm: number; narrowestMm: number }) =>
  (name: string, icingId: string, parts: Parts, more: More = {}): Layer => ({
    name,
    consistency,
    icingId: asId<IcingId>(icingId),
    ...usual,
    ...more,
    covers: { areas: [...parts], lines: [...parts] },
    // Set to what a day in the practice kitchen is tuned for.
    typed: ["areaCm2", "narrowestMm", "touches"],
  });
const outline = lay("outline", { thicknessMm: 2.2, narrowestMm: 2.2 });
const flood = lay("flood", { thicknessMm: 1.7, narrowestMm: 40 });
const topCoat = lay("top-coat", { thicknessMm: 2.1, narrowestMm: 45 });
const detail = lay("detail", { thicknessMm: 1.2, narrowestMm: 1.5 });

const recipe = (
  id: string,
  name: string,
  sizeMm: number,
  onATray: number,
  layers: readonly Layer[],
): Recipe => ({
  design: drawn({ id: asId(id), name, sizeMm, layers: [...layers] }),
  onATray,
});

/** With its drawing; of the parts that a layer names each is an area or a line. */
function drawn(design: Design): Design {
  const drawing = drawingOf(design.id, design.sizeMm);
  const within = (parts: readonly { id: string }[], ids: Parts): string[] =>
    ids.filter((part) => parts.some(({ id }) => id === part));
  const layers = design.layers.map(({ covers, ...layer }) => ({
    ...layer,
    covers: {
      areas: within(drawing.areas, covers?.areas ?? []),
      lines: within(drawing.lines, covers?.lines ?? []),
    },
  }));
  return { ...design, layers, drawing };
}

/** The invented designs, two to five layers each. */
export const RECIPES: readonly Recipe[] = [
  recipe("lantern", "Lantern", 80, 16, [
    outline("frame", "storm", ["roof", "sill", "bar-left", "bar-right"], { areaCm2: 6 }),
    flood("glass", "butter", ["glass", "flame"], { areaCm2: 26, narrowestMm: 30 }),
    flood("flame", "marmalade", ["flame"], { areaCm2: 2.2, narrowestMm: 9, thicknessMm: 1.5, touches: [1] }),
    detail("border", "storm", ["edge"], { areaCm2: 3, touches: [0, 1] }),
  ]),
  recipe("puffin", "Puffin", 90, 12, [
    outline("outline", "midnight", ["edge"], { areaCm2: 7 }),
    flood("back", "midnight", ["back"], { areaCm2: 24, narrowestMm: 26 }),
    flood("breast", "oyster", ["breast", "face"], { areaCm2: 12, narrowestMm: 27, touches: [0, 1] }),
    flood("beak", "marmalade", ["beak"], { areaCm2: 2.4, narrowestMm: 8, thicknessMm: 1.6, touches: [0, 2] }),
    detail("eye", "midnight", ["eye"], { areaCm2: 0.4, touches: [2] }),
  ]),
  recipe("rock-pool", "Rock pool", 75, 16, [
    topCoat("water", "sea-glass", ["water", "weed-1", "weed-2"], { areaCm2: 34 }),
    flood("weed", "moss", ["weed-1", "weed-2"], { areaCm2: 5, narrowestMm: 8, thicknessMm: 1.4 }),
    detail("foam", "oyster", ["foam-1", "foam-2"], { areaCm2: 3 }),
  ]),
  recipe("tide-star", "Tide star", 70, 20, [
    topCoat("arms", "rosehip", ["field"], { areaCm2: 24, narrowestMm: 28 }),
    detail("dots", "oyster", ["ray-1", "ray-2", "ray-3", "ray-4", "ray-5"], { areaCm2: 2 }),
  ]),
  recipe("pear", "Pear", 85, 15, [
    outline("outline", "moss", ["edge"], { areaCm2: 6 }),
    flood("fruit", "moss", ["fruit", "blush"], { areaCm2: 30, narrowestMm: 34 }),
    flood("blush", "shell", ["blush"], {
      areaCm2: 7,
      narrowestMm: 27,
      touches: [1],
      waits: [{ layer: 1, need: "wet" }],
    }),
    detail("stalk and leaf", "storm", ["stalk", "leaf"], {
      areaCm2: 1.5,
      touches: [1],
      waits: [{ layer: 1, need: "dry through" }],
    }),
  ]),
  recipe("rain-cloud", "Rain cloud", 95, 12, [
    outline("outline", "storm", ["edge"], { areaCm2: 8 }),
    flood("cloud", "oyster", ["cloud"], { areaCm2: 38, narrowestMm: 38 }),
    flood("drops", "sea-glass", ["drop-1", "drop-2", "drop-3"], {
      areaCm2: 3,
      narrowestMm: 7,
      thicknessMm: 1.5,
      touches: [],
    }),
  ]),
  recipe("heather", "Heather sprig", 65, 20, [
    topCoat("ground", "oyster", ["ground"], { areaCm2: 27 }),
    detail("stem", "moss", ["stem"], { areaCm2: 1.5 }),
    detail(
      "flowers",
      "heather",
      [24, 36, 48, 60].flatMap((y) => [`flower-left-${y}`, `flower-right-${y}`]),
      { areaCm2: 3, touches: [0, 1], waits: [{ layer: 1, need: "wet" }] },
    ),
  ]),
  recipe("limpet", "Limpet", 45, 24, [
    topCoat("shell", "shell", ["shell", "ring"], { areaCm2: 12, narrowestMm: 36 }),
    flood("ring", "heather", ["ring"], { areaCm2: 2, narrowestMm: 7, thicknessMm: 1.4 }),
  ]),
];

/** Names of invented orders. */
export const ORDER_NAMES: readonly string[] = (
  "Lantern Walk, Puffin Club, Market table, Tidepool party, Harbour choir, Kite morning, Ferry crew, " +
  "Mill Lane school, Boat shed dance, Nell’s seventh, Rope walk tea, Night swimmers, Cove wedding, Bell ringers, " +
  "Allotment fair, Sheepdog trial, Gull Street stall, Tin band, Lighthouse open day, Quarry picnic"
).split(", ");
