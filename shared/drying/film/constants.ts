/**
 * Numbers of the drying model, SI, each with its source. "memory" is recalled and not looked up again, "practice" is a
 * fact of the trade with no source, "fitted" was chosen so that the practice table (tests/reference/drying-practice) holds.
 */

export const ZERO_C_K = 273.15;
/** Normal pressure at sea level. */
export const PRESSURE_PA = 101_325;
/** Molar gas constant, J/(mol K), exact since the 2019 SI. */
export const GAS_J_MOL_K = 8.314462618;
/** Ratio of the molar masses of water and dry air, ASHRAE Handbook Fundamentals 2017 ch. 1. */
export const WATER_AIR_MASS_RATIO = 0.621945;
/** Gas constants of dry air and of water vapour, J/(kg K), same chapter. */
export const DRY_AIR_J_KG_K = 287.042;
export const VAPOUR_J_KG_K = 461.524;
/** Specific heat of air, J/(kg K). */
export const AIR_CP_J_KG_K = 1006;
/** Stefan–Boltzmann constant, W/(m² K⁴), CODATA 2018. */
export const STEFAN_BOLTZMANN = 5.670374419e-8;
export const GRAVITY_MS2 = 9.80665;

/** Bound water of egg protein and starch: the X, kg/kg, over which water activity falls off. Fitted, small effect. */
export const BOUND_WATER_X = 0.02;
/** Diffusivity of water in the icing at 22 °C, m²/s: above 0.8–1.7e-10 of saturated sucrose (Zobrist 2011, Song 2020, computed). */
export const DIFFUSIVITY_M2_S = 2.5e-10;
/** Its temperature, K. */
export const DIFFUSIVITY_AT_K = 295.15;
/** Its activation energy, J/mol: sucrose at water activity 0.85, 15–30 °C (Zobrist 2011, computed). */
export const ACTIVATION_J_MOL = 43_000;
/** Icing with its air, kg/m³: 1436–1483 without (computed) × 0.8–0.95. */
export const ICING_DENSITY_KG_M3 = 1350;

/** Depth of the crust whose mean decides the skin, m; half of a film thinner than twice that. Fitted. */
export const CRUST_DEPTH_M = 600e-6;
/**
 * The skin has set when the crust's mean X is at or under x / (1 + (x / CRUST_X)ⁿ)^(1/n), x what it was laid with: for loose
 * icing CRUST_X, for stiff icing, laid drier than that, a share of its own water. Both fitted. A plain threshold fits the
 * table as well, but near it a point of water changes the skin's time threefold, which no kitchen sees; n = 3.8 keeps that
 * under 1.5.
 */
export const CRUST_X = 0.262;
export const CRUST_BLEND = 3.8;
/**
 * Dry through when X at the base is at or under this, kg/kg. Fitted: 0.055 is at the edge of the 12 h of practice. It
 * also says in what air icing dries through at all: under about 81 % humidity.
 */
export const DRY_THROUGH_X = 0.065;

/** Half-sheet tray 0.46 × 0.33 m: the mean of its sides, along which the air runs, and area over perimeter. Practice. */
export const TRAY_LENGTH_M = 0.4;
export const TRAY_AREA_PER_EDGE_M = 0.096;
/** Speed of the air at the tray, m/s. Practice, memory. */
export const AIR_SPEED_MS = { still: 0.15, moving: 0.5, fan: 2 } as const;
/** No air is stiller than this: without a draught, a film as warm as its air would never begin to dry, m/s. Memory. */
export const LEAST_SPEED_MS = 0.05;
/** Emissivity of icing, and of what it faces. Memory. */
export const EMISSIVITY = 0.9;
/** Heat capacities of icing and biscuit, J/(m³ K): 1350 × 2000 and 650 × 1800. Memory. */
export const ICING_HEAT_J_M3_K = 2.7e6;
export const BISCUIT_HEAT_J_M3_K = 1.17e6;
export const BISCUIT_MM = 6;
/** Heat conductivities of icing and biscuit, W/(m K). Memory (sugar pastes 0.3–0.5, baked goods about 0.1). */
export const ICING_W_M_K = 0.4;
export const BISCUIT_W_M_K = 0.1;
/** From a tray's underside to the air beneath, W/(m² K). Memory. */
export const UNDER_TRAY_W_M2_K = 10;
/** No film is followed for longer: what takes more than 14 days is told as never, s. */
export const HORIZON_S = 14 * 86_400;
