import { unreachable } from "#shared/outcome.ts";
import type { Formats } from "#shared/words/formats.ts";
import type { Words } from "#shared/words/words.ts";

export const drying = (format: Formats): Words["drying"] => {
  const { percent, temp } = format;
  const why: Words["drying"]["why"] = (why) => {
    switch (why.code) {
      case "steam":
        return `el aire a ${temp(why.tempC)} y ${percent(why.rhPct)} de humedad sería casi todo vapor; revise los datos`;
      case "no-drying":
        return `el aire está demasiado húmedo, a ${percent(why.rhPct)} (el glaseado no seca por encima de ${percent(why.limitPct)} aprox.)`;
      case "too-damp":
        return `el aire está demasiado húmedo para ${DOING[why.quantity]}, a ${percent(why.rhPct)} (debe bajar de ${percent(why.limitPct)} aprox.)`;
      case "too-slow":
        return `con el aire a ${temp(why.tempC)} y ${percent(why.rhPct)} de humedad tardaría más de ${why.horizonDays} días en ${DOING[why.quantity]}`;
      default:
        return unreachable(why);
    }
  };
  return { why, whySentence: (never) => `${format.sentence(why(never))}.` };
};

const DOING = { skin: "formar costra", dryThrough: "secar por completo" } as const;
