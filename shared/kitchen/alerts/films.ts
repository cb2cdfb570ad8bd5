import { remembered } from "#shared/collections.ts";
import { isReached, type ReachedBand } from "#shared/drying/uncertainty/band.ts";
import { isPoured } from "#shared/icing/poured.ts";
import { layerSinkRisk, setWithinMin } from "#shared/icing/sinking.ts";
import type { PersonId } from "#shared/ids.ts";
import { type AlertFact, makeAlert } from "#shared/kitchen/model/alert.ts";
import type { Forecasts } from "#shared/kitchen/model/forecast.ts";
import { filmKey, standsAt } from "#shared/kitchen/model/lookups.ts";
import type { Film, Kitchen, Tray } from "#shared/kitchen/model/state.ts";
import type { Design, Layer } from "#shared/kitchen/model/vocabulary.ts";
import { peopleOf, type Scene } from "./scene.ts";
import { MIN_MS } from "#shared/time.ts";

/** Bubbles: alerted this long before the skin's earliest time. */
const LAST_CHANCE_MS = 2 * MIN_MS;
/** A skin sooner than this leaves no time for an alert. */
const SOONEST_SKIN_MS = 4 * MIN_MS;
/** Sinking: alerted this long before the minutes to heat-set are over, or half-way there. */
const SINK_LEAD_MS = 2 * MIN_MS;

/** A poured film that no finger, heat or later layer has touched, and whose it is. */
interface UntouchedFilm {
  tray: Tray;
  film: Film;
  layer: Layer;
  who: PersonId;
  filmKey: string;
  bubblesKey: string;
  sinkKey: string;
}

/** One that may need hands, and when its skin may come. */
interface WetFilm {
  of: UntouchedFilm;
  skin: ReachedBand;
}

/** Prompts about wet films, for whoever flooded them: once for each film, by facts that do not move. */
export function filmAlerts(scene: Scene): AlertFact[] {
  const films = wetFilms(scene);
  return [
    ...films.flatMap((wet) => bubbles(scene, wet)),
    ...inHandBubbles(scene),
    ...films.flatMap((wet) => sinking(scene, wet)),
  ];
}

/** Untouched films before their skin's likeliest time. */
const wetFilms = ({ kitchen, forecasts, nowMs }: Scene): WetFilm[] =>
  skinning(kitchen.trays, kitchen.designs, forecasts).filter(({ skin }) => nowMs <= skin.likelyMs);

// Asked four times a second of every tray, of which few change in between. Forecasts are remembered by the object about their
// tables, which each patch makes anew: rows of a table may be written in place.

/** Untouched films that will have a skin. */
const skinning = remembered(
  (trays: Kitchen["trays"], designs: Kitchen["designs"], forecasts: Forecasts): WetFilm[] => {
    const wet: WetFilm[] = [];
    for (const tray of Object.values(trays)) {
      for (const of of untouchedFilms(tray, designs[tray.designId])) {
        const skin = forecasts.films[of.filmKey]?.skin;
        if (isReached(skin)) wet.push({ of, skin });
      }
    }
    return wet;
  },
);

const untouchedFilms = remembered((tray: Tray, design: Design | undefined): readonly UntouchedFilm[] => {
  if (tray.status.stage === "packed") return [];
  return tray.films.flatMap((film) => {
    const layer = design?.layers[film.layer];
    const who = peopleOf(film.by)[0] ?? tray.assignedTo;
    if (layer === undefined || !who || !isPoured(layer.consistency) || !isUntouched(tray, film)) return [];
    const key = `${tray.id}:${film.layer}:${film.clockStartMs}`;
    const keys = { bubblesKey: `bubbles-last-chance:${key}`, sinkKey: `will-sink:${key}` };
    return [{ tray, film, layer, who, filmKey: filmKey(tray.id, film.layer), ...keys }];
  });
});

const isUntouched = ({ status }: Tray, film: Film): boolean =>
  film.findings.length === 0 &&
  film.skinnedBy === undefined &&
  !(status.stage === "heat-set" && status.heat.layer === film.layer);

const about = ({ tray, film }: UntouchedFilm) => ({
  trayId: tray.id,
  trayNumber: tray.number,
  layer: film.layer,
});

const bubblesAlert = remembered((of: UntouchedFilm) =>
  makeAlert(
    "bubbles-last-chance",
    { people: [of.who] },
    { key: of.bubblesKey, ...about(of), isInHand: false },
  ),
);

const sinkAlert = remembered((of: UntouchedFilm) => {
  const risk = layerSinkRisk(of.layer);
  if (risk === "none") return [];
  return [makeAlert("will-sink", { people: [of.who] }, { key: of.sinkKey, ...about(of), risk })];
});

/**
 * A prompt once given stays while its film is likely wet. The skin's earliest time does not end it: that draws nearer to
 * the likeliest as time goes by, and the prompt would come again and again.
 */
const isActive = ({ kitchen }: Scene, key: string): boolean => kitchen.alerts[key] !== undefined;

function bubbles(scene: Scene, wet: WetFilm): AlertFact[] {
  const { skin, of } = wet;
  const { film } = of;
  const leftMs = skin.earliestMs - scene.nowMs;
  const isNear = leftMs >= 0 && leftMs <= LAST_CHANCE_MS;
  const leavesTime = skin.earliestMs - film.clockStartMs >= SOONEST_SKIN_MS;
  if (!isActive(scene, of.bubblesKey) && !(isNear && leavesTime && !wasRaisedInHand(wet))) return [];
  return [bubblesAlert(of)];
}

/** Whether the prompt already came while the tray was still being flooded: its first cookies are the oldest. */
function wasRaisedInHand({ of: { film }, skin }: WetFilm): boolean {
  const spanMs = skin.earliestMs - film.clockStartMs;
  return film.floodingFromMs + spanMs - LAST_CHANCE_MS < film.clockStartMs;
}

const traysFlooded = remembered((trays: Kitchen["trays"]) =>
  Object.values(trays).filter(({ status }) => status.stage === "flooding"),
);

function inHandBubbles(scene: Scene): AlertFact[] {
  const { kitchen, forecasts, nowMs } = scene;
  return traysFlooded(kitchen.trays).flatMap((tray): AlertFact[] => {
    if (tray.status.stage !== "flooding") return [];
    const { layer: k, startedAtMs, by } = tray.status;
    const layer = kitchen.designs[tray.designId]?.layers[k];
    const skin = forecasts.films[filmKey(tray.id, k)]?.skin;
    if (layer === undefined || !isPoured(layer.consistency) || skin === undefined || "never" in skin)
      return [];
    const leftMs = skin.earliestMs - nowMs;
    const isDue = leftMs >= 0 && leftMs <= LAST_CHANCE_MS && skin.earliestMs - startedAtMs >= SOONEST_SKIN_MS;
    const key = `bubbles-last-chance:${tray.id}:${k}:${startedAtMs}:hand`;
    if (!isDue && !(isActive(scene, key) && nowMs <= skin.likelyMs)) return [];
    return [
      makeAlert(
        "bubbles-last-chance",
        { people: peopleOf(by) },
        { key, trayId: tray.id, trayNumber: tray.number, layer: k, isInHand: true },
      ),
    ];
  });
}

function sinking(scene: Scene, wet: WetFilm): AlertFact[] {
  const { kitchen, nowMs } = scene;
  const { skin, of } = wet;
  const isTime = nowMs >= sinkAlertMs(kitchen.settings.sinkShare, wet) && nowMs <= skin.earliestMs;
  if (!isTime && !isActive(scene, of.sinkKey)) return [];
  if (isWarm(scene, of)) return [];
  if (!Object.values(kitchen.tools).some((tool) => tool.outOfService === undefined)) return [];
  return sinkAlert(of);
}

/** Already had heat since its flooding began, or stands in warmth. */
function isWarm({ kitchen }: Scene, { tray, film }: UntouchedFilm): boolean {
  const kind = kitchen.places[standsAt(tray).placeId]?.kind;
  return (
    kind === "oven" ||
    kind === "warm-cabinet" ||
    tray.heats.some((heat) => heat.layer === film.layer && heat.startedAtMs >= film.floodingFromMs)
  );
}

function sinkAlertMs(share: number, { of: { film }, skin }: WetFilm): number {
  const withinMs = setWithinMin((skin.likelyMs - film.clockStartMs) / MIN_MS, share) * MIN_MS;
  return film.clockStartMs + Math.max(withinMs / 2, withinMs - SINK_LEAD_MS);
}
