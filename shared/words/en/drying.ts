import type { WhyNever } from "#shared/drying/film/film.ts";
import { unreachable } from "#shared/outcome.ts";
import type { Formats } from "#shared/words/formats.ts";

/** Why a film never skins or dries through: a clause that goes on after a colon, or as a sentence of its own. */
export const drying = (format: Formats) => {
  const { percent, temp } = format;
  const why = (why: WhyNever): string => {
    switch (why.code) {
      case "steam":
        return `air at ${temp(why.tempC)} and ${percent(why.rhPct)} humidity would be mostly steam; check the figures`;
      case "no-drying":
        return `the air at ${percent(why.rhPct)} humidity is too damp (icing stops drying above about ${percent(why.limitPct)})`;
      case "too-damp":
        return `the air at ${percent(why.rhPct)} humidity is too damp to ${DOING[why.quantity]} (that takes air below about ${percent(why.limitPct)})`;
      case "too-slow":
        return `in air at ${temp(why.tempC)} and ${percent(why.rhPct)} humidity it would take more than ${why.horizonDays} days to ${DOING[why.quantity]}`;
      default:
        return unreachable(why);
    }
  };
  return { why, whySentence: (never: WhyNever) => `${format.sentence(why(never))}.` };
};

const DOING = { skin: "skin over", dryThrough: "dry right through" } as const;
