import { teaspoonsACup, waterToStirInG } from "#shared/icing/water.ts";
import { waterPctOf } from "#shared/kitchen/forecast/air.ts";
import type { Kitchen } from "#shared/kitchen/model/state.ts";
import type { Consistency } from "#shared/kitchen/model/vocabulary.ts";
import { tspToMl } from "#shared/units.ts";

/** Base icing, and the consistency it is to come to. */
export interface BaseToThin {
  /** Of an icing with water of its own; empty: the kitchen's. */
  icingId: string;
  consistency: Consistency;
  baseG: number;
  basePct: number;
}

/** What it comes to, and the water to stir in; `too-wet`: no water makes it stiffer. */
export type StirIn = { consistency: Consistency; wantedPct: number } & (
  | { code: "too-wet"; basePct: number }
  | { code: "as-it-is"; massG: number }
  | { code: "add"; massG: number; waterG: number; aCupMl: number }
);

/** Water to stir into base icing for a consistency as this kitchen has it. */
export function stirIn(kitchen: Kitchen, { icingId, consistency, baseG, basePct }: BaseToThin): StirIn {
  const wantedPct = waterPctOf(kitchen, icingId, consistency);
  const wanted = { consistency, wantedPct };
  if (wantedPct < basePct) return { ...wanted, code: "too-wet", basePct };
  const waterG = waterToStirInG(baseG, basePct, wantedPct);
  if (waterG === 0) return { ...wanted, code: "as-it-is", massG: baseG };
  const aCupMl = tspToMl(teaspoonsACup(wantedPct, basePct, kitchen.settings.densityKgM3));
  return { ...wanted, code: "add", massG: baseG + waterG, waterG, aCupMl };
}
