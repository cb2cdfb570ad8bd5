import { beliefFor, type Evidence, learn } from "#shared/drying/uncertainty/learning.ts";
import { TENTH_Z } from "#shared/drying/uncertainty/normal.ts";
import { type Draws, drawsFrom } from "./simulated-kitchen.ts";

/** How a kitchen's films differ, and how its hands find them; standard deviations of ln(time / the model's time). */
export interface KitchenKind {
  kitchenSd: number;
  placeSd: number;
  icingSd: number;
  /** Icings that take 1.6 times as long, as a share of all. */
  slowShare: number;
  filmSd: number;
  bowlSd: number;
  traysABowl: number;
  /** How far the kitchen's factor wanders over the days, ln. */
  drift: number;
  /** Taps on the wrong tray. */
  wrongShare: number;
  /** Films that nobody touches once they have set: worked on some time later, and a finding only where one look found them wet. */
  actedShare: number;
}

/** A kitchen as most are taken to be, its films scattering as the learning expects: invented, no source. */
export const USUAL_KITCHEN: KitchenKind = {
  kitchenSd: 0.3,
  placeSd: 0.15,
  icingSd: 0.12,
  slowShare: 0.1,
  filmSd: 0.25,
  bowlSd: 0.2,
  traysABowl: 3,
  drift: 0,
  wrongShare: 0.03,
  actedShare: 0,
};

/** Rows of the coverage table: what each kitchen has that most have not. */
export const KITCHEN_KINDS: Readonly<Record<string, KitchenKind>> = {
  "a usual kitchen": USUAL_KITCHEN,
  "films scatter by 30 %": { ...USUAL_KITCHEN, filmSd: 0.3 },
  "films scatter by 40 %": { ...USUAL_KITCHEN, filmSd: 0.4 },
  "eight trays a bowl": { ...USUAL_KITCHEN, bowlSd: 0.25, traysABowl: 8 },
  "a third of the icings 1.6 times as slow": { ...USUAL_KITCHEN, slowShare: 1 / 3 },
  "the kitchen drifts by 0.3": { ...USUAL_KITCHEN, drift: 0.3 },
  "the kitchen drifts by 0.5": { ...USUAL_KITCHEN, drift: 0.5 },
  "half of the films are only acted on": { ...USUAL_KITCHEN, actedShare: 0.5 },
  "15 % wrong taps": { ...USUAL_KITCHEN, wrongShare: 0.15 },
};

/** What is asked of a kitchen of a kind: a wild one may be missed a little more often. */
export const coverageRange = ({ drift, wrongShare }: KitchenKind): { least: number; most: number } =>
  drift >= 0.5 || wrongShare > 0.1 ? { least: 0.7, most: 0.87 } : { least: 0.75, most: 0.85 };

const ICINGS = ["white", "navy", "red", "black"];
const PLACES = ["rack", "fan rack", "cabinet"];
/** Days of work over which the findings are spread. */
const DAYS = 10;

/** Share of kitchens whose next film falls into its 80 % band after so many findings. */
export function coverageOf(kind: KitchenKind, findings: number, kitchens: number, seed: number): number {
  const draws = drawsFrom(seed);
  let held = 0;
  for (let k = 0; k < kitchens; k += 1) {
    const { evidence, next } = kitchenOf(kind, findings, draws);
    const { meanLn, sdLn } = beliefFor(learn(evidence), next).skin;
    if (Math.abs(next.ln - meanLn) <= TENTH_Z * sdLn) held += 1;
  }
  return held / kitchens;
}

function kitchenOf(kind: KitchenKind, findings: number, draws: Draws) {
  const kitchenLn = kind.kitchenSd * draws.normal();
  const icings = ICINGS.map((icing) => ({
    icing,
    ln: kind.icingSd * draws.normal() + (draws.uniform() < kind.slowShare ? Math.log(1.6) : 0),
  }));
  const places = PLACES.map((place) => ({ place, ln: kind.placeSd * draws.normal() }));
  const steps = Array.from({ length: DAYS }, () => (kind.drift / Math.sqrt(DAYS)) * draws.normal());
  const driftOn = (day: number): number => steps.slice(0, day).reduce((sum, step) => sum + step, 0);
  const pick = <One>(list: readonly One[]): One => list[Math.floor(draws.uniform() ** 2 * list.length)]!;
  let bowl = { name: 0, icing: icings[0]!, ln: 0, left: 0 };
  const film = (day: number) => {
    if (bowl.left === 0)
      bowl = {
        name: bowl.name + 1,
        icing: pick(icings),
        ln: kind.bowlSd * draws.normal(),
        left: kind.traysABowl,
      };
    bowl.left -= 1;
    const place = pick(places);
    const mean = kitchenLn + driftOn(day) + bowl.icing.ln + place.ln + bowl.ln;
    return {
      icing: bowl.icing.icing,
      place: place.place,
      bowl: `${bowl.name}`,
      ln: mean + kind.filmSd * draws.normal(),
    };
  };
  const evidence: Evidence[] = [];
  for (let tries = 0; evidence.length < findings && tries < 50 * findings; tries += 1) {
    const day = Math.floor((DAYS * evidence.length) / Math.max(1, findings));
    const { icing, place, bowl: name, ln } = film(day);
    const isActedOn = draws.uniform() < kind.actedShare;
    const truth = draws.uniform() < kind.wrongShare ? Math.log(4) * draws.normal() : ln;
    const found = (isActedOn ? actedOn : touched)(draws, truth, kitchenLn);
    if (found !== undefined)
      evidence.push({ quantity: "skin", icing, place, bowl: name, ageDays: DAYS - day, ...found });
  }
  // The next film is of a fresh bowl; where nothing was found yet it is the first day, and nothing has drifted.
  bowl.left = 0;
  return { evidence, next: film(findings === 0 ? 0 : DAYS) };
}

type Found = Pick<Evidence, "lnLow" | "lnHigh" | "byAct"> | undefined;

/** One look; a film found wet is worked on after it has set, on average 0.4 of the usual time later. Others teach nothing. */
function actedOn(draws: Draws, ln: number, expectedLn: number): Found {
  const at = expectedLn + Math.log(0.5 + 0.8 * draws.uniform());
  if (ln <= at) return undefined;
  const lnHigh = Math.log(Math.exp(ln) + 0.4 * Math.exp(expectedLn) * draws.exponential());
  return { lnLow: at, lnHigh, byAct: true };
}

/** Looks from half to 1.3 times the time that hands here have come to expect, then again a little later while it is wet. */
function touched(draws: Draws, ln: number, expectedLn: number): Found {
  let low = -Infinity;
  let at = expectedLn + Math.log(0.5 + 0.8 * draws.uniform());
  for (let looks = 0; looks < 4; looks += 1) {
    if (ln <= at) return { lnLow: low, lnHigh: at };
    low = at;
    at += Math.log(1.1 + 0.3 * draws.uniform());
    if (draws.uniform() > 0.8) break;
  }
  return { lnLow: low, lnHigh: Infinity };
}
