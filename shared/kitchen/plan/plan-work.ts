import type { Learned } from "#shared/drying/uncertainty/learning.ts";
import type { FilmForecast, OrderForecast } from "#shared/kitchen/model/forecast.ts";
import type { Spans } from "#shared/kitchen/forecast/films.ts";
import type { Kitchen, OrderState, Tray } from "#shared/kitchen/model/state.ts";
import type { Crew } from "./crew.ts";
import type { Pace } from "./pace.ts";
import type { Lack } from "./lacks.ts";
import type { FilmWait, Never, PlanFilm } from "./plan-films.ts";
import type { Task, Work, WorkHours } from "#shared/scheduling/work.ts";

/** What the plan is made from, beside the kitchen. */
export interface PlanGround {
  kitchen: Kitchen;
  films: Readonly<Record<string, FilmForecast>>;
  /** Spans of a layer not yet laid, where its tray will dry. */
  spansOf: (tray: Tray, layer: number) => Spans;
  pace: Pace;
  nowMs: number;
  /** Trays of which every layer is set by this kind of tool at once, not only those that may sink. */
  heated?: ReadonlyMap<string, SetsBy>;
}

export type SetsBy = "hot-air" | "oven";

/** One piece of work of the plan. */
export interface PlanTask extends Task {
  trayId: string;
  act: "lay" | "heat" | "pack";
  layer?: number;
  placeId?: string;
  after: { task: number; waitMin: number; ends?: FilmWait }[];
  /** Films laid already that it waits for. */
  waits: readonly FilmWait[];
  /** Of its minutes, those under the hot-air tool, cookie by cookie. */
  heatMin: number;
  /** Begun before the plan: so long ago. */
  begunMin: number;
}

/** The kitchen's work, with what its tasks and waits stand for. */
export interface PlanWork extends Work {
  tasks: readonly PlanTask[];
  films: readonly PlanFilm[];
  crew: Crew;
  hours: WorkHours;
  /** Each tray's last task, by id; trays of which a film has no forecast yet are not here. */
  lastOf: ReadonlyMap<string, number>;
  /** Trays that will not be dry as things stand, and why. */
  never: ReadonlyMap<string, Never>;
}

export interface PlanInput extends PlanGround {
  learned: Learned;
}

/** An order of the plan, and the tasks that pack its trays. */
export interface PlannedOrder {
  order: OrderState;
  packs: readonly number[];
}

/** What the plan says of a tray by. */
export type PlannedTray = Pick<Tray, "number" | "designId" | "orderId">;

/** Everything a plan is worked out from, as plain data that another thread can be sent. */
export interface PlanQuestion {
  nowMs: number;
  learned: Learned;
  pace: Pace;
  work: PlanWork;
  /** One number a task. */
  dueMin: Float64Array;
  orders: readonly PlannedOrder[];
  /** Orders with nothing left to do. */
  packed: Readonly<Record<string, OrderForecast>>;
  trays: Readonly<Record<string, PlannedTray>>;
  without: readonly Lack[];
}
