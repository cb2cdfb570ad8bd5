import type { Risk } from "#shared/kitchen/model/risk.ts";
import { unreachable } from "#shared/outcome.ts";
import type { EventOf, TrayAct } from "#shared/kitchen/model/event.ts";
import { restAfter } from "./route.ts";
import { cookiesSet, hotAirHeats, inHandOf, standsAt } from "#shared/kitchen/model/lookups.ts";
import type { Film, Placement, TrayStatus, Tray } from "#shared/kitchen/model/state.ts";
import type { Design } from "#shared/kitchen/model/vocabulary.ts";

/** What an act changes on a tray it can be applied to. */
export function effectOf(tray: Tray, act: TrayAct, design: Design): Partial<Tray> {
  switch (act.type) {
    case "tray-assigned":
      return { assignedTo: act.to };
    case "flooding-started":
      return {
        ...takenBy(act),
        status: { stage: "flooding", layer: act.layer, startedAtMs: act.atMs, by: act.by, ...risked(act) },
      };
    case "flooded":
      return flooded(tray, act, design);
    case "touch-tested": {
      const { finding, atMs, by, actId, weighed, shown } = act;
      const found = { finding, atMs, by, actId, weighed, ...(shown === undefined ? {} : { shown }) };
      return { films: onFilm(tray, act.layer, (film) => ({ ...film, findings: [...film.findings, found] })) };
    }
    case "tray-moved":
      return movedTo(tray, act);
    case "heat-set-started":
      return heatStarted(tray, act);
    case "cookie-set":
      return tray.status.stage === "heat-set" ? { status: nextLap(tray.status, act) } : {};
    case "cookie-heat-started":
      return tray.status.stage === "heat-set" ? { status: heatOn(tray.status, act.atMs) } : {};
    case "heat-set-ended":
      return heatEnded(tray, act);
    case "problem-reported": {
      const { problem, count, atMs, by, actId, note } = act;
      return {
        problems: [
          ...tray.problems,
          { problem, count, atMs, by, actId, ...(note === undefined ? {} : { note }) },
        ],
      };
    }
    case "packed":
      return {
        status: {
          stage: "packed",
          atMs: act.atMs,
          by: act.by,
          ...risked(act),
          ...(act.seconds !== undefined && { seconds: act.seconds }),
        },
        films: act.risk === undefined ? tray.films.map((film) => dryBy(film, act)) : tray.films,
      };
    default:
      return unreachable(act);
  }
}

/** A layer is laid: its drying clock starts, and what it was laid against had skinned by then. */
function flooded(tray: Tray, act: EventOf<"flooded">, design: Design): Partial<Tray> {
  const { status } = tray;
  const inHand = inHandOf(tray);
  const rests = restAfter(design, act.layer);
  const risk = inHand?.risk ?? act.risk;
  const film: Film = {
    layer: act.layer,
    actId: act.actId,
    floodingFromMs: inHand?.startedAtMs ?? act.atMs,
    clockStartMs: act.atMs,
    by: act.by,
    findings: [],
    ...(act.bowl === undefined ? {} : { bowl: act.bowl }),
    ...(act.setWithinMin === undefined ? {} : { setWithinMin: act.setWithinMin }),
    ...(risk === undefined ? {} : { risk }),
  };
  const begunMs = inHand?.startedAtMs ?? act.atMs;
  const earlier = risk === undefined ? tray.films.map((old) => skinnedBy(old, act, begunMs)) : tray.films;
  return {
    ...takenBy(act),
    films: [...earlier, film],
    status: status.stage === "heat-set" ? { ...status, before: rests } : rests,
  };
}

function skinnedBy(film: Film, act: EventOf<"flooded">, begunMs: number): Film {
  const weighed = act.weighed.find(({ layer }) => layer === film.layer);
  if (weighed === undefined || film.skinnedBy !== undefined) return film;
  return {
    ...film,
    skinnedBy: { atMs: begunMs, ...(weighed.skinLn === undefined ? {} : { skinLn: weighed.skinLn }) },
  };
}

function dryBy(film: Film, act: EventOf<"packed">): Film {
  const ln = act.weighed.find(({ layer }) => layer === film.layer)?.dryThroughLn;
  return { ...film, dryBy: { atMs: act.atMs, ...(ln === undefined ? {} : { dryThroughLn: ln }) } };
}

function heatStarted(tray: Tray, act: EventOf<"heat-set-started">): Partial<Tray> {
  const { status } = tray;
  if (status.stage !== "flooding" && status.stage !== "crusting" && status.stage !== "full-dry") return {};
  const { actId, toolId, toolKind, airC, layer, by, atMs, limits } = act;
  return {
    // Logs of an earlier version name a place for hot air too, which moves nothing.
    ...(toolKind === "hot-air" ? {} : movedTo(tray, act)),
    status: {
      stage: "heat-set",
      heat: {
        actId,
        toolId,
        toolKind,
        layer,
        holder: by,
        startedAtMs: atMs,
        ...(airC === undefined ? {} : { airC }),
        limits,
        laps: [],
        lapFromMs: atMs,
      },
      returnTo: standsAt(tray),
      before: status,
    },
  };
}

type UnderHeat = Extract<TrayStatus, { stage: "heat-set" }>;

function nextLap(status: UnderHeat, { atMs, pauses }: EventOf<"cookie-set">): TrayStatus {
  const { heat } = status;
  return {
    ...status,
    heat: {
      ...heat,
      laps: [...heat.laps, { fromMs: heat.lapFromMs, toMs: atMs }],
      lapFromMs: atMs,
      ...(pauses === true && { pausedSinceMs: atMs }),
    },
  };
}

function heatOn(status: UnderHeat, atMs: number): TrayStatus {
  const { pausedSinceMs: _, ...heat } = status.heat;
  return { ...status, heat: { ...heat, lapFromMs: atMs } };
}

function heatEnded(tray: Tray, act: EventOf<"heat-set-ended">): Partial<Tray> {
  const { status } = tray;
  if (status.stage !== "heat-set") return {};
  const { lapFromMs, pausedSinceMs, ...heat } = status.heat;
  const laps =
    pausedSinceMs === undefined ? [...heat.laps, { fromMs: lapFromMs, toMs: act.atMs }] : heat.laps;
  const done = { ...heat, laps, endedAtMs: act.atMs, result: act.result, spoiled: act.spoiled };
  const finding = act.result === "not yet" ? ("still wet" as const) : ("skinned" as const);
  const weighed = act.weighed ?? { layer: heat.layer };
  const found = { finding, atMs: act.atMs, by: act.by, actId: act.actId, weighed };
  const heats = [...tray.heats, done];
  // What was found of some cookies says that a tray is wet, but not that all of it has set.
  const isFound =
    finding === "still wet" ||
    heat.toolKind !== "hot-air" ||
    cookiesSet(hotAirHeats(heats, heat.layer)) >= tray.count;
  return {
    ...movedTo(tray, {
      ...act,
      ...(act.placeId === undefined ? status.returnTo : { placeId: act.placeId }),
    }),
    status: status.before,
    heats,
    films: isFound
      ? onFilm(tray, heat.layer, (film) => ({ ...film, findings: [...film.findings, found] }))
      : tray.films,
    ...(act.spoiled === 0
      ? {}
      : {
          problems: [
            ...tray.problems,
            { problem: "swollen" as const, count: act.spoiled, atMs: act.atMs, by: act.by, actId: act.actId },
          ],
        }),
  };
}

function movedTo(
  tray: Tray,
  act: {
    placeId?: Tray["placeId"] | undefined;
    slot?: string | undefined;
    atMs: number;
    hotUntilMs?: number | undefined;
  },
): Partial<Tray> {
  const hot = stillHot(tray, act.hotUntilMs);
  const { placeId, slot } = act;
  const now = standsAt(tray);
  if (placeId === undefined || (placeId === now.placeId && slot === now.slot)) return hot;
  return { ...hot, placements: [...tray.placements, placement({ placeId, slot }, act.atMs)] };
}

/** A later, milder heat does not make a tray cool sooner. */
export const stillHot = (tray: Tray, untilMs: number | undefined): { hotUntilMs?: number } =>
  untilMs === undefined ? {} : { hotUntilMs: Math.max(untilMs, tray.hotUntilMs ?? untilMs) };

const onFilm = (tray: Tray, layer: number, change: (film: Film) => Film): readonly Film[] =>
  tray.films.map((film) => (film.layer === layer ? change(film) : film));

const takenBy = (act: TrayAct): Partial<Tray> => (act.by === "kitchen" ? {} : { assignedTo: act.by });
const risked = (act: { risk?: Risk | undefined }): { risk?: Risk } =>
  act.risk === undefined ? {} : { risk: act.risk };

/** Where a tray stands from a moment on. */
export const placement = (
  at: { placeId: Tray["placeId"]; slot?: string | undefined },
  fromMs: number,
): Placement => ({
  placeId: at.placeId,
  fromMs,
  ...(at.slot === undefined ? {} : { slot: at.slot }),
});
