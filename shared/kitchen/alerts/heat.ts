import { remembered } from "#shared/collections.ts";
import type { PersonId } from "#shared/ids.ts";
import { type AlertFact, makeAlert } from "#shared/kitchen/model/alert.ts";
import type { By } from "#shared/kitchen/model/event.ts";
import { heatHolder } from "#shared/kitchen/model/lookups.ts";
import type { HeatSet, Kitchen, Tray } from "#shared/kitchen/model/state.ts";
import { peopleOf, type Scene } from "./scene.ts";
import { MIN_MS, SECOND_MS } from "#shared/time.ts";

/** The holder is warned at this share of stop-by. */
const WARN_SHARE = 0.8;
/** A heat-set this long past stop-by is the leads' to end. */
const LEADS_AFTER_MS = MIN_MS;

/** Heat-sets to be checked by touch, near their stop-by, or past it. At most one alert a tray. */
export function heatAlerts(scene: Scene): AlertFact[] {
  return traysUnderHeat(scene.kitchen.trays).flatMap((tray) =>
    tray.status.stage === "heat-set" ? heatAlert(scene, tray, tray.status.heat) : [],
  );
}

const traysUnderHeat = remembered((trays: Kitchen["trays"]) =>
  Object.values(trays).filter(({ status }) => status.stage === "heat-set"),
);

function heatAlert(scene: Scene, tray: Tray, heat: HeatSet): AlertFact[] {
  // Hot air is on no cookie: if it stays so, the tool is left on.
  if (heat.pausedSinceMs !== undefined) return [];
  const ranS = (scene.nowMs - heat.lapFromMs) / SECOND_MS;
  const stopS = Math.min(heat.limits.stopByS, heat.limits.capS);
  if (ranS >= stopS) return [runningLong(scene, tray, heat, stopS)];
  if (ranS >= WARN_SHARE * stopS) return [nearStop(scene, tray, heat, stopS)];
  // Under hot air the first cookie tells how long the others take: one prompt a tray, not a dozen.
  if (ranS >= heat.limits.checkFromS && heat.laps.length === 0) return [checkByTouch(scene, tray, heat)];
  return unwatched(scene, tray, heat, stopS);
}

const about = ({ kitchen }: Scene, tray: Tray, heat: HeatSet) => {
  const [holderId] = peopleOf(heatHolder(kitchen, heat));
  return {
    trayId: tray.id,
    trayNumber: tray.number,
    toolId: heat.toolId,
    toolKind: heat.toolKind,
    ...(holderId !== undefined && { holderId }),
    sinceMs: heat.lapFromMs,
  };
};

const peopleFor = (scene: Scene, heat: HeatSet): PersonId[] => peopleOf(holderOf(scene, heat));

const holderOf = ({ kitchen }: Scene, heat: HeatSet): By => heatHolder(kitchen, heat);

/** The key of a matter, in other hands than began the heat theirs: it is raised for them, and what their predecessor was alerted to clears. */
function keyOf(scene: Scene, heat: HeatSet, matter: string): string {
  const holder = holderOf(scene, heat);
  return holder === heat.holder ? matter : `${matter}:${holder}`;
}

function runningLong(scene: Scene, tray: Tray, heat: HeatSet, stopS: number): AlertFact {
  const isForLeads = scene.nowMs - heat.lapFromMs >= stopS * SECOND_MS + LEADS_AFTER_MS;
  const key = keyOf(scene, heat, `heat-running-long:${heat.actId}:${heat.laps.length}`);
  return makeAlert(
    "heat-running-long",
    { people: peopleFor(scene, heat), isForLeads },
    { key: isForLeads ? `${key}:leads` : key, ...about(scene, tray, heat) },
  );
}

/**
 * The wall takes over from a holder whose phone is lost. Once it has, it keeps the matter as long as the heat is theirs: a
 * phone that comes and goes must not make it flicker.
 */
const isWalls = (scene: Scene, heat: HeatSet, key: string): boolean =>
  scene.lostPeople.has(holderOf(scene, heat)) || scene.kitchen.alerts[`${key}:wall`] !== undefined;

/**
 * The wall speaks from the moment the phone is lost, before anything else is due. Of a warm cabinet it does not: hours there
 * overheat nothing, and every phone is put down meanwhile.
 */
function unwatched(scene: Scene, tray: Tray, heat: HeatSet, stopS: number): AlertFact[] {
  const key = keyOf(scene, heat, `heat-unwatched:${heat.actId}:${heat.laps.length}`);
  if (heat.toolKind === "warm-cabinet" || !isWalls(scene, heat, key)) return [];
  const { checkFromS } = heat.limits;
  return [
    makeAlert(
      "heat-unwatched",
      {},
      { key: `${key}:wall`, ...about(scene, tray, heat), checkFromS, stopByS: stopS },
    ),
  ];
}

function nearStop(scene: Scene, tray: Tray, heat: HeatSet, stopS: number): AlertFact {
  const key = keyOf(scene, heat, `heat-near-stop:${heat.actId}:${heat.laps.length}`);
  const isPhoneLost = isWalls(scene, heat, key);
  return makeAlert(
    "heat-near-stop",
    { people: peopleFor(scene, heat), isPhoneLost },
    { key: isPhoneLost ? `${key}:wall` : key, ...about(scene, tray, heat), stopByS: stopS, isPhoneLost },
  );
}

function checkByTouch(scene: Scene, tray: Tray, heat: HeatSet): AlertFact {
  const key = keyOf(scene, heat, `set-check-by-touch:${heat.actId}`);
  const isPhoneLost = isWalls(scene, heat, key);
  return makeAlert(
    "set-check-by-touch",
    { people: peopleFor(scene, heat), isPhoneLost },
    { key: isPhoneLost ? `${key}:wall` : key, ...about(scene, tray, heat), isPhoneLost },
  );
}
