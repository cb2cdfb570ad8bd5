import type { ActFact } from "#shared/kitchen/model/act-fact.ts";
import type { LayerFact, RiskFact } from "#shared/kitchen/model/risk.ts";
import { unreachable } from "#shared/outcome.ts";
import type { Formats } from "#shared/words/formats.ts";
import type { Words } from "#shared/words/words.ts";
import { FINDINGS, PROBLEMS, terms } from "./terms.ts";

const LAYING = {
  outline: "trazado de",
  detail: "trazado de",
  flood: "relleno de",
  "top-coat": "cobertura de",
} as const;
const LAID = {
  outline: "trazada",
  detail: "trazada",
  flood: "rellenada",
  "top-coat": "cubierta",
} as const;
const LAY = { pipe: "¿Trazar", flood: "¿Rellenar", "top-coat": "¿Cubrir" } as const;
const RESULTS = {
  set: "fijada",
  "not yet": "todavía no",
  "swollen or cracked": "hinchada o agrietada",
} as const;

export const acts = (format: Formats): Words["acts"] => {
  const { name, sentence } = format;
  const { cookies, layer } = terms(format);
  const layerOf = (fact: LayerFact): string => layer(fact.layer, fact.icing);

  const when = ({ layers, need, fromMs, untilMs, never }: RiskFact): string => {
    const many = layers.length > 1;
    const does =
      need === "skin"
        ? many
          ? "formarán costra"
          : "formará costra"
        : many
          ? "secarán por completo"
          : "secará por completo";
    if (never === true) return `no ${does} con este aire`;
    if (fromMs === undefined || untilMs === undefined)
      return need === "skin"
        ? `quizá aún no ${many ? "tengan" : "tenga"} costra`
        : `quizá aún no ${many ? "estén secas" : "esté seca"} por completo`;
    return `${does} probablemente ${format.timeRange(fromMs, untilMs)}`;
  };
  const risk = (fact: RiskFact): string => {
    const what = `${sentence(format.and(fact.layers.map(layerOf)))} de la bandeja ${fact.tray} ${when(fact)}`;
    if (fact.act === "pack") return `${what}: si se empaca ahora puede embarrarse.`;
    const shows = fact.wouldShow === true ? ", y se notaría" : "";
    return `${what}: ${fact.icing === undefined ? "el siguiente glaseado" : name(fact.icing)} puede correrse si se aplica ahora${shows}.`;
  };
  const question = ({ act, verb = "flood", layers }: RiskFact, next: number | undefined): string =>
    act === "pack"
      ? "¿Empacarla de todos modos?"
      : `${LAY[verb]} la capa ${(next ?? layers.length) + 1} de todos modos?`;

  const say = (fact: ActFact): string => {
    switch (fact.act) {
      case "tray-assigned":
        return fact.isToEveryone ? "devuelta a todos" : `asignada a ${name(fact.to ?? "alguien")}`;
      case "flooding-started":
        return `empezó el ${LAYING[fact.consistency]} la ${layerOf(fact.layer)}`;
      case "flooded":
        return `${layerOf(fact.layer)} ${LAID[fact.consistency]}, reloj de secado en marcha`;
      case "touch-tested":
        return `${layerOf(fact.layer)}: ${FINDINGS[fact.finding]}`;
      case "tray-moved":
        return `movida a ${name(fact.place ?? "otro lugar")}${fact.slot === undefined ? "" : ` · ${name(fact.slot)}`}`;
      case "heat-set-started":
        return `empezó a fijarse con calor, ${name(fact.tool ?? terms(format).toolKinds[fact.kind])}`;
      case "cookie-set":
        return fact.cookie === undefined ? "una galleta fijada" : `galleta ${fact.cookie} fijada`;
      case "cookie-heat-started":
        return fact.cookie === undefined
          ? "aire caliente sobre una galleta"
          : `aire caliente sobre la galleta ${fact.cookie}`;
      case "heat-set-ended":
        return `terminó el calor: ${RESULTS[fact.result]}`;
      case "problem-reported":
        return `${cookies(fact.count)} ${PROBLEMS[fact.problem]}`;
      case "packed":
        return "empacada";
      default:
        return unreachable(fact);
    }
  };

  return { say, risk, question };
};
