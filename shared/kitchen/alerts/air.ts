import { type AlertFact, makeAlert } from "#shared/kitchen/model/alert.ts";
import { byName, remembered } from "#shared/collections.ts";
import { SILENT_AFTER_MIN } from "#shared/drying/air-record/readings.ts";
import { foundAt } from "#shared/kitchen/tray/route.ts";
import type { Forecasts } from "#shared/kitchen/model/forecast.ts";
import { filmKey, standsAt } from "#shared/kitchen/model/lookups.ts";
import type { Tray } from "#shared/kitchen/model/state.ts";
import { activeKey, keyOf, type Scene } from "./scene.ts";
import { DAY_MS, MIN_MS } from "#shared/time.ts";

/** Air that was too damp is dry enough again only below this, % RH. */
const DRY_AGAIN_PCT = 83;
/** A hygrometer silent for a day has been taken away: no longer news. */
const SILENT_UNTIL_MS = DAY_MS;

/** Places where icing will not dry, air that has changed, hygrometers gone quiet. */
export const airAlerts = (scene: Scene): AlertFact[] => [
  ...wontDry(scene),
  ...changed(scene),
  ...silent(scene),
];

const WONT_DRY = "will-not-dry-here";

function wontDry(scene: Scene): AlertFact[] {
  const { kitchen, forecasts } = scene;
  const isActive = Object.keys(kitchen.alerts).some((key) => key.startsWith(`${WONT_DRY}:`));
  if (!isActive && !isAnyNeverDry(forecasts)) return [];
  const resting = Object.values(kitchen.trays).filter(
    ({ status }) => status.stage === "crusting" || status.stage === "full-dry",
  );
  return [...byName(resting, (tray) => standsAt(tray).placeId)].flatMap(([placeId, trays]) => {
    const place = kitchen.places[placeId];
    if (place === undefined) return [];
    const stuck = trays.filter((tray) => neverDries(scene, tray));
    const prefix = `${WONT_DRY}:${place.id}`;
    const { air } = forecasts.places[place.id] ?? {};
    const isStillDamp = activeKey(kitchen, prefix) !== undefined && (air?.rhPct ?? 0) > DRY_AGAIN_PCT;
    if (stuck.length === 0 && !isStillDamp) return [];
    const numbers = (stuck.length > 0 ? stuck : trays).map((tray) => tray.number).toSorted((a, b) => a - b);
    return [
      makeAlert(
        WONT_DRY,
        {},
        { key: keyOf(scene, prefix, air?.atMs ?? scene.nowMs), placeId: place.id, trays: numbers },
      ),
    ];
  });
}

/** Asked four times a second, of hundreds of films that all dry on most days. */
const isAnyNeverDry = remembered(({ films }: Forecasts): boolean =>
  Object.values(films).some(({ dryThrough }) => "never" in dryThrough),
);

/** A film of it that no finger has found dry, and that the sums say never will be. */
const neverDries = ({ forecasts }: Scene, tray: Tray): boolean =>
  tray.films.some((film) => {
    const outlook = forecasts.films[filmKey(tray.id, film.layer)];
    return (
      outlook !== undefined && "never" in outlook.dryThrough && foundAt(film, "dry through") === undefined
    );
  });

function changed(scene: Scene): AlertFact[] {
  const { change } = scene.forecasts;
  const place = scene.kitchen.places[change?.placeId ?? ""];
  if (change === undefined || place === undefined) return [];
  const { later, sooner, sinceMs } = change;
  return [
    makeAlert(
      "air-changed",
      {},
      {
        key: keyOf(scene, `air-changed:${place.id}`, sinceMs),
        placeId: place.id,
        rhPctBy: Math.round(change.rhPctBy),
        later,
        sooner,
        sinceMs,
      },
    ),
  ];
}

function silent({ kitchen, nowMs }: Scene): AlertFact[] {
  return Object.values(kitchen.places).flatMap((place) => {
    const last = kitchen.readings[place.id]?.findLast(({ source }) => source !== "typed");
    const ageMs = last === undefined ? 0 : nowMs - last.atMs;
    if (last === undefined || ageMs <= SILENT_AFTER_MIN * MIN_MS || ageMs > SILENT_UNTIL_MS) return [];
    const key = `sensor-silent:${place.id}:${last.atMs}`;
    return [makeAlert("sensor-silent", {}, { key, placeId: place.id, sinceMs: last.atMs })];
  });
}
