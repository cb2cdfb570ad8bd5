import { setWithinMin, sinkRisk } from "../../icing/sinking.ts";
import { byName } from "../by-name.ts";
import type { PersonId } from "../../ids.ts";
import type { AlertFact } from "../alert.ts";
import { type Film, filmKey, standsAt, type Tray } from "../state.ts";
import type { Layer } from "../vocabulary.ts";
import { clip, MIN_MS, peopleOf, type Scene, told, trayWords } from "./scene.ts";

/** Bubbles: told this long before the skin's earliest time. */
const LAST_CHANCE_MS = 2 * MIN_MS;
/** A skin sooner than this leaves no time to be told. */
const SOONEST_SKIN_MS = 4 * MIN_MS;
/** Sinking: told this long before the minutes to heat-set are over, or half-way there. */
const SINK_LEAD_MS = 2 * MIN_MS;
/** Trays of one design flooded by one person within this make one alert. */
const TOGETHER_MS = 4 * MIN_MS;

/** A film that still may need hands: flooded, not touched, and when its skin may come. */
interface WetFilm {
  tray: Tray;
  film: Film;
  layer: Layer;
  who: PersonId;
  skin: { earliestMs: number; likelyMs: number };
}

/** Prompts about wet films, for whoever flooded them. */
export function filmAlerts(scene: Scene): AlertFact[] {
  const groups = together(floodedFilms(scene));
  return [
    ...groups.flatMap((group) => bubbles(scene, group)),
    ...inHandBubbles(scene),
    ...groups.flatMap((group) => sinking(scene, group)),
  ];
}

const isPoured = (layer: Layer): boolean => layer.consistency === "flood" || layer.consistency === "top-coat";

function floodedFilms({ kitchen, forecasts }: Scene): WetFilm[] {
  return Object.values(kitchen.trays).flatMap((tray) => {
    const layers = kitchen.designs[tray.designId]?.layers;
    if (layers === undefined || tray.standing.stage === "packed") return [];
    return tray.films.flatMap((film) => {
      const layer = layers[film.layer];
      const skin = forecasts.films[filmKey(tray.id, film.layer)]?.skin;
      const who = peopleOf(film.by)[0] ?? tray.assignedTo;
      if (layer === undefined || !isPoured(layer) || skin === undefined || "never" in skin || !who) return [];
      return [{ tray, film, layer, who, skin }];
    });
  });
}

/** Films of one layer of one design by one person, begun within a few minutes of the first: by facts, so groups stay. */
function together(films: readonly WetFilm[]): WetFilm[][] {
  const lines = byName(films, ({ tray, film, who }) => `${who}/${tray.designId}/${film.layer}`);
  return [...lines.values()].flatMap((line) => {
    const groups: WetFilm[][] = [];
    for (const next of line.toSorted((a, b) => a.film.clockStartMs - b.film.clockStartMs)) {
      const group = groups.at(-1);
      const first = group?.[0];
      const isWithin =
        first !== undefined && next.film.clockStartMs - first.film.clockStartMs < mergeMs(first);
      if (group !== undefined && isWithin) group.push(next);
      else groups.push([next]);
    }
    return groups;
  });
}

/** No tray joins an alert after it was raised: the first tray's lead bounds the group. */
const mergeMs = ({ film, skin }: WetFilm): number =>
  Math.min(TOGETHER_MS, Math.max(0, (skin.earliestMs - LAST_CHANCE_MS - film.clockStartMs) / 2));

const isUntouched = ({ tray, film }: WetFilm): boolean =>
  film.findings.length === 0 &&
  film.skinnedBy === undefined &&
  !(tray.standing.stage === "heat-set" && tray.standing.heat.layer === film.layer);

const keyFor = (kind: string, [first]: readonly WetFilm[]): string =>
  `${kind}:${first?.tray.id}:${first?.film.layer}:${first?.film.clockStartMs}`;

const one = (films: readonly WetFilm[]): Pick<AlertFact, "trayId" | "trayNumber"> => {
  const tray = films.length === 1 ? films[0]?.tray : undefined;
  return tray === undefined ? {} : { trayId: tray.id, trayNumber: tray.number };
};

/** "" for one tray, whose number stands beside the line; else the numbers. */
const which = (films: readonly WetFilm[]): string =>
  films.length === 1 ? "" : `${trayWords(films.map(({ tray }) => tray.number))}: `;

function bubbles(scene: Scene, group: readonly WetFilm[]): AlertFact[] {
  const open = group.filter(
    (wet) => isUntouched(wet) && !wasToldInHand(wet) && scene.nowMs <= wet.skin.earliestMs,
  );
  const [first] = group;
  const isNear = open.some(({ skin }) => skin.earliestMs - scene.nowMs <= LAST_CHANCE_MS);
  if (first === undefined || !isNear || !leavesTime(first)) return [];
  return [
    {
      ...one(open),
      key: keyFor("bubbles-last-chance", group),
      kind: "bubbles-last-chance",
      class: "prompt",
      what: clip(`${which(open)}last chance for bubbles`),
      todo: "Needle bubbles and settle the icing now: a skin may close within minutes",
      told: told({ people: [first.who] }),
    },
  ];
}

const leavesTime = ({ film, skin }: WetFilm): boolean =>
  skin.earliestMs - film.clockStartMs >= SOONEST_SKIN_MS;

/** Whether the prompt already came while the tray was still being flooded: its first cookies are the oldest. */
function wasToldInHand({ film, skin }: WetFilm): boolean {
  const spanMs = skin.earliestMs - film.clockStartMs;
  return film.floodingFromMs + spanMs - LAST_CHANCE_MS < film.clockStartMs;
}

function inHandBubbles({ kitchen, forecasts, nowMs }: Scene): AlertFact[] {
  return Object.values(kitchen.trays).flatMap((tray): AlertFact[] => {
    if (tray.standing.stage !== "flooding") return [];
    const { layer: k, startedAtMs, by } = tray.standing;
    const layer = kitchen.designs[tray.designId]?.layers[k];
    const skin = forecasts.films[filmKey(tray.id, k)]?.skin;
    if (layer === undefined || !isPoured(layer) || skin === undefined || "never" in skin) return [];
    const leftMs = skin.earliestMs - nowMs;
    const isDue = leftMs >= 0 && leftMs <= LAST_CHANCE_MS && skin.earliestMs - startedAtMs >= SOONEST_SKIN_MS;
    if (!isDue) return [];
    return [
      {
        key: `bubbles-last-chance:${tray.id}:${k}:${startedAtMs}:hand`,
        kind: "bubbles-last-chance",
        class: "prompt",
        what: "First cookies: last chance for bubbles",
        todo: "Needle the first ones now: a skin may close on them within minutes",
        told: told({ people: peopleOf(by) }),
        trayId: tray.id,
        trayNumber: tray.number,
      },
    ];
  });
}

function sinking(scene: Scene, group: readonly WetFilm[]): AlertFact[] {
  const { kitchen, nowMs } = scene;
  const hasTool = Object.values(kitchen.tools).some((tool) => tool.outOfService === undefined);
  const [first] = group;
  if (first === undefined || !hasTool || sinkRisk(first.layer.narrowestMm) === "none") return [];
  const open = group.filter((wet) => isUntouched(wet) && !isWarm(scene, wet) && nowMs <= wet.skin.earliestMs);
  if (!open.some((wet) => nowMs >= sinkToldMs(kitchen.settings.sinkShare, wet))) return [];
  return [
    {
      ...one(open),
      key: keyFor("will-sink", group),
      kind: "will-sink",
      class: "prompt",
      what: clip(
        `${which(open)}small sections ${sinkRisk(first.layer.narrowestMm) === "most" ? "will most likely" : "may"} sink`,
      ),
      todo: "Heat-set them in the next minutes, before the skin closes",
      told: told({ people: [first.who] }),
    },
  ];
}

/** Already had heat since its flooding began, or stands in warmth. */
function isWarm({ kitchen }: Scene, { tray, film }: WetFilm): boolean {
  const kind = kitchen.places[standsAt(tray).placeId]?.kind;
  return (
    kind === "oven" ||
    kind === "warm-cabinet" ||
    tray.heats.some((heat) => heat.layer === film.layer && heat.startedAtMs >= film.floodingFromMs)
  );
}

function sinkToldMs(share: number, { film, skin }: WetFilm): number {
  const withinMs = setWithinMin((skin.likelyMs - film.clockStartMs) / MIN_MS, share) * MIN_MS;
  return film.clockStartMs + Math.max(withinMs / 2, withinMs - SINK_LEAD_MS);
}
