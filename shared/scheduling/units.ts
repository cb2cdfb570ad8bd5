import type { Pool, WorkHours } from "./work.ts";

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
  readonly #pool: Pool;
  readonly #changeMin: number;
  readonly #icing: Int32Array;
  #spell = 0;
  /** Of units with hours of their own. */
  readonly #unitSpell: Int32Array;

  constructor(pool: Pool, changeMin: number) {
    this.#pool = pool;
    this.#changeMin = changeMin;
    this.freeMin = new Float64Array(pool.units);
    this.#icing = new Int32Array(pool.units);
    this.#unitSpell = new Int32Array(pool.units);
  }

  reset(): void {
    this.freeMin.fill(0);
    this.#icing.fill(NO_ICING);
    this.#spell = 0;
    this.#unitSpell.fill(0);
  }

  /** Whether units work hours of their own: what is too long for one of them may not be for another. */
  get haveOwnHours(): boolean {
    return this.#pool.unitHours !== undefined;
  }

  /** When the pool opens, or has opened; Infinity where it does not again. */
  get opensMin(): number {
    return this.#pool.hours.fromMin[this.#spell] ?? Infinity;
  }

  /** Moves on to the hours of this moment; whether those before them are over. */
  moveOn(now: number): boolean {
    const spell = spellAt(this.#pool.hours, this.#spell, now);
    const hasChanged = spell !== this.#spell;
    this.#spell = spell;
    for (const [unit, hours] of (this.#pool.unitHours ?? []).entries())
      if (hours !== undefined) this.#unitSpell[unit] = spellAt(hours, this.#unitSpell[unit]!, now);
    return hasChanged;
  }

  /** The unit that would do it now: its own, else one with its icing in hand, else any; else why there is none. */
  find(unit: number, icing: number, isDivisible: boolean, minutes: number, now: number): number {
    let best = NONE_FREE;
    for (let k = 0; k < this.freeMin.length; k++) {
      if (this.freeMin[k]! > now || !this.#isAtWork(k, now)) continue;
      if (best === NONE_FREE) best = NOT_NOW;
      if (unit !== ANY_UNIT && unit !== k) continue;
      const had = this.#icing[k]!;
      const isInHand = icing === NO_ICING || had === icing;
      if (best >= 0 && !isInHand) continue;
      const changeMin = isInHand || had < 0 ? 0 : this.#changeMin;
      const endMin = this.#endOf(k, minutes + changeMin, now, isDivisible);
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
    if (icing !== NO_ICING) this.#icing[unit] = icing;
  }

  /** A unit that is free, whichever and whatever its hours; less than nought where none is. */
  free(now: number): number {
    return this.freeMin.findIndex((freeMin) => freeMin <= now);
  }

  countFree(now: number): number {
    let count = 0;
    for (let unit = 0; unit < this.freeMin.length; unit++)
      if (this.freeMin[unit]! <= now && this.#isAtWork(unit, now)) count += 1;
    return count;
  }

  /** When anything changes here after this moment: hours begin, or a unit comes to work. */
  nextChange(now: number): number {
    let soonest = this.#pool.hours.fromMin[this.#spell + 1] ?? Infinity;
    for (const [unit, hours] of (this.#pool.unitHours ?? []).entries()) {
      const spell = this.#unitSpell[unit]!;
      for (const next of [spell, spell + 1]) {
        const fromMin = hours?.fromMin[next] ?? Infinity;
        if (fromMin > now && fromMin < soonest) soonest = fromMin;
      }
    }
    return soonest;
  }

  #isAtWork(unit: number, now: number): boolean {
    const hours = this.#pool.unitHours?.[unit];
    return hours === undefined || (hours.fromMin[this.#unitSpell[unit]!] ?? Infinity) <= now;
  }

  /** When so much work would end; Infinity where it is not done before the unit stops, and may not be broken off. */
  #endOf(unit: number, minutes: number, now: number, isDivisible: boolean): number {
    const own = this.#pool.unitHours?.[unit];
    const { fromMin, toMin } = own ?? this.#pool.hours;
    const spell = own === undefined ? this.#spell : this.#unitSpell[unit]!;
    let left = minutes;
    if (now + left <= toMin[spell]!) return now + left;
    if (!isDivisible) return Infinity;
    left -= toMin[spell]! - now;
    for (let k = spell + 1; k < toMin.length; k++) {
      if (fromMin[k]! + left <= toMin[k]!) return fromMin[k]! + left;
      left -= toMin[k]! - fromMin[k]!;
    }
    return Infinity;
  }
}

function spellAt({ toMin }: WorkHours, from: number, now: number): number {
  let spell = from;
  while (spell < toMin.length && toMin[spell]! <= now) spell += 1;
  return spell;
}
