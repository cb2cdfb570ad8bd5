import { describe, expect, test } from "vitest";
import { DIFFUSIVITY_M2_S } from "#shared/drying/film/constants.ts";
import { CELLS, FilmSolver } from "#shared/drying/film/solver.ts";
import type { Exchange } from "#shared/drying/film/exchange.ts";

/** The solver on textbook films: 22 °C throughout, so that the diffusivity is its own at 22 °C. */
const L = 2e-3;
const X0 = 0.25;
const SOLIDS = 1000;
const ofFourier = (fo: number): number => (fo * L * L) / DIFFUSIVITY_M2_S;

/** A surface that gives off `law(x)`, kg/m²s, with slope `byX`. */
function surface(law: (x: number) => number, byX: number): Exchange {
  return {
    heatWm2K: 0,
    gainWm2: 0,
    underC: 22,
    restsAtX: -Infinity,
    latentJKg: 0,
    setSurfaceC() {},
    flux: 0,
    fluxByX: byX,
    fluxByK: 0,
    at(x) {
      this.flux = law(x);
    },
  };
}
/** Surface resistance of this Biot number towards X = 0. */
function resisted(biot: number): Exchange {
  const coefficient = (SOLIDS * biot * DIFFUSIVITY_M2_S) / L;
  return surface((x) => coefficient * x, coefficient);
}

function lay(exchange: Exchange, solver: FilmSolver): FilmSolver {
  const heat = { icingJM2K: 5e3, biscuitJM2K: 7e3, faceWm2K: 300, betweenWm2K: 30, underWm2K: 8 };
  const none = { skinX: -Infinity, dryThroughX: -Infinity };
  solver.begin({ thicknessM: L, x: X0, solidsKgM3: SOLIDS, ...heat, icingC: 22, biscuitC: 22, ...none });
  solver.meet(exchange);
  return solver;
}

/** As it is used, to 0.6 %: its cells and steps are coarse on purpose; with more of both, to 0.02 %. */
const SOLVERS = [
  { name: "as used", cells: CELLS, fineness: 1, within: 6e-3 },
  { name: "fine", cells: 160, fineness: 1e-3, within: 2e-4 },
];

describe.each(SOLVERS)("the solver $name", ({ cells, fineness, within }) => {
  const run = (exchange: Exchange): FilmSolver => lay(exchange, new FilmSolver(cells, fineness));
  const near = (value: number, reference: number): void =>
    expect(Math.abs(value / reference - 1)).toBeLessThan(within);

  test.each([
    [0.125, 0.398928],
    [0.25, 0.562234],
  ])("fixed surface, Fo %d: %d is gone (Crank 1975, plane sheet)", (fo, gone) => {
    const solver = run(resisted(1e7));
    solver.advance(ofFourier(fo));
    near(1 - solver.meanX / X0, gone);
  });

  test.each([
    [1, 1, 0.5296],
    [5, 0.5, 0.61483],
  ])("surface resistance L = %d, Fo %d: %d is gone (Crank 1975 eq. 4.53)", (biot, fo, gone) => {
    const solver = run(resisted(biot));
    solver.advance(ofFourier(fo));
    near(1 - solver.meanX / X0, gone);
  });

  test.each([
    [0.1, 0.356826],
    [0.2, 0.505165],
    [0.5, 0.831876],
    [1, 1.333323],
  ])(
    "constant flux, sealed base, Fo %d: the surface has fallen by %d qL/D (Carslaw & Jaeger §3.8)",
    (fo, fall) => {
      const unit = 0.1;
      const solver = run(surface(() => (unit * SOLIDS * DIFFUSIVITY_M2_S) / L, 0));
      solver.advance(ofFourier(fo));
      near((X0 - solver.surfaceX) / unit, fall);
    },
  );
});

// To 3e-4, the table's four decimals; ζ1² from the base's fall between Fo 1 and 2, C1 from its height.
test.each([
  [0.1, 0.3111, 1.0161],
  [0.5, 0.6533, 1.0701],
  [1, 0.8603, 1.1191],
  [2, 1.0769, 1.1785],
  [5, 1.3138, 1.2403],
  [10, 1.4289, 1.262],
])("plane wall, Bi %d: ζ1 %d, C1 %d (Çengel table 4-2)", (biot, zeta, c1) => {
  const solver = lay(resisted(biot), new FilmSolver(160, 1e-4));
  solver.advance(ofFourier(1));
  const earlier = solver.baseX / X0;
  solver.advance(ofFourier(2));
  const later = solver.baseX / X0;
  const zetaSquared = Math.log(earlier / later);
  expect(Math.abs(Math.sqrt(zetaSquared) / zeta - 1)).toBeLessThan(3e-4);
  expect(Math.abs((earlier * Math.exp(zetaSquared)) / c1 - 1)).toBeLessThan(3e-4);
});
