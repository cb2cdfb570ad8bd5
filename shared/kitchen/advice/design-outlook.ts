import type { Band } from "#shared/drying/uncertainty/band.ts";
import type { Learned } from "#shared/drying/uncertainty/learning.ts";
import { asId, type DesignId, type IcingId, type OrderId, type PlaceId, type TrayId } from "#shared/ids.ts";
import { byName, compareNames } from "#shared/collections.ts";
import { showsIfItBleeds } from "#shared/icing/contrast.ts";
import { batchesFor, massOfG } from "#shared/icing/quantities.ts";
import { plannedFilmOf, type Spans, spansAt } from "#shared/kitchen/forecast/films.ts";
import { layersToLay } from "#shared/kitchen/mixing/icing-needed.ts";
import type { Kitchen } from "#shared/kitchen/model/state.ts";
import type { Design } from "#shared/kitchen/model/vocabulary.ts";
import { sinking } from "#shared/kitchen/plan/next-layer.ts";
import { USUAL_PER_TRAY } from "#shared/kitchen/orders/tray-plans.ts";
import { minACookie, type Pace, paceOf } from "#shared/kitchen/plan/pace.ts";
import { outlookSteps } from "#shared/kitchen/plan/plan.ts";
import { questionSteps } from "#shared/kitchen/plan/question.ts";
import { newTray } from "#shared/kitchen/tray/fold.ts";
import { needsOf } from "#shared/kitchen/tray/route.ts";
import { atOnce } from "#shared/steps.ts";

/** What one layer of a design would be like, laid today. Spans count from when it is laid. */
export interface LayerOutlook extends Spans {
  /** Small sections may sink: heat them within so long of flooding. */
  heatWithinMin?: number;
}

/** A tray of a design in today's air, were it the only one to ice. */
export interface DesignOutlook {
  count: number;
  /** Of hands, for all layers. */
  handsMin: number;
  layers: readonly LayerOutlook[];
  /** From its first layer until every layer is dry through and it can be packed, closed hours counted. */
  dry?: Band;
  /** Pairs of icings that lie against each other and would show where one bled into the other. */
  bleeds: readonly (readonly [IcingId, IcingId])[];
  /** Of each icing on the cookies, without waste. */
  icings: readonly { icingId: IcingId; name: string; massG: number }[];
  /** Whether an area was guessed from the cookie's size. */
  isGuess: boolean;
}

/** As many cookies as most trays on the board hold. */
export const usualCount = ({ trays }: Pick<Kitchen, "trays">): number =>
  [...byName(Object.values(trays), ({ count }) => String(count)).values()].toSorted(
    (a, b) => b.length - a.length,
  )[0]?.[0]?.count ?? USUAL_PER_TRAY;

/** What a tray of so many cookies of a design comes to in the air of a place. */
export function designOutlook(
  kitchen: Kitchen,
  design: Design,
  { placeId, count }: { placeId: PlaceId; count: number },
  learned: Learned,
  nowMs: number,
): DesignOutlook {
  const pace = paceOf(kitchen);
  const spans = design.layers.map((_, k) =>
    spansAt(kitchen, placeId, plannedFilmOf(kitchen, design, k), learned, nowMs),
  );
  const dry = dryOf(kitchen, design, { placeId, count }, { learned, pace, spans, nowMs });
  const needs = layersToLay({ design, cookies: count, begun: 0 });
  return {
    count,
    handsMin: design.layers.reduce((sum, _, k) => sum + count * minACookie(pace, design, k), 0),
    layers: spans.map((own, k) => {
      const found = sinking(kitchen, design.layers[k]!, own.skin);
      return { ...own, ...(found && { heatWithinMin: found.withinMin }) };
    }),
    ...(dry && { dry }),
    bleeds: bleedsOf(kitchen, design),
    icings: icingsOf(kitchen, needs),
    isGuess: needs.some(({ isGuess }) => isGuess),
  };
}

/** The plan of a kitchen with this tray alone. */
function dryOf(
  kitchen: Kitchen,
  design: Design,
  { placeId, count }: { placeId: PlaceId; count: number },
  { learned, pace, spans, nowMs }: { learned: Learned; pace: Pace; spans: readonly Spans[]; nowMs: number },
): Band | undefined {
  const [trayId, orderId, designId] = [
    asId<TrayId>("tray"),
    asId<OrderId>("order"),
    asId<DesignId>("design"),
  ];
  const plan = { id: trayId, number: 1, designId, orderId, count, placeId };
  const alone: Kitchen = {
    ...kitchen,
    trays: { [trayId]: newTray(plan, nowMs) },
    orders: {},
    designs: { [designId]: { ...design, id: designId } },
  };
  const question = atOnce(
    questionSteps({
      kitchen: alone,
      films: {},
      spansOf: (_, layer) => spans[layer]!,
      pace,
      learned,
      nowMs,
    }),
  );
  const band = atOnce(outlookSteps(question, { trayId })).trays[trayId];
  if (band === undefined || "never" in band) return band;
  const { earliestMs, likelyMs, latestMs } = band;
  return { earliestMs: earliestMs - nowMs, likelyMs: likelyMs - nowMs, latestMs: latestMs - nowMs };
}

function bleedsOf({ icings }: Kitchen, design: Design): [IcingId, IcingId][] {
  const found = new Map<string, [IcingId, IcingId]>();
  design.layers.forEach(({ icingId }, k) => {
    for (const { layer } of needsOf(design, k)) {
      const other = design.layers[layer]!.icingId;
      const [a, b] = [icings[other]?.hex, icings[icingId]?.hex];
      if (a === undefined || b === undefined || !showsIfItBleeds(a, b)) continue;
      found.set([other, icingId].toSorted().join(), [other, icingId]);
    }
  });
  return [...found.values()];
}

function icingsOf(
  { icings, settings }: Kitchen,
  needs: ReturnType<typeof layersToLay>,
): DesignOutlook["icings"] {
  const byIcing = byName(batchesFor(needs), ({ colour }) => colour);
  return [...byIcing]
    .map(([icingId, own]) => ({
      icingId: asId<IcingId>(icingId),
      name: icings[icingId]?.name ?? "",
      massG: massOfG(
        own.reduce((sum, { needMl }) => sum + needMl, 0),
        settings.densityKgM3,
      ),
    }))
    .toSorted(compareNames);
}
