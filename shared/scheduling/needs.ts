import { ANY_UNIT, NO_ICING } from "./units.ts";
import { waitsOf, type Work } from "./work.ts";

/** What each task needs, in a row a property: a schedule reads them hundreds of thousands of times. */
export interface Needs {
  pool: Int32Array;
  /** Less than nought where it needs no second pool. */
  alsoPool: Int32Array;
  unit: Int32Array;
  icing: Int32Array;
  /** So much of it must be done before its unit stops work: of what may not be broken off, all. */
  leastMin: Float64Array;
  isUnderWay: Uint8Array;
  /** How many tasks it comes after. */
  after: Int32Array;
  durationMin: Float64Array;
  fromMin: Float64Array;
  /** Wait by wait. */
  waitsMin: Float64Array;
}

export function needsOf(work: Work): Needs {
  const { tasks } = work;
  return {
    pool: Int32Array.from(tasks, ({ pool }) => pool),
    alsoPool: Int32Array.from(tasks, ({ alsoPool = -1 }) => alsoPool),
    unit: Int32Array.from(tasks, ({ unit = ANY_UNIT }) => unit),
    icing: Int32Array.from(tasks, ({ icing = NO_ICING }) => icing),
    leastMin: Float64Array.from(tasks, ({ isDivisible, leastMin = 0 }) =>
      isDivisible === true ? leastMin : Infinity,
    ),
    isUnderWay: Uint8Array.from(tasks, ({ isUnderWay }) => Number(isUnderWay === true)),
    after: Int32Array.from(tasks, ({ after }) => after.length),
    durationMin: Float64Array.from(tasks, ({ durationMin }) => durationMin),
    fromMin: Float64Array.from(tasks, ({ fromMin = 0 }) => fromMin),
    waitsMin: waitsOf(work),
  };
}
