import { readingsAt, roomAir, roomReadings } from "#shared/kitchen/tray/place-readings.ts";
import { partedAt, rhPctOf, vapourPa, warmed } from "#shared/drying/film/air.ts";
import { AIR_SPEED_MS } from "#shared/drying/film/constants.ts";
import type { AirSpell, FilmSpec } from "#shared/drying/film/film.ts";
import type { AirDoubt } from "#shared/drying/uncertainty/forecast.ts";
import { type AirTimeline, airTimeline } from "#shared/drying/air-record/outlook.ts";
import { doubtOf, knownUntilMs } from "#shared/drying/air-record/readings.ts";
import { heatSpell } from "#shared/heat/set.ts";
import { type HeatToolSpec, HOT_AIR_TOOL } from "#shared/heat/tool.ts";
import { offsetMs } from "#shared/kitchen/model/calendar.ts";
import type { AirBasis } from "#shared/kitchen/model/forecast.ts";
import { chamberOf, cookiesSet, hotAirHeats, staysOf, warmersOf } from "#shared/kitchen/model/lookups.ts";
import type { AirReading, Film, Kitchen, Placement, Tray } from "#shared/kitchen/model/state.ts";
import type { Consistency, Design, Place, Tool } from "#shared/kitchen/model/vocabulary.ts";
import { MIN_MS } from "#shared/time.ts";

/** Water share of an icing at a consistency: its own figure, else the kitchen's. */
export function waterPctOf(kitchen: Kitchen, icingId: string, consistency: Consistency): number {
  return kitchen.icings[icingId]?.waterPct?.[consistency] ?? kitchen.settings.waterPct[consistency];
}

/** What the drying model needs to know of a design's layer. */
export function filmSpecOf(kitchen: Kitchen, design: Design, layer: number): FilmSpec {
  const own = design.layers[layer];
  if (own === undefined) throw new Error(`design ${design.id} has no layer ${layer}`);
  const laidAtC = kitchen.icings[own.icingId]?.laidAtC;
  return {
    thicknessMm: own.thicknessMm,
    waterPct: waterPctOf(kitchen, own.icingId, own.consistency),
    densityKgM3: kitchen.settings.densityKgM3,
    ...(laidAtC === undefined ? {} : { laidAtC }),
  };
}

/** A kitchen's tool as the heat model knows it; an oven's or cabinet's air is its place's, and its moisture as read there. It is as hot as set, or hotter where it was read so. */
export function heatToolOf(kitchen: Kitchen, tool: Tool, readC = Number.NEGATIVE_INFINITY): HeatToolSpec {
  const place = kitchen.places[chamberOf(tool) ?? ""];
  const airC = Math.max(place?.setTempC ?? tool.airC, readC);
  const read = place === undefined ? undefined : kitchen.readings[place.id]?.at(-1);
  return {
    kind: tool.kind,
    airC,
    maxAirC: tool.maxAirC,
    capS: tool.capS,
    coolDownMin: tool.coolDownMin,
    ...(tool.distanceCm === undefined ? {} : { distanceCm: tool.distanceCm }),
    ...(tool.nozzleMm === undefined ? {} : { nozzleMm: tool.nozzleMm }),
    ...(place === undefined ? {} : { airSpeedMs: place.airSpeedMs }),
    ...(read === undefined ? {} : { rhPct: rhPctOf(vapourPa(read), airC) }),
  };
}

export interface FilmAir {
  /** Temperature where it was laid, °C: biscuit and icing begin with it. */
  roomC: number;
  /** Seconds from the film's clock, real and outlook, as the solver takes them. */
  spells: AirSpell[];
  basis: AirBasis;
  doubt: AirDoubt;
  /** Seconds from the clock's start after which the air is not read but an outlook, or assumed. */
  doubtFromS: number;
}

/**
 * The air over one film from its clock's start: place by place as the tray moved, hour by hour as it was read, hot-air laps
 * at their time, then the outlook where it stands now.
 */
export function airOfFilm(
  kitchen: Kitchen,
  tray: Tray,
  film: Pick<Film, "layer" | "clockStartMs">,
  nowMs: number,
): FilmAir {
  const startMs = film.clockStartMs;
  const stays = staysOf(tray).map((stay, index) => ({
    ...stay,
    fromMs: index === 0 ? Math.min(stay.fromMs, startMs) : stay.fromMs,
  }));
  const spells: AirSpell[] = [];
  let basis: AirBasis = "assumed";
  let knownMs = startMs;
  let isKnown = true;
  let roomC: number | undefined;
  for (const stay of stays) {
    if (stay.untilMs <= startMs || stay.untilMs <= stay.fromMs) continue;
    const untilMs = Math.min(stay.untilMs, nowMs);
    if (isKnown && untilMs > knownMs) {
      knownMs = knownUntilMs(readingsAt(kitchen, stay.placeId), knownMs, untilMs, nowMs);
      isKnown = knownMs === untilMs;
    }
    const air = airAt(kitchen, stay.placeId, startMs, nowMs);
    basis = air.basis;
    roomC ??= air.roomC;
    const [fromS, untilS] = [(stay.fromMs - startMs) / 1000, (stay.untilMs - startMs) / 1000];
    const offS = (offSinceMs(kitchen, stay) - startMs) / 1000;
    if (offS > Math.max(0, fromS)) spells.push(...clipped(air.spells, fromS, Math.min(offS, untilS)));
    if (offS < untilS) spells.push(...clipped(air.unheated, Math.max(fromS, offS), untilS));
  }
  const readings = readingsAt(kitchen, stays.at(-1)?.placeId ?? tray.placeId);
  return {
    roomC: roomC ?? roomAir(kitchen).tempC,
    spells: withHotAir(kitchen, spells, tray, film),
    basis,
    doubt: doubtOf(readings, nowMs),
    doubtFromS: (knownMs - startMs) / 1000,
  };
}

interface PlaceAir {
  spells: AirSpell[];
  /** As it is there with the heat off. */
  unheated: readonly AirSpell[];
  /** What is laid there has this temperature, °C: that of the air it stands in, or of the room it comes from into heat. */
  roomC: number;
  basis: AirBasis;
  outlook: AirTimeline["outlook"];
}

/** The air of a place from a moment on, as the solver takes it. */
export function airAt(kitchen: Kitchen, placeId: string, fromMs: number, nowMs: number): PlaceAir {
  const place = kitchen.places[placeId];
  const room = roomReadings(kitchen).at(-1);
  const timelineOf = (readings: readonly AirReading[]): AirTimeline =>
    airTimeline(readings, fromMs, nowMs, {
      speedMs: place?.airSpeedMs ?? AIR_SPEED_MS.still,
      utcOffsetMin: offsetMs(kitchen.settings.timeZone, nowMs) / MIN_MS,
      ...(room === undefined ? {} : { lastKnown: room }),
    });
  const timeline = timelineOf(readingsAt(kitchen, placeId));
  const firstC = ({ spells }: AirTimeline): number => spells[0]?.air.tempC ?? roomAir(kitchen).tempC;
  if (place === undefined) return { ...timeline, unheated: timeline.spells, roomC: firstC(timeline) };
  const isRead = (kitchen.readings[place.id]?.length ?? 0) > 0;
  // What it was set to counts up to when it was set otherwise.
  const parted = (place.was ?? []).reduce<readonly AirSpell[]>((spells, { untilMs }) => {
    const atS = (untilMs - fromMs) / 1000;
    return atS > 0 ? partedAt(spells, atS) : spells;
  }, timeline.spells);
  const setAt = (fromS: number): Pick<Place, "setTempC" | "airSpeedMs"> =>
    place.was?.find(({ untilMs }) => untilMs > fromMs + fromS * 1000) ?? place;
  return {
    spells: parted.map((spell) => asSet(spell, setAt(spell.fromS), isRead)),
    // Neither warmed nor blown through.
    unheated: parted.map((spell) =>
      setAt(spell.fromS).setTempC === undefined || isRead
        ? asSet(spell, setAt(spell.fromS), isRead)
        : stilled(spell),
    ),
    roomC: firstC(isRead && setAt(0).setTempC !== undefined ? timelineOf(roomReadings(kitchen)) : timeline),
    basis: timeline.basis,
    outlook: timeline.outlook,
  };
}

/**
 * Since when nothing warms what stands in a place: every tool there was said off while it stood there, or is off and out of
 * service. What comes later switches it on, and what was off is then forgotten; where it is read, the readings tell.
 */
function offSinceMs(kitchen: Kitchen, { placeId, fromMs }: Placement): number {
  const offs = warmersOf(kitchen, placeId).map(({ use, outOfService }) => {
    const offAtMs = use.status === "off" ? (use.offAtMs ?? 0) : Infinity;
    return outOfService !== undefined || offAtMs > fromMs ? offAtMs : Infinity;
  });
  return offs.length === 0 ? Infinity : Math.max(...offs);
}

/** Air as a place was set: one that is heated, without a hygrometer of its own, keeps the room's moisture at its temperature. */
const asSet = (
  { fromS, air }: AirSpell,
  { setTempC, airSpeedMs }: Pick<Place, "setTempC" | "airSpeedMs">,
  isRead: boolean,
): AirSpell => ({
  fromS,
  air: setTempC === undefined || isRead ? { ...air, speedMs: airSpeedMs } : warmed(air, setTempC, airSpeedMs),
});

const stilled = ({ fromS, air }: AirSpell): AirSpell => ({
  fromS,
  air: { ...air, speedMs: AIR_SPEED_MS.still },
});

/** The part of a timeline between two moments, opening with the air that held then. */
function clipped(spells: readonly AirSpell[], fromS: number, untilS: number): AirSpell[] {
  const start = Math.max(0, fromS);
  const opening = spells.findLast((spell) => spell.fromS <= start) ?? spells[0];
  const later = spells.filter((spell) => spell.fromS > start && spell.fromS < untilS);
  return opening === undefined ? later : [{ fromS: start, air: opening.air }, ...later];
}

/** Once every cookie had hot air, the film's timeline has one's share of it: each had about that. */
function withHotAir(
  kitchen: Kitchen,
  spells: AirSpell[],
  tray: Tray,
  film: Pick<Film, "layer" | "clockStartMs">,
): AirSpell[] {
  const heats = hotAirHeats(tray.heats, film.layer);
  const laps = heats.flatMap((heat) => heat.laps);
  const [first, last] = [laps[0], heats.at(-1)];
  if (first === undefined || last === undefined || cookiesSet(heats) < tray.count) return spells;
  const heatedS = laps.reduce((sum, lap) => sum + (lap.toMs - lap.fromMs), 0) / tray.count / 1000;
  if (heatedS <= 0) return spells;
  const fromS = Math.max(0, (first.fromMs - film.clockStartMs) / 1000);
  // As it was set then: a tool may be changed since, or gone.
  const own = kitchen.tools[last.toolId];
  const tool = own?.kind === "hot-air" ? heatToolOf(kitchen, own) : HOT_AIR_TOOL;
  const air = heatSpell({ ...tool, airC: last.airC ?? tool.airC }, roomAir(kitchen));
  return [
    ...spells.filter((spell) => spell.fromS < fromS),
    { fromS, air },
    ...clipped(spells, fromS + heatedS, Number.POSITIVE_INFINITY),
  ];
}
