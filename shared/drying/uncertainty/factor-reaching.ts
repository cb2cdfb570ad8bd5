import type { AirSpell } from "#shared/drying/film/air.ts";
import type { FilmStart } from "#shared/drying/film/film-start.ts";
import type { FilmSpec, Quantity } from "#shared/drying/film/film.ts";
import { filmStart, followFilm, meetings } from "#shared/drying/film/run.ts";
import { restingX } from "#shared/drying/film/sugar.ts";

/** Times further apart than this, ln, are no solver's error. */
const JUMP_LN = Math.log(1.02);
const WIDEST_FACTOR = 1e6;
const LN_WIDEST = Math.log(WIDEST_FACTOR);

/**
 * The factor at which the quantity is reached exactly at `atS`, real seconds: the largest that has it reached by then.
 * Undefined if no factor from 1e-6 to 1e6 does, and where none can be told: in air that wets it a quick film takes up more
 * water than a slow one, which may then be done first.
 */
export function factorReaching(
  film: FilmSpec,
  spells: readonly AirSpell[],
  quantity: Quantity,
  atS: number,
): number | undefined {
  const start = filmStart(film, spells[0]!.air);
  const until = spells.filter(({ fromS }, i) => i === 0 || fromS < atS);
  if (mayBeWetted(start, until, quantity)) return undefined;
  const meets = meetings(until);
  const reachedS = (timeScale: number, horizonS: number): number =>
    followFilm(start, { meets, timeScale, horizonS, until: quantity })[quantity];
  if (meets.length === 1) {
    const modelS = reachedS(1, WIDEST_FACTOR * Math.max(atS, 1));
    return modelS < Infinity ? atS / modelS : undefined;
  }
  const beyondS = 8 * atS;
  const latenessAt = (ln: number): number =>
    Math.log(Math.min(reachedS(Math.exp(ln), beyondS), beyondS) / atS);
  // Steps that double until one factor is too quick and one too slow, then false position between them (Illinois).
  let quick: { ln: number; late: number } | undefined;
  let slow: { ln: number; late: number } | undefined;
  let lastSide: "quick" | "slow" | undefined;
  let ln = 0;
  for (let i = 0; i < 60; i++) {
    const late = latenessAt(ln);
    if (Math.abs(late) < 1e-6) return Math.exp(ln);
    const side = late > 0 ? "slow" : "quick";
    if (side === "slow") slow = { ln, late };
    else quick = { ln, late };
    if (quick === undefined || slow === undefined) {
      if (Math.abs(ln) >= LN_WIDEST) break;
      ln = Math.min(Math.max(ln - late * 2 ** i, -LN_WIDEST), LN_WIDEST);
    } else {
      if (slow.ln - quick.ln < 1e-5) {
        // The time jumps there. Where it jumps back a little further on, its surface only grazes what is enough, and no one
        // factor parts sooner from later.
        const parts = latenessAt(quick.ln - JUMP_LN) <= JUMP_LN && latenessAt(slow.ln + JUMP_LN) >= -JUMP_LN;
        return parts ? Math.exp(quick.ln) : undefined;
      }
      if (side === lastSide) (side === "slow" ? quick : slow).late /= 2;
      ln = quick.ln + ((slow.ln - quick.ln) * quick.late) / (quick.late - slow.late);
    }
    lastSide = side;
  }
  return quick === undefined ? undefined : Math.exp(quick.ln);
}

/** Whether some of this air may wet the film, as laid or as drier air before left it, further than the quantity allows. */
function mayBeWetted(start: FilmStart, spells: readonly AirSpell[], quantity: Quantity): boolean {
  const enoughX = quantity === "skin" ? start.skinX : start.dryThroughX;
  let driestX = start.x;
  return spells.some(({ air }) => {
    const restsAtX = restingX(air.tempC, air.rhPct);
    const isWetting = restsAtX >= enoughX && restsAtX > driestX;
    driestX = Math.min(driestX, restsAtX);
    return isWetting;
  });
}
