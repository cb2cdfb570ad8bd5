import { formatStopwatch } from "../../units.ts";
import type { AlertFact } from "#shared/kitchen/model/alert.ts";
import type { By } from "#shared/kitchen/model/event.ts";
import { leadsHere } from "#shared/kitchen/model/people.ts";
import { heatHolder, type HeatSet, type Kitchen, type Tray } from "#shared/kitchen/model/state.ts";
import { clip, nameOf, peopleOf, type Scene, told } from "./scene.ts";
import { MIN_MS, SECOND_MS } from "#shared/time.ts";

/** The holder is warned at this share of stop-by. */
const WARN_SHARE = 0.8;
/** A heat-set this long past stop-by is the leads' to end. */
const LEADS_AFTER_MS = MIN_MS;

/** Heat-sets that want a touch, near their stop-by, or past it. At most one alert a tray. */
export function heatAlerts(scene: Scene): AlertFact[] {
  return Object.values(scene.kitchen.trays).flatMap((tray) =>
    tray.standing.stage === "heat-set" ? heatAlert(scene, tray, tray.standing.heat) : [],
  );
}

function heatAlert(scene: Scene, tray: Tray, heat: HeatSet): AlertFact[] {
  const ranS = (scene.nowMs - heat.lapFromMs) / SECOND_MS;
  const stopS = Math.min(heat.limits.stopByS, heat.limits.capS);
  if (ranS >= stopS) return [runningLong(scene, tray, heat, stopS)];
  if (ranS >= WARN_SHARE * stopS) return [nearStop(scene, tray, heat, stopS)];
  // Under hot air the first cookie tells how long the others take: one prompt a tray, not a dozen.
  if (ranS >= heat.limits.checkFromS && heat.laps.length === 0) return [checkByTouch(scene, tray, heat)];
  return unwatched(scene, tray, heat, stopS);
}

const about = (tray: Tray, heat: HeatSet) => ({
  trayId: tray.id,
  trayNumber: tray.number,
  toolId: heat.toolId,
  sinceMs: heat.lapFromMs,
});

const holderOf = ({ kitchen }: Scene, heat: HeatSet): By => heatHolder(kitchen, heat);

/** The key of a matter, in other hands than began the heat theirs: it is raised for them, and what their predecessor was told clears. */
function keyOf(scene: Scene, heat: HeatSet, matter: string): string {
  const holder = holderOf(scene, heat);
  return holder === heat.holder ? matter : `${matter}:${holder}`;
}

const toolName = ({ kitchen }: Scene, heat: HeatSet): string =>
  kitchen.tools[heat.toolId]?.name ?? "the tool";

function runningLong(scene: Scene, tray: Tray, heat: HeatSet, stopS: number): AlertFact {
  const isLeads = scene.nowMs - heat.lapFromMs >= stopS * SECOND_MS + LEADS_AFTER_MS;
  const key = keyOf(scene, heat, `heat-running-long:${heat.actId}:${heat.laps.length}`);
  const whose = `${nameOf(scene, holderOf(scene, heat))} · ${toolName(scene, heat)}`;
  return {
    ...about(tray, heat),
    key: isLeads ? `${key}:leads` : key,
    kind: "heat-running-long",
    class: "urgent",
    what: "Stop the heat",
    todo: clip(
      isLeads
        ? `Over a minute too long: ${leadNames(scene.kitchen)}, go and end it. ${whose}`
        : `${whose}. Take the heat off, look for cracks`,
    ),
    told: told({ wall: true, everyone: true, leads: isLeads, people: peopleOf(holderOf(scene, heat)) }),
  };
}

/** Letters that the leads' names may take in a line that says what to do as well. */
const NAMES_FIT = 60;

/** The leads by name: as many as fit, at least one, and how many more. */
export function leadNames(kitchen: Kitchen): string {
  const names = leadsHere(kitchen).map(({ name }) => name);
  const few = names.join(" or ");
  if (names.length <= 2 && few.length <= NAMES_FIT) return few === "" ? "a lead" : few;
  const counts = names.map((_, k) => k + 1);
  const shown = counts.findLast((count) => someNames(names, count).length <= NAMES_FIT);
  return someNames(names, shown ?? 1);
}

const someNames = (names: readonly string[], count: number): string =>
  `${names.slice(0, count).join(", ")}${count < names.length ? ` +${names.length - count}` : ""}`;

/** Whose a heat-set is, where the holder's phone cannot be reached and the wall speaks in its stead. Last in its line: names are long. */
const lostWords = (scene: Scene, heat: HeatSet): string =>
  `Phone out of earshot: ${nameOf(scene, holderOf(scene, heat))}’s, on ${toolName(scene, heat)}`;

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
    {
      ...about(tray, heat),
      key: `${key}:wall`,
      kind: "heat-unwatched",
      class: "prompt",
      what: "Watch this heat",
      todo: clip(
        `Stop by ${formatStopwatch(stopS)}, touch ${checkFromS < 1 ? "now" : `from ${formatStopwatch(checkFromS)}`}. ${lostWords(scene, heat)}`,
      ),
      told: told({ wall: true }),
    },
  ];
}

/** No finger goes into a hot chamber. */
const touch = ({ toolKind }: HeatSet): string =>
  toolKind === "hot-air" ? "Touch" : "Take it out with dry mitts, then touch";

function nearStop(scene: Scene, tray: Tray, heat: HeatSet, stopS: number): AlertFact {
  const key = keyOf(scene, heat, `heat-near-stop:${heat.actId}:${heat.laps.length}`);
  const isWall = isWalls(scene, heat, key);
  const stop = formatStopwatch(stopS);
  return {
    ...about(tray, heat),
    key: isWall ? `${key}:wall` : key,
    kind: "heat-near-stop",
    class: "prompt",
    what: "Heat nearly at its limit",
    todo: clip(
      isWall
        ? `Stop by ${stop}. ${lostWords(scene, heat)}`
        : `${touch(heat)} it now; stop by ${stop} at the latest`,
    ),
    // There may be no wall in sight: the leads' phones are told with it.
    told: told({ wall: isWall, leads: isWall, people: peopleOf(holderOf(scene, heat)) }),
  };
}

function checkByTouch(scene: Scene, tray: Tray, heat: HeatSet): AlertFact {
  const key = keyOf(scene, heat, `set-check-by-touch:${heat.actId}`);
  const isWall = isWalls(scene, heat, key);
  return {
    ...about(tray, heat),
    key: isWall ? `${key}:wall` : key,
    kind: "set-check-by-touch",
    class: "prompt",
    what: "May be set: check by touch",
    todo: clip(
      isWall
        ? `${heat.toolKind === "hot-air" ? "Have it touched" : "Have it out with dry mitts, and touched"}. ${lostWords(scene, heat)}`
        : `${touch(heat)} an edge lightly. A slight gloss is normal; stop at the first dulling or bulge`,
    ),
    told: told({ wall: isWall, people: peopleOf(holderOf(scene, heat)) }),
  };
}
