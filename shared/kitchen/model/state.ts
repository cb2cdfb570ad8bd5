// The state in one file: its shapes, a tray's and a tool's first, then what is read off them at a glance.

import type { Risk } from "./risk.ts";
import type { DeviceId, PersonId, PlaceId, ToolId } from "#shared/ids.ts";
import type { ActiveAlert } from "./alert.ts";
import type { By, EvidenceFact, HeatLimitsFact, Shown, TrayAct, ImpliedFactor } from "./event.ts";
import type {
  Bowl,
  Consistency,
  Design,
  DeviceKind,
  HeatResult,
  Icing,
  MixedBatch,
  Order,
  Person,
  Place,
  ProblemKind,
  Recipe,
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
  | { stage: "packed"; atMs: number; by: By; risk?: Risk; seconds?: number };

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

/** An order, and how many of its cookies, by design, were packed on archived trays; and how many of those were not good. */
export interface OrderState extends Order {
  archived?: Readonly<Record<string, number>>;
  archivedSpoiled?: number;
  archivedSeconds?: number;
  /** Layers laid on its archived trays. */
  archivedLayers?: number;
  /** Packed cookies it had from other orders, by design; below nought where it gave some. */
  given?: Readonly<Record<string, number>>;
}

/** A layer that was laid from a batch on a tray archived since. */
export interface BatchUse {
  tray: number;
  orderId: string;
  order: string;
  design: string;
  layer: number;
  laidAtMs: number;
}

/** Mixed icing, and who said so. */
export interface BatchState extends MixedBatch {
  by: By;
  wrong?: { why: string; atMs: number; by: By };
  /** Alive trays' layers are read off their films. */
  uses?: readonly BatchUse[];
}

/** Kept for a while, so that its trays can be traced. */
export interface UsedBatch extends BatchState {
  goneAtMs: number;
}

/** What one shift leaves for the next. */
export interface ShiftNote {
  text: string;
  by: By;
  atMs: number;
}

/** How long hands took for one layer of a tray. */
export interface LayingSample {
  consistency: Consistency;
  minACookie: number;
  /** Of a piped layer: how long its line is. */
  lineMm?: number;
  atMs: number;
}

/** A screen or sensor that joined. Those of older logs are not known. */
export interface DeviceState {
  id: DeviceId;
  personId: PersonId;
  as: DeviceKind;
  joinedAtMs: number;
  /**
   * It waits where it typed a name that is another's, until a lead lets it in: it is then that person's own. Those that are gone
   * are kept for a while, so that what was done on them can be told apart.
   */
  status: "waiting" | "in" | "let in" | "gone";
}

/** Everything true of the kitchen that was told or done; dryness is computed from it and now. */
export interface Kitchen {
  settings: Settings;
  isSetUp: boolean;
  people: Readonly<Record<string, Person>>;
  /** Older states have none. */
  devices?: Readonly<Record<string, DeviceState>>;
  places: Readonly<Record<string, PlaceState>>;
  tools: Readonly<Record<string, ToolState>>;
  icings: Readonly<Record<string, Icing>>;
  designs: Readonly<Record<string, Design>>;
  orders: Readonly<Record<string, OrderState>>;
  trays: Readonly<Record<string, Tray>>;
  /** Recipes of icing; older states have none. */
  recipes?: Readonly<Record<string, Recipe>>;
  note?: ShiftNote;
  /** Used up, thrown away or put away: the newest, bounded. */
  usedBatches?: Readonly<Record<string, UsedBatch>>;
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
