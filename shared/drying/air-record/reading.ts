/** One hygrometer's line, or one typed. */
export interface Reading {
  atMs: number;
  tempC: number;
  rhPct: number;
  /** "typed" by hand; anything else counts as a sensor that should keep sending. */
  source: string;
}
