// The state in one file: its shapes, a tray's and a tool's first, then what is read off them at a glance.

import type { Risk } from "./risk.ts";
import type { PersonId, PlaceId, ToolId } from "#shared/ids.ts";
import type { ActiveAlert } from "./alert.ts";
import type { By, EvidenceFact, HeatLimitsFact, Shown, TrayAct, ImpliedFactor } from "./event.ts";
import type {
  Bowl,
  Consistency,
  Design,
  HeatResult,
  Icing,
  MixedBatch,
  Order,
  Person,
  Place,
  ProblemKind,
  Tool,
  ToolKind,
  TouchFinding,
  TrayPlan,
} from "./vocabulary.ts";
import type { Settings } from "./settings.ts";

/** A decorator's finding on a film. */
export interface FilmFinding {
  finding: TouchFinding;
  atMs: number;
  by: By;
  actId: string;
  weighed: ImpliedFactor;
  shown?: Shown;
}

/** One layer's icing on one tray, drying on its own clock. */
export interface Film {
  layer: number;
  actId: string;
  floodingFromMs: number;
  /** Start of the drying clock. */
  clockStartMs: number;
  by: By;
  /** What it was flooded from; of older logs it is not known. */
  bowl?: Bowl;
  /** What the second tap accepted when it was laid too soon. */
  risk?: Risk;
  findings: readonly FilmFinding[];
  /** A section of it may sink: it was to be heat-set within so many minutes of the clock's start. */
  setWithinMin?: number;
  /** A later layer was laid against it, or the tray packed: it had skinned (or dried through) by then. */
  skinnedBy?: { atMs: number; skinLn?: number };
  dryBy?: { atMs: number; dryThroughLn?: number };
}

/** A heat-set under way. Under hot air the limits count for each cookie's lap. */
export interface HeatSet {
  actId: string;
  toolId: ToolId;
  toolKind: ToolKind;
  layer: number;
  holder: By;
  startedAtMs: number;
  airC?: number;
  limits: HeatLimitsFact;
  laps: readonly { fromMs: number; toMs: number }[];
  lapFromMs: number;
  /** Since when the heat is on no cookie: one was set, and the next has not begun. */
  pausedSinceMs?: number;
}

/** A heat-set that has ended. */
export interface HeatDone extends Omit<HeatSet, "lapFromMs" | "pausedSinceMs"> {
  endedAtMs: number;
  result: HeatResult;
  spoiled: number;
}

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

/** Where a tray stands on its way. "Ready" is never stored: see route.ts. */
export type TrayStatus =
  | { stage: "queued" }
  | { stage: "flooding"; layer: number; startedAtMs: number; by: By; risk?: Risk }
  | {
      stage: "heat-set";
      heat: HeatSet;
      returnTo: Placement;
      before: Exclude<TrayStatus, { stage: "heat-set" | "packed" | "queued" }>;
    }
  | { stage: "crusting"; nextLayer: number }
  | { stage: "full-dry"; nextLayer?: number }
  | { stage: "packed"; atMs: number; by: By; risk?: Risk };

/** One act in a tray's history; what was taken back stays, marked. */
export interface HistoryEntry {
  act: TrayAct;
  takenBack?: { by: By; atMs: number };
}

/** Where a tray stood from a moment on. */
export interface Placement {
  placeId: PlaceId;
  slot?: string;
  fromMs: number;
}

/** A numbered physical tray: its plan (`placeId` and `slot` say where it began), its history, and what that comes to. */
export interface Tray extends TrayPlan {
  addedAtMs: number;
  history: readonly HistoryEntry[];
  /** Whose it is; null when given back to everyone. */
  assignedTo?: PersonId | null;
  status: TrayStatus;
  films: readonly Film[];
  /** Where it has stood, oldest first. */
  placements: readonly Placement[];
  heats: readonly HeatDone[];
  problems: readonly {
    problem: ProblemKind;
    count: number;
    atMs: number;
    by: By;
    note?: string;
    actId: string;
  }[];
  hotUntilMs?: number;
}

/** A tool that is off; how long, where that was said. */
export interface ToolOff {
  status: "off";
  offAtMs?: number;
  by?: By;
  /** The cool-down it was switched off with, where it was set shorter since. */
  coolDownMin?: number;
}

/** A tool that is on. Under a heat-set `idleSinceMs` is absent. */
export interface ToolOn {
  status: "on";
  onAtMs: number;
  holder: PersonId;
  /** Since when the holder has it; absent where that is since it was switched on. */
  heldFromMs?: number;
  /** It has stood idle since: never sooner than the last moment at which it is known to have been in use. */
  idleSinceMs?: number;
  /** Under a heat-set: the last moment at which it is otherwise known to have been in use. */
  usedAtMs?: number;
  /** Off said later than the heat-set began that switched it on: it counts again if that ended before it as well. */
  saidOff?: ToolOff;
  /** The last hand-over: what was under its heat by then went with it. */
  handedOver?: { to: PersonId; atMs: number };
}

export type ToolUse = ToolOff | ToolOn;

export interface ToolState extends Tool {
  use: ToolUse;
  outOfService?: { reason: string; atMs: number; by: By };
  /** When it was last said to be off; kept while it is on again. */
  lastOffMs?: number;
  lastTemperature?: { tempC: number; atMs: number };
}

export interface AirReading {
  atMs: number;
  tempC: number;
  rhPct: number;
  source: "typed" | "sensor" | "practice";
}

/** A place, and what it was set to before; oldest first. What stood there then had that air. */
export interface PlaceState extends Place {
  was?: readonly PlaceSetting[];
}

/** How a place's air was until a moment. */
export interface PlaceSetting extends Pick<Place, "setTempC" | "airSpeedMs"> {
  untilMs: number;
}

/** An order, and how many of its cookies, by design, were packed on archived trays; and how many of those were spoiled. */
export interface OrderState extends Order {
  archived?: Readonly<Record<string, number>>;
  archivedSpoiled?: number;
}

/** Mixed icing, and who said so. */
export interface BatchState extends MixedBatch {
  by: By;
}

/** How long hands took for one layer of a tray. */
export interface LayingSample {
  consistency: Consistency;
  minACookie: number;
  /** Of a piped layer: how long its line is. */
  lineMm?: number;
  atMs: number;
}

/** Everything true of the kitchen that was told or done; dryness is computed from it and now. */
export interface Kitchen {
  settings: Settings;
  isSetUp: boolean;
  people: Readonly<Record<string, Person>>;
  places: Readonly<Record<string, PlaceState>>;
  tools: Readonly<Record<string, ToolState>>;
  icings: Readonly<Record<string, Icing>>;
  designs: Readonly<Record<string, Design>>;
  orders: Readonly<Record<string, OrderState>>;
  trays: Readonly<Record<string, Tray>>;
  /** Mixed icing: neither used up, thrown away nor archived. */
  batches: Readonly<Record<string, BatchState>>;
  /** By place, oldest first, bounded (drying/readings.ts). */
  readings: Readonly<Record<string, readonly AirReading[]>>;
  /** Alerts raised and not cleared, by key. */
  alerts: Readonly<Record<string, ActiveAlert>>;
  /** Evidence of archived trays; alive trays' evidence is read off their films. */
  evidence: readonly EvidenceFact[];
  /** How long layers of trays put away took, oldest first, bounded; alive trays' are read off their films. */
  laying?: readonly LayingSample[];
  /** When each person last read each tool kind's full card: `${personId}/${kind}` → ms. */
  cautionsRead: Readonly<Record<string, number>>;
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

/** Cookies of a tray that are good for its order. */
export const goodOn = (tray: Pick<Tray, "problems" | "count">): number => tray.count - spoiledOn(tray);

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
