/** A film as it is laid: of one water content, the icing and the biscuit each of one temperature. */
export interface FilmStart {
  thicknessM: number;
  /** Water, kg a kg solids. */
  x: number;
  solidsKgM3: number;
  /** Heat that the icing and the biscuit hold, J/(m² K). */
  icingJM2K: number;
  biscuitJM2K: number;
  /** Conduction from the surface to the middle of the icing, on to the middle of the biscuit, and to the air beneath, W/(m² K). */
  faceWm2K: number;
  betweenWm2K: number;
  underWm2K: number;
  icingC: number;
  biscuitC: number;
  skinX: number;
  dryThroughX: number;
}

/** What a solver holds before its first film. */
export const NO_FILM: FilmStart = {
  thicknessM: 0,
  x: 0,
  solidsKgM3: 1,
  icingJM2K: 1,
  biscuitJM2K: 1,
  faceWm2K: 1,
  betweenWm2K: 0,
  underWm2K: 0,
  icingC: 0,
  biscuitC: 0,
  skinX: 0,
  dryThroughX: 0,
};
