import { unreachable } from "#shared/outcome.ts";
import type { InTime } from "#shared/drying/uncertainty/compare.ts";
import type { Formats } from "#shared/words/formats.ts";
import type { Words } from "#shared/words/words.ts";

const MOVING = {
  still: "aire quieto",
  moving: "aire en movimiento",
  fan: "aire bajo un ventilador",
} as const;
const PICK_UP: Readonly<Record<InTime, string>> = {
  surely: "llega al retiro",
  likely: "es probable que llegue al retiro",
  no: "no llega al retiro",
};

export const forecast = (format: Formats): Words["server"]["forecast"] => ({
  usage: `Cuánto tarda el glaseado en formar costra y en secar por completo.

  npm run forecast -- --temp 22 --rh 45 --air still --thickness 2.4 --water 19

  --temp       aire, °C, de -5 a 120
  --rh         humedad, %, de 0 a 100
  --air        still (quieto), moving (en movimiento), fan (ventilador), o m/s de 0 a 10
  --thickness  grosor del glaseado, mm, de 0.2 a 12
  --water      agua del glaseado, % de su masa, de 8 a 35
  --compare    qué ayudaría, lo más rápido primero
  --pick-up    con --compare: min hasta que deba estar seco, de 1 a 20160
  --json       la respuesta en JSON, y cuánto más (ln) tarda con un punto más de agua
`,
  pickUpRange: (maxMin) => `--pick-up debe ser de 1 a ${maxMin} min`,
  pickUpAlone: "--pick-up va con --compare",
  asked: ({ tempC, rhPct, air, thicknessMm, waterPct }) => {
    const where = typeof air === "number" ? `aire a ${format.number(air, 2)} m/s` : MOVING[air];
    return `Glaseado de ${format.number(thicknessMm, 3)} mm de grosor, ${format.number(waterPct, 3)} % de agua, en ${where} a ${format.number(tempC, 3)} °C y ${format.number(rhPct, 3)} % de humedad.`;
  },
  skin: "costra",
  dryThrough: "secado completo",
  times: (likely, earliest, latest) =>
    `lo más probable, ${likely}; como pronto ${earliest}, como tarde ${latest}`,
  orMore: (span) => `${span} o más`,
  never: (why) => `nunca. ${why}`,
  doubt:
    "Una de cada diez veces es antes de lo más pronto, y una de cada diez después de lo más tarde.\nEs una estimación: manda la prueba al tacto.",
  asItIs: (inTime) => `Tal como está: ${PICK_UP[inTime]}.`,
  nothingHelps: "Nada de la lista lo haría más rápido.",
  waysHeading:
    "Qué ayudaría, el secado completo más rápido primero: lo más probable, de lo más pronto a lo más tarde, y lo que se gana:",
  change: (change) => {
    switch (change.code) {
      case "moving-air":
        return "en aire en movimiento";
      case "fan":
        return "bajo un ventilador";
      case "warm-cabinet":
        return `en un armario tibio a ${format.number(change.tempC)} °C con ventilador`;
      case "heat-set":
        return `fijado antes con calor: ${format.number(change.min)} min en horno bajo, ${format.number(change.tempC, 1)} °C`;
      case "dried-air":
        return `con el aire secado al ${format.number(change.rhPct)} %`;
      case "thinner":
        return `una cuarta parte más fino, ${format.number(change.thicknessMm, 2)} mm`;
      default:
        return unreachable(change);
    }
  },
  way: (dryThrough, skin, inTime) =>
    `secado completo ${dryThrough}; costra ${skin}${inTime === undefined ? "" : `; ${PICK_UP[inTime]}`}`,
  wayNever: "nunca",
  elseNever: (times) => `${times} (si no, nunca)`,
  noSooner: (times) => `${times} (no antes)`,
  sooner: (times, by) => `${times} (${by} antes)`,
  later: (times, by) => `${times} (${by} después)`,
  upTo: (latest) => `hasta ${latest}`,
  heated: (heated, unheated) => `${heated}, o, si el calor no lo fija, ${unheated}`,
  unheated: (unheated, heated) => `${unheated}, o, si el calor lo fija, ${heated}`,
});
