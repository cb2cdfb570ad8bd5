import * as fc from "fast-check";
import { describe, expect, test } from "vitest";
import { type Air, dryFilm, type FilmSpec } from "#shared/drying/film/film.ts";
import { traySafeAfterS } from "#shared/heat/cooling.ts";
import { heatLimits, heatSpell } from "#shared/heat/set.ts";
import { boundsFor, type HeatToolSpec, TOOL_DEFAULTS, type ToolKind } from "#shared/heat/tool.ts";

const number = (min: number, max: number): fc.Arbitrary<number> =>
  fc.double({ min, max, noNaN: true, noDefaultInfinity: true });

const films: fc.Arbitrary<FilmSpec> = fc.record({ thicknessMm: number(0.4, 6), waterPct: number(12, 28) });
const rooms: fc.Arbitrary<Air> = fc.record({
  tempC: number(12, 34),
  rhPct: number(15, 84),
  speedMs: number(0.05, 3),
});
const kinds = fc.constantFrom(...(Object.keys(TOOL_DEFAULTS) as ToolKind[]));
const tools: fc.Arbitrary<HeatToolSpec> = kinds.chain((kind) => {
  const { airC, distanceCm, nozzleMm, capS } = boundsFor(kind);
  return fc.record({
    kind: fc.constant(kind),
    airC: number(airC.min, airC.max),
    distanceCm: number(distanceCm.min, distanceCm.max),
    nozzleMm: number(nozzleMm.min, nozzleMm.max),
    capS: number(capS.min, capS.max),
    maxAirC: fc.constant(TOOL_DEFAULTS[kind].maxAirC),
    coolDownMin: fc.constant(10),
  });
});

/** Seconds to the skin, Infinity if never; the slack is the solver's own. */
function setS(film: FilmSpec, tool: HeatToolSpec, room: Air): number {
  const { skin } = dryFilm({ ...film, roomC: room.tempC }, [{ fromS: 0, air: heatSpell(tool, room) }], {
    until: "skin",
  });
  return "s" in skin ? skin.s : Infinity;
}
const SLACK = 1.02;

describe("limits of a heat-set, any film, tool and room", () => {
  test("H6 H33 nought ≤ check-from ≤ check-to ≤ stop-by ≤ cap, and stop-by holds to 1.5 × the latest set", () => {
    fc.assert(
      fc.property(
        films,
        tools,
        rooms,
        number(0, 3600),
        number(40, 90),
        (film, tool, room, driedForS, maxIcingC) => {
          const limits = heatLimits(film, tool, room, { driedForS, maxIcingC });
          expect(limits.checkFromS).toBeGreaterThanOrEqual(0);
          expect(limits.checkFromS).toBeLessThanOrEqual(limits.checkToS);
          expect(limits.checkToS).toBeLessThanOrEqual(limits.stopByS);
          expect(limits.stopByS).toBeLessThanOrEqual(tool.capS);
          if (tool.kind !== "warm-cabinet" && limits.checkToS < limits.stopByS)
            expect(limits.stopByS).toBeLessThanOrEqual(Math.max(20, 1.5 * limits.checkToS));
          if (!limits.settles) expect(limits.hint).toBeDefined();
        },
      ),
      { numRuns: 150 },
    );
  });

  test("H33 a lower limit for the icing never gives more time", () => {
    fc.assert(
      fc.property(films, tools, rooms, number(40, 88), number(0, 2), (film, tool, room, maxIcingC, more) => {
        const strict = heatLimits(film, tool, room, { maxIcingC });
        const lax = heatLimits(film, tool, room, { maxIcingC: maxIcingC + more });
        expect(strict.stopByS).toBeLessThanOrEqual(lax.stopByS);
      }),
      { numRuns: 60 },
    );
  });
});

describe("H36 more heat never sets later", () => {
  test("a hotter tool", () => {
    fc.assert(
      fc.property(films, tools, rooms, number(0, 1), (film, tool, room, share) => {
        const { max } = boundsFor(tool.kind).airC;
        const hotter = { ...tool, airC: tool.airC + share * (max - tool.airC) };
        expect(setS(film, hotter, room)).toBeLessThanOrEqual(SLACK * setS(film, tool, room));
      }),
      { numRuns: 150 },
    );
  });

  test("hot air held closer", () => {
    fc.assert(
      fc.property(films, rooms, number(5, 40), number(5, 40), (film, room, a, b) => {
        const at = (distanceCm: number): number =>
          setS(film, { ...TOOL_DEFAULTS["hot-air"], distanceCm }, room);
        expect(at(Math.min(a, b))).toBeLessThanOrEqual(SLACK * at(Math.max(a, b)));
      }),
      { numRuns: 100 },
    );
  });
});

test("H31 a tray left hotter, or in a warmer room, is hot for longer", () => {
  fc.assert(
    fc.property(
      number(30, 300),
      number(0, 40),
      number(0, 20),
      number(0, 5),
      (leftAtC, roomC, more, warmer) => {
        const hotS = traySafeAfterS(leftAtC, roomC, 12);
        expect(traySafeAfterS(Math.min(300, leftAtC + more), roomC, 12)).toBeGreaterThanOrEqual(hotS);
        expect(traySafeAfterS(leftAtC, roomC + warmer, 12)).toBeGreaterThanOrEqual(hotS);
      },
    ),
  );
});
