import type { WhyNever } from "#shared/drying/film/film.ts";

/** Air in which no icing dries. */
export const TOO_DAMP: WhyNever = { code: "no-drying", rhPct: 88, limitPct: 85 };
