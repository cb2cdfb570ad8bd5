import { factorReaching } from "#shared/drying/uncertainty/factor-reaching.ts";
import { airOfFilm, filmSpecOf } from "./air.ts";
import { effectOf } from "#shared/kitchen/tray/act-effect.ts";
import type { EventOf, KitchenEvent, ImpliedFactor } from "#shared/kitchen/model/event.ts";
import { cookiesSet, hotAirHeats, inHandOf } from "#shared/kitchen/model/lookups.ts";
import type { Film, Kitchen, Tray } from "#shared/kitchen/model/state.ts";

/**
 * What a finding at a moment says of the kitchen's factors: the natural logs at which this film would skin, or be dry
 * through, just then. Kept in the event, so that replaying the log teaches the same.
 */
export function impliedFactors(kitchen: Kitchen, tray: Tray, film: Film, atMs: number): ImpliedFactor {
  const design = kitchen.designs[tray.designId];
  const afterS = (atMs - film.clockStartMs) / 1000;
  if (design === undefined || afterS <= 0) return { layer: film.layer };
  const { spells, roomC } = airOfFilm(kitchen, tray, film, atMs);
  const spec = { ...filmSpecOf(kitchen, design, film.layer), roomC };
  const skin = factorReaching(spec, spells, "skin", afterS);
  const dryThrough = factorReaching(spec, spells, "dryThrough", afterS);
  return {
    layer: film.layer,
    ...(skin === undefined ? {} : { skinLn: Math.log(skin) }),
    ...(dryThrough === undefined ? {} : { dryThroughLn: Math.log(dryThrough) }),
  };
}

/**
 * An event with what its findings imply of the kitchen's factors: the server adds it after deciding, before logging, since it
 * takes solving the drying equations. `kitchen` is as the event was decided in.
 */
export function withImpliedFactors(kitchen: Kitchen, event: KitchenEvent): KitchenEvent {
  if (event.type === "touch-tested")
    return { ...event, weighed: impliedAt(kitchen, event.trayId, event.weighed, event.atMs) };
  if (event.type === "heat-set-ended") return withImpliedHeat(kitchen, event);
  if (event.type !== "flooded" && event.type !== "packed") return event;
  const tray = kitchen.trays[event.trayId];
  // What a layer was laid against had skinned when it was begun.
  const begunMs = event.type === "flooded" && tray !== undefined ? inHandOf(tray)?.startedAtMs : undefined;
  const atMs = begunMs ?? event.atMs;
  return { ...event, weighed: event.weighed.map((one) => impliedAt(kitchen, event.trayId, one, atMs)) };
}

/**
 * A heat-set's end says that the film had set by then, or had not. Under hot air each cookie is touched as its lap ends; while
 * some had none, a tray's one film says nothing.
 */
function withImpliedHeat(kitchen: Kitchen, event: EventOf<"heat-set-ended">): KitchenEvent {
  const tray = kitchen.trays[event.trayId];
  const design = kitchen.designs[tray?.designId ?? ""];
  if (tray === undefined || design === undefined || tray.status.stage !== "heat-set") return event;
  const { layer, toolKind } = tray.status.heat;
  const film = tray.films.find((one) => one.layer === layer);
  if (film === undefined) return event;
  if (toolKind !== "hot-air")
    return { ...event, weighed: skinAlone(impliedFactors(kitchen, tray, film, event.atMs)) };
  const after = { ...tray, ...effectOf(tray, event, design) };
  const heats = hotAirHeats(after.heats, layer);
  if (cookiesSet(heats) < tray.count) return event;
  const laps = heats.flatMap((heat) => heat.laps);
  const lapMs = laps.reduce((sum, { fromMs, toMs }) => sum + toMs - fromMs, 0) / tray.count;
  const setAtMs = Math.max(laps[0]?.fromMs ?? 0, film.clockStartMs) + lapMs;
  return { ...event, weighed: skinAlone(impliedFactors(kitchen, after, film, setAtMs)) };
}

/** Minutes of heat say nothing of when a film is dry through. */
const skinAlone = ({ layer, skinLn }: ImpliedFactor): ImpliedFactor => ({
  layer,
  ...(skinLn === undefined ? {} : { skinLn }),
});

function impliedAt(kitchen: Kitchen, trayId: string, weighed: ImpliedFactor, atMs: number): ImpliedFactor {
  const tray = kitchen.trays[trayId];
  const film = tray?.films.find(({ layer }) => layer === weighed.layer);
  return tray === undefined || film === undefined ? weighed : impliedFactors(kitchen, tray, film, atMs);
}
