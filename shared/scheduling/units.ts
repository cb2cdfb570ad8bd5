import type { Pool, WorkHours } from "./work.ts";

/** Spells of work, and after the last one that never comes: numbers of one kind, since a schedule reads them all the time. */
interface Spells {
  fromMin: Float64Array;
  toMin: Float64Array;
}

const spellsOf = ({ fromMin, toMin }: WorkHours): Spells => ({
  fromMin: Float64Array.of(...fromMin, Infinity),
  toMin: Float64Array.of(...toMin, Infinity),
});

/** Of a task that any unit may do. */
export const ANY_UNIT = -1;
/** Of a task, or a unit, without icing. */
export const NO_ICING = -1;
/** No unit of the pool is free. */
export const NONE_FREE = -1;
/** Some are, but not the one it is to be done by. */
export const NOT_NOW = -2;
/** It would not be done before they stop work. */
export const TOO_LONG = -3;

/** A pool's units as a schedule goes on: when each is free, what icing it holds and which of its hours it is in. */
export class PoolUnits {
  /** When each unit is free. */
  readonly freeMin: Float64Array;
  /** When the unit that was found last would be done. */
  endMin = 0;
  /** Whether units work hours of their own: what is too long for one of them may not be for another. */
  readonly haveOwnHours: boolean;
  readonly #hours: Spells;
  /** Of each unit with hours of its own. */
  readonly #unitHours: readonly (Spells | undefined)[];
  readonly #changeMin: number;
  readonly #icing: Int32Array;
  #spell = 0;
  /** When the next of the busy units is free, unless that is past. */
  #nextFreeMin = Infinity;
  /** Of units with hours of their own. */
  readonly #unitSpell: Int32Array;

  constructor(pool: Pool, changeMin: number) {
    this.haveOwnHours = pool.unitHours !== undefined;
    this.#hours = spellsOf(pool.hours);
    this.#unitHours = (pool.unitHours ?? []).map((hours) =>
      hours === undefined ? undefined : spellsOf(hours),
    );
    this.#changeMin = changeMin;
    this.freeMin = new Float64Array(pool.units);
    this.#icing = new Int32Array(pool.units);
    this.#unitSpell = new Int32Array(pool.units);
  }

  reset(): void {
    this.freeMin.fill(0);
    this.#icing.fill(NO_ICING);
    this.#spell = 0;
    this.#nextFreeMin = Infinity;
    this.#unitSpell.fill(0);
  }

  /** When the pool opens, or has opened; Infinity where it does not again. */
  get opensMin(): number {
    return this.#hours.fromMin[this.#spell]!;
  }

  /** When it closes. */
  get closesMin(): number {
    return this.#hours.toMin[this.#spell]!;
  }

  /** Moves on to the hours of this moment; whether those before them are over. */
  moveOn(now: number): boolean {
    const spell = spellAt(this.#hours, this.#spell, now);
    const hasChanged = spell !== this.#spell;
    this.#spell = spell;
    for (let unit = 0; unit < this.#unitHours.length; unit++) {
      const hours = this.#unitHours[unit];
      if (hours !== undefined) this.#unitSpell[unit] = spellAt(hours, this.#unitSpell[unit]!, now);
    }
    return hasChanged;
  }

  /** The unit that would do it now: its own, else one with its icing in hand, else any; else why there is none. */
  find(unit: number, icing: number, leastMin: number, minutes: number, now: number): number {
    let best = NONE_FREE;
    for (let k = 0; k < this.freeMin.length; k++) {
      if (this.freeMin[k]! > now || !this.#isAtWork(k, now)) continue;
      if (best === NONE_FREE) best = NOT_NOW;
      if (unit !== ANY_UNIT && unit !== k) continue;
      const had = this.#icing[k]!;
      const isInHand = icing === NO_ICING || had === icing;
      if (best >= 0 && !isInHand) continue;
      const changeMin = isInHand || had < 0 ? 0 : this.#changeMin;
      const endMin = this.#endOf(k, minutes + changeMin, now, leastMin);
      if (endMin < Infinity) {
        best = k;
        this.endMin = endMin;
        if (isInHand) break;
      } else if (best < 0) best = TOO_LONG;
    }
    return best;
  }

  take(unit: number, icing: number, endMin: number): void {
    this.freeMin[unit] = endMin;
    if (endMin < this.#nextFreeMin) this.#nextFreeMin = endMin;
    if (icing !== NO_ICING) this.#icing[unit] = icing;
  }

  /** A unit that is free, whichever and whatever its hours; less than nought where none is. */
  free(now: number): number {
    for (let unit = 0; unit < this.freeMin.length; unit++) if (this.freeMin[unit]! <= now) return unit;
    return NONE_FREE;
  }

  /** When a unit that is busy now is free; Infinity where none is. */
  nextFree(now: number): number {
    if (this.#nextFreeMin > now) return this.#nextFreeMin;
    let soonest = Infinity;
    for (let unit = 0; unit < this.freeMin.length; unit++) {
      const freeMin = this.freeMin[unit]!;
      if (freeMin > now && freeMin < soonest) soonest = freeMin;
    }
    this.#nextFreeMin = soonest;
    return soonest;
  }

  countFree(now: number): number {
    let count = 0;
    for (let unit = 0; unit < this.freeMin.length; unit++)
      if (this.freeMin[unit]! <= now && this.#isAtWork(unit, now)) count += 1;
    return count;
  }

  /** When anything changes here after this moment: hours begin, or a unit comes to work. */
  nextChange(now: number): number {
    const { fromMin } = this.#hours;
    let soonest = this.#spell + 1 < fromMin.length ? fromMin[this.#spell + 1]! : Infinity;
    for (let unit = 0; unit < this.#unitHours.length; unit++) {
      const own = this.#unitHours[unit]?.fromMin;
      if (own === undefined) continue;
      const last = Math.min(this.#unitSpell[unit]! + 1, own.length - 1);
      for (let next = this.#unitSpell[unit]!; next <= last; next++)
        if (own[next]! > now && own[next]! < soonest) soonest = own[next]!;
    }
    return soonest;
  }

  #isAtWork(unit: number, now: number): boolean {
    if (!this.haveOwnHours) return true;
    const hours = this.#unitHours[unit];
    return hours === undefined || hours.fromMin[this.#unitSpell[unit]!]! <= now;
  }

  /** When so much work would end; Infinity where less than `leastMin` of it is done before the unit stops. */
  #endOf(unit: number, minutes: number, now: number, leastMin: number): number {
    const own = this.haveOwnHours ? this.#unitHours[unit] : undefined;
    const { fromMin, toMin } = own ?? this.#hours;
    const spell = own === undefined ? this.#spell : this.#unitSpell[unit]!;
    let left = minutes;
    if (now + left <= toMin[spell]!) return now + left;
    if (now + leastMin > toMin[spell]!) return Infinity;
    left -= toMin[spell]! - now;
    for (let k = spell + 1; k < toMin.length; k++) {
      if (fromMin[k]! + left <= toMin[k]!) return fromMin[k]! + left;
      left -= toMin[k]! - fromMin[k]!;
    }
    return Infinity;
  }
}

function spellAt({ toMin }: Spells, from: number, now: number): number {
  let spell = from;
  while (toMin[spell]! <= now) spell += 1;
  return spell;
}
