import { type FactorBelief, PRIOR_BELIEF } from "#shared/drying/uncertainty/belief.ts";
import { SECOND_MS } from "#shared/time.ts";
import { rhPctOf, vapourPa, warmed } from "#shared/drying/film/air.ts";
import { type Air, type AirSpell, type FilmSpec, traceFilm } from "#shared/drying/film/film.ts";
import { forecastFilm } from "#shared/drying/uncertainty/forecast.ts";
import { heldTooLongS } from "#shared/heat/held-jet.ts";
import { type Jet, jetAt } from "#shared/heat/jet.ts";
import { CABINET_TOOL, type HeatToolSpec, HOT_AIR_TOOL, OVEN_TOOL, toolFault } from "#shared/heat/tool.ts";
import { unreachable } from "#shared/outcome.ts";

/** When to check and when to stop; seconds from the start of the heat, a cookie's under hot air, a tray's elsewhere. */
export interface HeatLimits {
  /** Earliest set, latest set; neither after stop-by. */
  checkFromS: number;
  checkToS: number;
  stopByS: number;
  capS: number;
  /** Whether the skin is likely to set before stop-by. */
  settles: boolean;
  /** Hot air held still brings the surface to its limit in so long, s; a chamber, or a mild jet, never. */
  heldTooLongS?: number;
  /** What stop-by comes from. */
  why: "icing temperature" | "set time" | "tool's cap";
  /** What to mind before it starts. */
  hint?: "skinned already" | "too hot before set" | "will not set";
}

export interface HeatOptions {
  /** Seconds from flooding to the start of the heat; 0 when left out. */
  driedForS?: number;
  /** Air in that time, on the film's clock; the room's when left out. */
  alreadyDried?: readonly AirSpell[];
  /** Hottest the icing may get, 40–90 °C. */
  maxIcingC?: number;
  /** What is believed of the factor on the skin's time; what a kitchen starts with when left out. */
  skinFactor?: FactorBelief | undefined;
}

/** Icing hotter than this, °C, swells and cracks: common practice, no source. */
const MAX_ICING_C = 60;
/** Stop-by is this many times the latest set time: a slow one is not cut short, a forgotten one is found. */
const PAST_SET = 1.5;
/** A stop-by from the set time is never shorter than this, s: hands need it. */
const SHORTEST_S = 20;
/** Moments between start and cap at which the icing's temperature is worked out. */
const LOOKS = 24;

/**
 * Hot air is kept moving over about this width, mm. Fitted, the only number in this file that is: held 13–15 cm off, a craft
 * tool sets freshly flooded icing in about two minutes (common practice, no source).
 */
const SWEPT_MM = 25;
/** Between two passes of the jet the icing lies in the room's air, W/m²K. */
const BETWEEN_PASSES_WM2K = 4;

/**
 * Check-from, check-to and stop-by of a heat-set. Stop-by is the earliest of: icing at its limit, 1.5 × the latest set
 * time (not in a warm cabinet), the tool's cap. RangeError naming the field when a figure is out of its range.
 */
export function heatLimits(
  film: FilmSpec,
  tool: HeatToolSpec,
  room: Air,
  options: HeatOptions = {},
): HeatLimits {
  const { driedForS = 0, maxIcingC = MAX_ICING_C } = options;
  if (!(driedForS >= 0)) throw new RangeError(`driedForS must be 0 s or more, got ${driedForS}`);
  if (!(maxIcingC >= 40 && maxIcingC <= 90))
    throw new RangeError(`maxIcingC must be 40–90 °C, got ${maxIcingC}`);
  const air = heatSpell(tool, room);
  const { alreadyDried = [] } = options;
  const before = alreadyDried.length > 0 ? alreadyDried : [{ fromS: 0, air: room }];
  const spells = [...before.filter(({ fromS }) => fromS < driedForS), { fromS: driedForS, air }];
  const { skinFactor = PRIOR_BELIEF.skin } = options;
  const laid = { roomC: room.tempC, ...film };
  const { skin } = forecastFilm(laid, spells, { belief: { ...PRIOR_BELIEF, skin: skinFactor } });
  const underHeatS = (ms: number): number => Math.max(0, ms / SECOND_MS - driedForS);
  const [earliestS, likelyS, latestS] =
    "never" in skin
      ? [Infinity, Infinity, Infinity]
      : [underHeatS(skin.earliestMs), underHeatS(skin.likelyMs), underHeatS(skin.latestMs)];

  const { capS } = tool;
  // A cabinet cannot overheat icing: what has set there may stay, up to the cap.
  const setStopS = tool.kind === "warm-cabinet" ? Infinity : Math.max(SHORTEST_S, PAST_SET * latestS);
  const hotS = air.tempC > maxIcingC ? icingReachesS(laid, spells, driedForS, capS, maxIcingC) : Infinity;
  const heldS =
    tool.kind === "hot-air"
      ? heldTooLongS(film.thicknessMm, jetOf(tool, room), room.tempC, maxIcingC, capS)
      : Infinity;
  const stopByS = Math.min(capS, setStopS, hotS);
  const why = stopByS === hotS ? "icing temperature" : stopByS === setStopS ? "set time" : "tool's cap";
  const settles = likelyS <= stopByS;
  const checkToS = Math.min(latestS, stopByS);
  const limits = {
    checkFromS: Math.min(earliestS, checkToS),
    checkToS,
    stopByS,
    capS,
    settles,
    why,
    ...(heldS < Infinity && { heldTooLongS: heldS }),
  } as const;
  if (likelyS === 0) return { ...limits, hint: "skinned already" };
  if (settles) return limits;
  return { ...limits, hint: why === "icing temperature" ? "too hot before set" : "will not set" };
}

/** The air a film meets under a tool, for following it through a heat-set: the chamber's, or what a moving jet comes to. */
export function heatSpell(tool: HeatToolSpec, room: Air): Air {
  const fault = toolFault(tool);
  if (fault !== undefined) {
    const { field, min, max, unit, value } = fault;
    throw new RangeError(`${field} must be ${min}–${max} ${unit} for this kind of tool, got ${value}`);
  }
  switch (tool.kind) {
    case "hot-air":
      return underMovingJet(tool, room);
    case "oven":
      return inChamber({ ...OVEN_TOOL, ...tool }, room);
    case "warm-cabinet":
      return inChamber({ ...CABINET_TOOL, ...tool }, room);
    default:
      return unreachable(tool.kind);
  }
}

type ChamberTool = Required<Pick<HeatToolSpec, "airC" | "airSpeedMs">> & Pick<HeatToolSpec, "rhPct">;

function inChamber({ airC, airSpeedMs, rhPct }: ChamberTool, room: Air): Air {
  return rhPct === undefined ? warmed(room, airC, airSpeedMs) : { tempC: airC, rhPct, speedMs: airSpeedMs };
}

/**
 * A hot spot as wide as the nozzle moves evenly over the swept width and half its own beyond each side. Jet and room air are
 * weighed by time and by how well they carry heat; warming the air adds no moisture to it.
 */
function underMovingJet(tool: HeatToolSpec, room: Air): Air {
  const jet = jetOf(tool, room);
  const nozzleMm = tool.nozzleMm ?? HOT_AIR_TOOL.nozzleMm;
  const share = (nozzleMm / (nozzleMm + SWEPT_MM)) ** 2;
  const ofJet = share * jet.hWm2K;
  const hWm2K = ofJet + (1 - share) * BETWEEN_PASSES_WM2K;
  const tempC = room.tempC + (ofJet / hWm2K) * (jet.tempC - room.tempC);
  return { ...room, tempC, rhPct: rhPctOf(vapourPa(room), tempC), hWm2K, aroundC: room.tempC };
}

function jetOf(tool: HeatToolSpec, room: Air): Jet {
  const { airC, nozzleMm, distanceCm, jetSpeedMs } = { ...HOT_AIR_TOOL, ...tool };
  return jetAt(airC, room.tempC, nozzleMm, distanceCm * 10, jetSpeedMs);
}

/** Seconds of heat until the surface of the icing is at `limitC`, Infinity if not before the cap. */
function icingReachesS(
  film: FilmSpec,
  spells: readonly AirSpell[],
  startS: number,
  capS: number,
  limitC: number,
): number {
  const atS = Array.from({ length: LOOKS + 1 }, (_, i) => startS + (capS * i) / LOOKS);
  const seen = traceFilm(film, spells, atS);
  const hot = seen.findIndex(({ surfaceC }) => surfaceC >= limitC);
  const [last, first] = [seen[hot - 1], seen[hot]];
  if (first === undefined) return Infinity;
  if (last === undefined) return 0;
  return last.s - startS + ((limitC - last.surfaceC) / (first.surfaceC - last.surfaceC)) * (first.s - last.s);
}
