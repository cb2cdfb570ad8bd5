import { describe, expect, test } from "vitest";
import { heatSpell } from "#shared/heat/set.ts";
import {
  boundsFor,
  HOT_AIR_TOOL,
  OVEN_TOOL,
  TOOL_BOUNDS,
  TOOL_DEFAULTS,
  toolFault,
} from "#shared/heat/tool.ts";
import type { ToolField, ToolKind } from "#shared/heat/tool.ts";

const kinds = Object.keys(TOOL_DEFAULTS) as ToolKind[];
const room = { tempC: 22, rhPct: 45, speedMs: 0.15 };

describe("H9 a tool's figures are refused outside their range, by name", () => {
  test.each(kinds)("%s: the defaults are sound", (kind) => {
    expect(toolFault(TOOL_DEFAULTS[kind])).toBeUndefined();
    expect(TOOL_DEFAULTS[kind].airC).toBeLessThanOrEqual(TOOL_DEFAULTS[kind].maxAirC);
  });

  test.each(kinds)("%s: each bound holds at its ends and refuses beyond them", (kind) => {
    const bounds = boundsFor(kind);
    for (const field of Object.keys(bounds) as ToolField[]) {
      const { min, max, unit } = bounds[field];
      const tool = TOOL_DEFAULTS[kind];
      expect(toolFault({ ...tool, [field]: min })).toBeUndefined();
      expect(toolFault({ ...tool, [field]: max })).toBeUndefined();
      for (const beyond of [min - 0.01, max + 0.01, Number.NaN])
        expect(toolFault({ ...tool, [field]: beyond })).toMatchObject({ field, min, max, unit });
      expect(min).toBeGreaterThanOrEqual(TOOL_BOUNDS[field].min);
      expect(max).toBeLessThanOrEqual(TOOL_BOUNDS[field].max);
    }
  });

  test("a faulty tool heats nothing", () => {
    expect(() => heatSpell({ ...OVEN_TOOL, airC: 200 }, room)).toThrow("airC must be 30–120 °C");
  });
});

describe("the air under a tool", () => {
  test("H37 a chamber's own hygrometer outranks the room's moisture", () => {
    expect(heatSpell({ ...OVEN_TOOL, rhPct: 12 }, room)).toEqual({ tempC: 65.6, rhPct: 12, speedMs: 0.5 });
    expect(heatSpell(OVEN_TOOL, room).rhPct).toBeLessThan(6);
  });

  test("what a kitchen left out comes from the kind's defaults", () => {
    const bare = { kind: "hot-air", airC: 270, capS: 180, maxAirC: 350, coolDownMin: 10 } as const;
    expect(heatSpell(bare, room)).toEqual(heatSpell(HOT_AIR_TOOL, room));
  });

  test("the moving jet comes to air between the room's and the outlet's, with its own heat transfer", () => {
    const air = heatSpell(HOT_AIR_TOOL, room);
    expect(air.tempC).toBeGreaterThan(room.tempC);
    expect(air.tempC).toBeLessThan(HOT_AIR_TOOL.airC);
    expect(air.hWm2K).toBeGreaterThan(4);
    expect(air.hWm2K).toBeLessThan(60);
  });
});
