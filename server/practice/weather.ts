import { chanceFrom, seedFor } from "./chance.ts";
import { DAY_MS, HOUR_MS } from "#shared/time.ts";

/** Air as a hygrometer shows it, to a tenth. */
export interface RoomAir {
  tempC: number;
  rhPct: number;
}

/** The air of the practice kitchen at any moment: the same whenever and however often it is asked. */
export type Weather = (atMs: number) => RoomAir;

/** Humidity of a quiet day, and what moves it, % RH. */
const HUMIDITY = { mean: 46, daySwing: 2.5, wander: 1.4 } as const;
const TEMPERATURE_C = { mean: 21.6, daySwing: 1.4, wander: 0.25 } as const;
/** From one day to the next: slow waves, of these days. */
const BY_DAYS = { periods: [3.4, 7.9], rhPct: 2, tempC: 0.5 } as const;
/** A front comes in over two hours and leaves over five; most afternoons have one. */
const FRONT = { risesMs: 2 * HOUR_MS, ebbsMs: 5 * HOUR_MS, share: 0.7 } as const;

/**
 * `firstFrontMs` is when the first front that people see begins: twelve points in two hours. The other days' fronts differ in
 * hour and height. Local midnight is taken from `dayStartMs`, any midnight of the kitchen.
 */
export function practiceWeather(seed: number, firstFrontMs: number, dayStartMs: number): Weather {
  const chance = chanceFrom(seedFor(seed, "weather"));
  const wavesOf = (hours: readonly number[]): Wave[] =>
    hours.map((period) => ({
      periodMs: period * HOUR_MS,
      damp: chance.between(0, 2 * Math.PI),
      warm: chance.between(0, 2 * Math.PI),
    }));
  const wander = meanOf(wavesOf([0.6, 2.3, 9.1]));
  const byDays = meanOf(wavesOf(BY_DAYS.periods.map((days) => 24 * days)));

  const frontOf = (day: number): { fromMs: number; points: number } => {
    const its = chanceFrom(seedFor(seed, `front ${day}`));
    const points = its.happens(FRONT.share) ? its.between(6, 13) : 0;
    return { fromMs: dayStartMs + day * DAY_MS + its.between(11, 15) * HOUR_MS, points };
  };
  const firstDay = Math.floor((firstFrontMs - dayStartMs) / DAY_MS);
  const front = (atMs: number): number => {
    const day = Math.floor((atMs - dayStartMs) / DAY_MS);
    return [day - 1, day].reduce((sum, one) => {
      const { fromMs, points } = one === firstDay ? { fromMs: firstFrontMs, points: 12 } : frontOf(one);
      return sum + points * frontShape(atMs - fromMs);
    }, 0);
  };

  return (atMs) => {
    const hour = ((atMs - dayStartMs) % DAY_MS) / HOUR_MS;
    const byDay = Math.cos((2 * Math.PI * (hour - 5)) / 24);
    const rhPct =
      HUMIDITY.mean +
      HUMIDITY.daySwing * byDay +
      HUMIDITY.wander * wander(atMs, "damp") +
      BY_DAYS.rhPct * byDays(atMs, "damp") +
      front(atMs);
    const tempC =
      TEMPERATURE_C.mean -
      TEMPERATURE_C.daySwing * byDay +
      TEMPERATURE_C.wander * wander(atMs, "warm") +
      BY_DAYS.tempC * byDays(atMs, "warm");
    return { tempC: toTenth(tempC), rhPct: toTenth(rhPct) };
  };
}

/** Damp let in from outside: the air goes to `rhPct` at once, stays so and ebbs. */
const SPELL = { rhPct: 80, lastsMs: 8 * HOUR_MS, ebbsMs: 3 * HOUR_MS } as const;

/** The same air, with a damp spell from each of these moments on; there may come more of them. */
export const withDampSpells =
  (weather: Weather, fromMs: readonly number[]): Weather =>
  (atMs) => {
    const { tempC, rhPct } = weather(atMs);
    const ofSpell = (sinceMs: number): number =>
      sinceMs < 0 ? 0 : 1 - smooth((sinceMs - SPELL.lastsMs) / SPELL.ebbsMs);
    const share = Math.max(0, ...fromMs.map((ms) => ofSpell(atMs - ms)));
    return { tempC, rhPct: toTenth(rhPct + share * Math.max(0, SPELL.rhPct - rhPct)) };
  };

/** What comes and goes evenly; each kind at a point of its own. */
interface Wave {
  periodMs: number;
  damp: number;
  warm: number;
}

const meanOf =
  (waves: readonly Wave[]) =>
  (atMs: number, of: "damp" | "warm"): number =>
    waves.reduce((sum, wave) => sum + Math.sin((2 * Math.PI * atMs) / wave.periodMs + wave[of]), 0) /
    waves.length;

/** From nothing to the whole, smoothly, and slowly back. */
function frontShape(sinceMs: number): number {
  const rising = smooth(sinceMs / FRONT.risesMs);
  const ebbing = smooth((sinceMs - FRONT.risesMs) / FRONT.ebbsMs);
  return rising - ebbing;
}

const smooth = (share: number): number => {
  const part = Math.min(1, Math.max(0, share));
  return part * part * (3 - 2 * part);
};

const toTenth = (value: number): number => Math.round(value * 10) / 10;
