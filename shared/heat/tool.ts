export type ToolKind = "hot-air" | "oven" | "warm-cabinet";

/** A tool as the kitchen set it up. What is left out is filled in from the kind's defaults. */
export interface HeatToolSpec {
  kind: ToolKind;
  /** Outlet temperature of hot air, or the chamber's air, °C. */
  airC: number;
  /** Hot air: nozzle to icing. */
  distanceCm?: number;
  /** Hot air: width of the outlet. */
  nozzleMm?: number;
  /** Hot air: speed at the outlet. */
  jetSpeedMs?: number;
  /** Chamber: air speed over the tray. */
  airSpeedMs?: number;
  /** Chamber: humidity read inside it; left out, it keeps the room's moisture. */
  rhPct?: number;
  /** Longest heat-set: a cookie under hot air, a trayful in a chamber. */
  capS: number;
  /** Hottest this tool may be for iced work. */
  maxAirC: number;
  /** From switch-off until the tool may be touched or put away. */
  coolDownMin: number;
}

export type ToolField = Exclude<keyof HeatToolSpec, "kind">;

export interface Bound {
  min: number;
  max: number;
  unit: string;
}

/** Widest range of each field over all kinds; `boundsFor` narrows it to a kind. */
export const TOOL_BOUNDS: Readonly<Record<ToolField, Bound>> = {
  airC: { min: 25, max: 550, unit: "°C" },
  distanceCm: { min: 5, max: 40, unit: "cm" },
  nozzleMm: { min: 5, max: 80, unit: "mm" },
  jetSpeedMs: { min: 1, max: 30, unit: "m/s" },
  airSpeedMs: { min: 0.05, max: 5, unit: "m/s" },
  rhPct: { min: 0, max: 100, unit: "%" },
  capS: { min: 20, max: 21_600, unit: "s" },
  maxAirC: { min: 30, max: 550, unit: "°C" },
  coolDownMin: { min: 0, max: 120, unit: "min" },
};

const KIND_BOUNDS: Readonly<Record<ToolKind, Partial<Record<ToolField, Bound>>>> = {
  // Heat guns 100–550 °C, craft embossing tools about 200–350 °C (Prudent Practices §7.C; the latter from memory).
  "hot-air": { airC: { min: 100, max: 550, unit: "°C" }, capS: { min: 20, max: 600, unit: "s" } },
  oven: {
    airC: { min: 30, max: 120, unit: "°C" },
    capS: { min: 30, max: 1800, unit: "s" },
    maxAirC: { min: 40, max: 120, unit: "°C" },
  },
  "warm-cabinet": {
    airC: { min: 25, max: 60, unit: "°C" },
    capS: { min: 60, max: 21_600, unit: "s" },
    maxAirC: { min: 30, max: 60, unit: "°C" },
  },
};

/** The range of each field for one kind of tool. */
export const boundsFor = (kind: ToolKind): Readonly<Record<ToolField, Bound>> => ({
  ...TOOL_BOUNDS,
  ...KIND_BOUNDS[kind],
});

// Caps and temperatures are common practice, no source; a lead may change them within the bounds.

/** Hot air sets a cookie in about so many minutes. Practice, no source. */
export const HOT_AIR_MIN = 2;

/** 300 W of heat at 4 m/s through 25 mm gives about 270 °C: a craft tool, held where icing sets in about two minutes. */
export const HOT_AIR_TOOL = {
  kind: "hot-air",
  airC: 270,
  distanceCm: 14,
  nozzleMm: 25,
  jetSpeedMs: 4,
  capS: 180,
  maxAirC: 350,
  coolDownMin: 10,
} as const satisfies HeatToolSpec;

/** 150 °F with the fan low. */
export const OVEN_TOOL = {
  kind: "oven",
  airC: 65.6,
  airSpeedMs: 0.5,
  capS: 360,
  maxAirC: 80,
  coolDownMin: 30,
} as const satisfies HeatToolSpec;

/** Air at 38 °C cannot overheat icing however long it stays: the cap, 4 h, only keeps a tray from being forgotten. */
export const CABINET_TOOL = {
  kind: "warm-cabinet",
  airC: 38,
  airSpeedMs: 2,
  capS: 14_400,
  maxAirC: 45,
  coolDownMin: 10,
} as const satisfies HeatToolSpec;

export const TOOL_DEFAULTS: Readonly<Record<ToolKind, HeatToolSpec>> = {
  "hot-air": HOT_AIR_TOOL,
  oven: OVEN_TOOL,
  "warm-cabinet": CABINET_TOOL,
};

/** A figure out of the range of its kind of tool. */
export interface ToolFault extends Bound {
  field: ToolField;
  value: number;
}

/** The first thing wrong with a tool's figures; undefined when all is well. */
export function toolFault(tool: HeatToolSpec): ToolFault | undefined {
  const bounds = boundsFor(tool.kind);
  for (const field of Object.keys(bounds) as ToolField[]) {
    const value = tool[field];
    const { min, max } = bounds[field];
    if (value !== undefined && !(value >= min && value <= max)) return { field, value, ...bounds[field] };
  }
  return undefined;
}
