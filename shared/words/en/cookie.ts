import type { Formats } from "#shared/words/formats.ts";

/** A cookie's picture, for those who cannot see it. */
export const cookie = ({ name, and }: Formats) => ({
  finished: (design: string) => `${name(design)}: all layers laid`,
  picture: (design: string, laid: readonly string[], next: string, later: readonly string[]) =>
    `${name(design)}: ${[
      ...(laid.length > 0 ? [`${and(laid)} laid`] : []),
      `${next} next`,
      ...(later.length > 0 ? [`${and(later)} to come`] : []),
    ].join(", ")}`,
});
