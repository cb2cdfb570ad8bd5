import type { PlaceId } from "#shared/ids.ts";
import type { By } from "./event.ts";
import { own } from "#shared/collections.ts";
import type {
  BatchState,
  HeatDone,
  HeatSet,
  Kitchen,
  Placement,
  ToolState,
  Tray,
  TrayStatus,
  UsedBatch,
} from "./state.ts";
import type { Tool } from "./vocabulary.ts";

// What is read off the kitchen's state: trays, places, tools and films as they stand.

/** The heat-sets of a layer under hot air that have ended. */
export const hotAirHeats = (heats: readonly HeatDone[], layer: number): HeatDone[] =>
  heats.filter((heat) => heat.toolKind === "hot-air" && heat.layer === layer);

/** Cookies that heat-sets under hot air have set: each lap but one that ended "not yet". */
export const cookiesSet = (hotAir: readonly HeatDone[]): number =>
  hotAir.reduce((sum, { laps, result }) => sum + laps.length - (result === "not yet" ? 1 : 0), 0);

/** Which cookie of its tray is under hot air, from 1: it goes on where the last heat-set of the layer stopped. */
export function cookieUnder({ heats, count }: Tray, { layer, laps }: HeatSet): number {
  const before = cookiesSet(hotAirHeats(heats, layer));
  return (before < count ? before : 0) + laps.length + 1;
}

/** The tray that bears this number now: the one alive, else the one packed last. */
export function trayByNumber(kitchen: Kitchen, number: number): Tray | undefined {
  const bearers = Object.values(kitchen.trays).filter((tray) => tray.number === number);
  return (
    bearers.find((tray) => tray.status.stage !== "packed") ??
    bearers.toSorted((a, b) => b.addedAtMs - a.addedAtMs)[0]
  );
}

/** Trays not yet packed. */
export const aliveTrays = (kitchen: Kitchen): Tray[] =>
  Object.values(kitchen.trays).filter((tray) => tray.status.stage !== "packed");

/** The trays of an order that are on the board. */
export const traysOf = (kitchen: Kitchen, orderId: string): Tray[] =>
  Object.values(kitchen.trays).filter((tray) => tray.orderId === orderId);

/** Cookies of a tray that something went wrong with. */
export const spoiledOn = ({ problems, count }: Pick<Tray, "problems" | "count">): number =>
  Math.min(
    count,
    problems.reduce((sum, problem) => sum + problem.count, 0),
  );

/** Cookies of a packed tray that are sold as seconds. */
export const secondsOn = ({ status }: Pick<Tray, "status">): number =>
  status.stage === "packed" ? (status.seconds ?? 0) : 0;

/** Cookies of a tray that are good for its order. */
export const goodOn = (tray: Pick<Tray, "problems" | "count" | "status">): number =>
  Math.max(0, tray.count - spoiledOn(tray) - secondsOn(tray));

/** What a design is a version of: trays under way keep the one they were begun by. */
export const originalOf = ({ designs }: Pick<Kitchen, "designs">, designId: string): string =>
  designs[designId]?.revisionOf ?? designId;

/** Designs as they are now, without the earlier versions that trays were begun by. */
export const currentDesigns = ({ designs }: Pick<Kitchen, "designs">): Kitchen["designs"] =>
  Object.fromEntries(Object.entries(designs).filter(([, { revisionOf }]) => revisionOf === undefined));

/** A batch that stands, or that was used up lately. */
export const batchOf = (
  { batches, usedBatches = {} }: Pick<Kitchen, "batches" | "usedBatches">,
  batchId: string,
): BatchState | UsedBatch | undefined => own(batches, batchId) ?? own(usedBatches, batchId);

/** The key of one film's forecast. */
export const filmKey = (trayId: string, layer: number): string => `${trayId}/${layer}`;

/** The flooding under the hands now, or gone back to once a heat-set in its midst ends. */
export function inHandOf({ status }: Tray): Extract<TrayStatus, { stage: "flooding" }> | undefined {
  const now = status.stage === "heat-set" ? status.before : status;
  return now.stage === "flooding" ? now : undefined;
}

/** The layers of a tray that have a film, the one in hand among them. */
export const filmLayersOf = (tray: Tray): number[] => {
  const hand = inHandOf(tray);
  return [...tray.films.map(({ layer }) => layer), ...(hand === undefined ? [] : [hand.layer])];
};

/** Where a tray stands now. */
export const standsAt = (tray: Tray): Placement =>
  tray.placements.at(-1) ?? { placeId: tray.placeId, fromMs: tray.addedAtMs };

/** A tray's time in one place. */
export interface Stay {
  placeId: PlaceId;
  fromMs: number;
  /** Infinity where it stands there still. */
  untilMs: number;
}

/** Where a tray has stood, oldest first: moved to another slot of its place, it stays. */
export const staysOf = ({ placements }: Pick<Tray, "placements">): Stay[] =>
  placements
    .filter(({ placeId }, k) => placeId !== placements[k - 1]?.placeId)
    .map(({ placeId, fromMs }, k, stays) => ({
      placeId,
      fromMs,
      untilMs: stays[k + 1]?.fromMs ?? Number.POSITIVE_INFINITY,
    }));

/** Where a tray dries when nothing is done to it: under heat, where it goes back to. */
export const dryingPlaceOf = (tray: Tray): Placement =>
  tray.status.stage === "heat-set" ? tray.status.returnTo : standsAt(tray);

/** Whether a tray takes up room in a place: it stands there, or goes back there once its heat ends. */
export const keepsRoom = (tray: Tray, placeId: string): boolean =>
  standsAt(tray).placeId === placeId ||
  (tray.status.stage === "heat-set" && tray.status.returnTo.placeId === placeId);

/** How many more trays a place can take; one that is under heat elsewhere keeps its room. */
export function roomLeft(kitchen: Kitchen, placeId: string): number {
  const there = aliveTrays(kitchen).filter((tray) => keepsRoom(tray, placeId)).length;
  return (kitchen.places[placeId]?.capacity ?? 0) - there;
}

/** Whose a heat-set is: whoever began it, until its tool is handed over. */
export function heatHolder(kitchen: Kitchen, heat: HeatSet): By {
  const use = kitchen.tools[heat.toolId]?.use;
  const handed = use?.status === "on" ? use.handedOver : undefined;
  return handed !== undefined && handed.atMs >= heat.startedAtMs ? handed.to : heat.holder;
}

/** The tray that is under a tool's heat now. */
export const trayUnder = (kitchen: Kitchen, toolId: string): Tray | undefined =>
  Object.values(kitchen.trays).find(
    ({ status }) => status.stage === "heat-set" && status.heat.toolId === toolId,
  );

/** The place a tool warms: an oven's or a cabinet's own. Hot air, wherever it is kept, warms what it is held over. */
export const chamberOf = ({ kind, placeId }: Pick<Tool, "kind" | "placeId">): PlaceId | undefined =>
  kind === "hot-air" ? undefined : placeId;

/** The tools that warm whatever stands in a place. */
export const warmersOf = (kitchen: Kitchen, placeId: string): ToolState[] =>
  Object.values(kitchen.tools).filter((tool) => chamberOf(tool) === placeId);
