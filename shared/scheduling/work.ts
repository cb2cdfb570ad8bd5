/** When a pool or a unit works: spells in minutes from the plan's start, ascending and apart; the last may end at Infinity. */
export interface WorkHours {
  fromMin: readonly number[];
  toMin: readonly number[];
}

/** Always at work. */
export const ALWAYS: WorkHours = { fromMin: [0], toMin: [Infinity] };

/** Units that can stand in for one another: hands, tools of a kind, trays that a chamber holds. */
export interface Pool {
  units: number;
  hours: WorkHours;
  /** Hours of single units, within the pool's: a person's. Undefined for a unit that works all of the pool's. */
  unitHours?: readonly (WorkHours | undefined)[];
}

/** One piece of work: minutes of one unit of a pool, and of one of a second pool where it needs that as well. */
export interface Task {
  pool: number;
  /** Its hours do not matter. */
  alsoPool?: number;
  durationMin: number;
  /** Not before this; nought when left out. */
  fromMin?: number;
  /** What must be done before it, and how long it then waits: drying goes on while the kitchen is closed. */
  after: readonly { task: number; waitMin: number }[];
  /** The unit that is to do it, such as the person a tray was given to. */
  unit?: number;
  /** What a unit works with; one that had something else before takes `changeMin` longer. */
  icing?: number;
  /** May be broken off when the pool stops work, and goes on when it starts again. */
  isDivisible?: boolean;
  /** It is not begun where less than this would be done before it is broken off; nought when left out. */
  leastMin?: number;
  /** Begun before the plan: its unit does it before anything else. */
  isUnderWay?: boolean;
}

export interface Work {
  tasks: readonly Task[];
  pools: readonly Pool[];
  /** Minutes to change from one icing to another. */
  changeMin: number;
}

/** Minutes in place of the work's own: one number a task, and one a wait in the order of `waitsOf`. */
export interface Drawn {
  durationsMin: ArrayLike<number>;
  waitsMin: ArrayLike<number>;
  fromMin: ArrayLike<number>;
}

/** The waits of all tasks in order, task by task. */
export const waitsOf = ({ tasks }: Work): Float64Array =>
  Float64Array.from(tasks.flatMap(({ after }) => after.map(({ waitMin }) => waitMin)));

/** How a priority list is to be run. */
export interface Priorities {
  /** One number a task: the lowest goes first. */
  rank: ArrayLike<number>;
  /**
   * Whether a unit stays free for a task of a lower rank that will be ready before the task at hand would be done (Giffler &
   * Thompson 1960, from memory). Without, no unit is ever idle while a task is ready.
   */
  isPatient?: boolean;
}
