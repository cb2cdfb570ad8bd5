import { own } from "#shared/collections.ts";
import { evidenceOfTray } from "#shared/kitchen/forecast/evidence.ts";
import type { EvidenceFact } from "#shared/kitchen/model/event.ts";
import { batchOf } from "#shared/kitchen/model/lookups.ts";
import type { BatchState, Film, HeatDone, Kitchen, Tray } from "#shared/kitchen/model/state.ts";
import type { Layer } from "#shared/kitchen/model/vocabulary.ts";
import { handsMin } from "#shared/kitchen/tray/laying.ts";
import { readingsAt } from "#shared/kitchen/tray/place-readings.ts";
import { foundAt } from "#shared/kitchen/tray/route.ts";
import { HOUR_MS } from "#shared/time.ts";
import type { Words } from "#shared/words/words.ts";
import type { EventLog } from "#server/log/event-log.ts";
import { type Cell, iso, nameOf, traysAsCsv } from "./tray-rows.ts";

type FilmWords = Words["server"]["csv"]["films"];
type Column = keyof FilmWords["columns"];

/** One film, with what its cells are read off. */
interface FilmRow {
  kitchen: Kitchen;
  tray: Tray;
  film: Film;
  layer: Layer | undefined;
  batch: BatchState | undefined;
  heats: readonly HeatDone[];
  /** Where it stood when its drying clock started. */
  placeId: string;
  air: { tempC: number; rhPct: number } | undefined;
  /** The band that was first shown to a finger, minutes from the clock's start. */
  shown: Partial<Record<EvidenceFact["quantity"], EvidenceFact["shown"]>>;
}

/** Air read longer before than this is not a film's own. */
const AIR_WITHIN_MS = 3 * HOUR_MS;

function filmRow(kitchen: Kitchen, tray: Tray, film: Film): FilmRow {
  const stood = tray.placements.findLast(({ fromMs }) => fromMs <= film.clockStartMs);
  const placeId = stood?.placeId ?? tray.placeId;
  const evidence = evidenceOfTray(kitchen, tray).filter(({ layer }) => layer === film.layer);
  const shownOf = (wanted: EvidenceFact["quantity"]) =>
    evidence.find(({ quantity }) => quantity === wanted)?.shown;
  return {
    kitchen,
    tray,
    film,
    layer: kitchen.designs[tray.designId]?.layers[film.layer],
    batch: batchOf(kitchen, film.bowl?.id ?? ""),
    heats: tray.heats.filter(({ layer }) => layer === film.layer),
    placeId,
    air: readingsAt(kitchen, placeId).findLast(
      ({ atMs }) => atMs <= film.clockStartMs && film.clockStartMs - atMs <= AIR_WITHIN_MS,
    ),
    shown: { skin: shownOf("skin"), dryThrough: shownOf("dryThrough") },
  };
}

const tenth = (value: number | undefined): number | undefined =>
  value === undefined ? undefined : Math.round(value * 10) / 10;

const heatS = (heats: readonly HeatDone[]): number =>
  heats.flatMap(({ laps }) => laps).reduce((sum, { fromMs, toMs }) => sum + (toMs - fromMs) / 1000, 0);

const cellsIn = (words: FilmWords): Record<Column, (row: FilmRow) => Cell> => ({
  tray: ({ tray }) => tray.number,
  order: ({ kitchen, tray }) => kitchen.orders[tray.orderId]?.name,
  design: ({ kitchen, tray }) => kitchen.designs[tray.designId]?.name,
  cookies: ({ tray }) => tray.count,
  layer: ({ film }) => film.layer + 1,
  icing: ({ kitchen, layer }) => kitchen.icings[layer?.icingId ?? ""]?.name,
  consistency: ({ layer }) => layer && words.consistencies[layer.consistency],
  thicknessMm: ({ layer }) => layer?.thicknessMm,
  narrowestMm: ({ layer }) => layer?.narrowestMm,
  batch: ({ batch }) => batch?.id,
  batchMixed: ({ batch }) => iso(batch?.mixedAtMs),
  recipe: ({ kitchen, batch }) => own(kitchen.recipes ?? {}, batch?.recipeId ?? "")?.name,
  closesS: ({ film }) => film.bowl?.closesS,
  place: ({ kitchen, placeId }) => kitchen.places[placeId]?.name,
  airC: ({ air }) => tenth(air?.tempC),
  rhPct: ({ air }) => tenth(air?.rhPct),
  begun: ({ film }) => iso(film.floodingFromMs),
  clockStart: ({ film }) => iso(film.clockStartMs),
  laidBy: ({ kitchen, film }) => nameOf(kitchen, film.by),
  handsMin: ({ tray, film }) => tenth(handsMin(tray, film)),
  laidEarly: ({ film }) => (film.risk === undefined ? 0 : 1),
  setWithinMin: ({ film }) => tenth(film.setWithinMin),
  heats: ({ heats }) =>
    heats.map(({ toolKind, result }) => `${words.toolKinds[toolKind]}: ${words.results[result]}`).join("; "),
  heatBegun: ({ heats }) => iso(heats[0]?.startedAtMs),
  heatS: ({ heats }) => tenth(heatS(heats)),
  findings: ({ film }) =>
    film.findings.map(({ atMs, finding }) => `${iso(atMs)} ${words.findings[finding]}`).join("; "),
  skinEarliestMin: ({ shown }) => tenth(shown.skin?.earliestMin),
  skinLikelyMin: ({ shown }) => tenth(shown.skin?.likelyMin),
  skinLatestMin: ({ shown }) => tenth(shown.skin?.latestMin),
  dryEarliestMin: ({ shown }) => tenth(shown.dryThrough?.earliestMin),
  dryLikelyMin: ({ shown }) => tenth(shown.dryThrough?.likelyMin),
  dryLatestMin: ({ shown }) => tenth(shown.dryThrough?.latestMin),
  wetAt: ({ film }) => iso(film.findings.findLast(({ finding }) => finding === "still wet")?.atMs),
  skinnedBy: ({ film }) => iso(foundAt(film, "skin")),
  dryBy: ({ film }) => iso(foundAt(film, "dry through")),
});

/** Every layer laid that stands, one row each, those of archived trays too. Times are UTC. */
export function filmRows(log: EventLog, words: FilmWords): AsyncGenerator<string> {
  const columns = Object.keys(words.columns) as Column[];
  const cells = cellsIn(words);
  return traysAsCsv(log, Object.values(words.columns), (tray, kitchen) =>
    tray.films.map((film) => {
      const row = filmRow(kitchen, tray, film);
      return columns.map((column) => cells[column](row));
    }),
  );
}
