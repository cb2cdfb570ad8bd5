/**
 * A bowl's seconds test: how many seconds until a line drawn through it closes. What is usual of each consistency is common
 * practice, no source; a kitchen that counts otherwise learns that with the rest.
 */
export const USUAL_CLOSES_S = { outline: 40, "top-coat": 18, flood: 12, detail: 20 } as const;

/** ln of a bowl's seconds over the usual: above nought for stiffer icing, which skins sooner. */
export const closesLn = (consistency: keyof typeof USUAL_CLOSES_S, closesS: number): number =>
  Math.log(closesS / USUAL_CLOSES_S[consistency]);
