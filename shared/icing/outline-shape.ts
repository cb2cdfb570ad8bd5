/** A cookie's outline from above, to be flooded up to a margin. */
export interface OutlineShape {
  areaMm2: number;
  perimeterMm: number;
}

/** A round cookie. */
export const roundShape = (diameterMm: number): OutlineShape => ({
  areaMm2: (Math.PI * diameterMm ** 2) / 4,
  perimeterMm: Math.PI * diameterMm,
});

/** A square or oblong cookie. */
export const rectangleShape = (widthMm: number, heightMm: number): OutlineShape => ({
  areaMm2: widthMm * heightMm,
  perimeterMm: 2 * (widthMm + heightMm),
});

/** An oval cookie; the perimeter by Ramanujan's first formula (within 1e-4 for ovals up to 1:3). */
export function ovalShape(widthMm: number, heightMm: number): OutlineShape {
  const [a, b] = [widthMm / 2, heightMm / 2];
  return {
    areaMm2: Math.PI * a * b,
    perimeterMm: Math.PI * (3 * (a + b) - Math.sqrt((3 * a + b) * (a + 3 * b))),
  };
}

/** Any other cutter, from its size: it is taken to fill 0.65 of its box, the longer edge of a figure to be 1.2 × an oval's. */
export function figureShape(widthMm: number, heightMm: number): OutlineShape {
  return {
    areaMm2: widthMm * heightMm * 0.65,
    perimeterMm: ovalShape(widthMm, heightMm).perimeterMm * 1.2,
  };
}
