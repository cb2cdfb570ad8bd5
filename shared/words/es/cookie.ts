import type { Formats } from "#shared/words/formats.ts";
import type { Words } from "#shared/words/words.ts";

export const cookie = ({ name, and }: Formats): Words["cookie"] => ({
  finished: (design) => `${name(design)}: todas las capas puestas`,
  picture: (design, laid, next, later) =>
    `${name(design)}: ${[
      ...(laid.length > 0 ? [`ya puesto: ${and(laid)}`] : []),
      `ahora: ${next}`,
      ...(later.length > 0 ? [`después: ${and(later)}`] : []),
    ].join("; ")}`,
});
