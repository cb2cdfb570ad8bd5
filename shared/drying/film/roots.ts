import type { Exchange } from "./exchange.ts";

/**
 * The flux J that agrees with the surface it leaves: J = flux(x − drop J, tempC − chill J). A wetter or warmer surface gives off
 * more, so there is one such flux. Newton, from a near guess; each look narrows a bracket that no step may leave, so that
 * it also comes down in very hot air, where the plain steps swing.
 */
export function solveFlux(
  exchange: Exchange,
  x: number,
  drop: number,
  tempC: number,
  chill: number,
  guess: number,
): number {
  let flux = guess;
  let low = -Infinity;
  let high = Infinity;
  for (let i = 0; i < 60; i++) {
    exchange.at(x - drop * flux, tempC - chill * flux);
    const tooHigh = flux - exchange.flux;
    if (tooHigh > 0) high = flux;
    else low = flux;
    const next = flux - tooHigh / (1 + drop * exchange.fluxByX + chill * exchange.fluxByK);
    const step =
      (next > low && next < high) || high - low === Infinity ? next - flux : (low + high) / 2 - flux;
    flux += step;
    if (Math.abs(step) < 1e-13 + 1e-2 * Math.abs(flux)) break;
  }
  return flux;
}

/** Where in 0…1 the cubic through two values with these slopes first comes down to a level between them. */
export function crossing(
  from: number,
  to: number,
  fromSlope: number,
  toSlope: number,
  level: number,
): number {
  let low = 0;
  let high = 1;
  for (let i = 0; i < 40; i++) {
    const t = (low + high) / 2;
    const rest = 1 - t;
    const value =
      from * rest * rest * (1 + 2 * t) +
      to * t * t * (3 - 2 * t) +
      t * rest * (fromSlope * rest - toSlope * t);
    if (value > level) low = t;
    else high = t;
  }
  return high;
}
