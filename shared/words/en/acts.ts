import type { ActFact } from "#shared/kitchen/model/act-fact.ts";
import type { LayerFact, RiskFact } from "#shared/kitchen/model/risk.ts";
import { unreachable } from "#shared/outcome.ts";
import type { Formats } from "#shared/words/formats.ts";
import { terms } from "./terms.ts";

const LAYING = { outline: "piping", detail: "piping", flood: "flooding", "top-coat": "top-coating" } as const;
const LAID = { outline: "piped", detail: "piped", flood: "flooded", "top-coat": "top-coated" } as const;
const LAY = { pipe: "Pipe", flood: "Flood", "top-coat": "Top-coat" } as const;

/** What a tray's acts are called, and what one done too soon risks. */
export const acts = (format: Formats) => {
  const { name, sentence } = format;
  const { cookies, layer } = terms(format);
  const layerOf = (fact: LayerFact): string => layer(fact.layer, fact.icing);
  const layersOf = (facts: RiskFact["layers"]): string => sentence(format.and(facts.map(layerOf)));

  /** When layers likely will be what they are not yet. */
  const when = ({ layers, need, fromMs, untilMs, never }: RiskFact): string => {
    if (never === true) return `will not ${need === "skin" ? "skin" : "dry through"} in this air`;
    if (fromMs === undefined || untilMs === undefined)
      return `may not have ${need === "skin" ? "skinned" : "dried through"} yet`;
    return `${layers.length === 1 ? "is" : "are"} likely to ${need} ${format.timeRange(fromMs, untilMs)}`;
  };
  const risk = (fact: RiskFact): string => {
    const what = `${layersOf(fact.layers)} of tray ${fact.tray} ${when(fact)}`;
    if (fact.act === "pack") return `${what}: packed now it may smear.`;
    const shows = fact.wouldShow === true ? ", and it would show" : "";
    return `${what}: ${fact.icing === undefined ? "the next icing" : name(fact.icing)} laid now may bleed${shows}.`;
  };
  const question = ({ act, verb = "flood", layers }: RiskFact, next: number | undefined): string =>
    act === "pack" ? "Pack it anyway?" : `${LAY[verb]} layer ${(next ?? layers.length) + 1} anyway?`;

  /** An act of a tray's history. */
  const say = (fact: ActFact): string => {
    switch (fact.act) {
      case "tray-assigned":
        return fact.isToEveryone ? "given back to everyone" : `given to ${name(fact.to ?? "someone")}`;
      case "flooding-started":
        return `${LAYING[fact.consistency]} of ${layerOf(fact.layer)} started`;
      case "flooded":
        return `${layerOf(fact.layer)} ${LAID[fact.consistency]}, drying clock started`;
      case "touch-tested":
        return `${layerOf(fact.layer)} found ${fact.finding}`;
      case "tray-moved":
        return `moved to ${name(fact.place ?? "another place")}${fact.slot === undefined ? "" : ` · ${name(fact.slot)}`}`;
      case "heat-set-started":
        return `heat-set started, ${name(fact.tool ?? fact.kind)}`;
      case "cookie-set":
        return fact.cookie === undefined ? "a cookie set" : `cookie ${fact.cookie} set`;
      case "cookie-heat-started":
        return fact.cookie === undefined ? "hot air on a cookie" : `hot air on cookie ${fact.cookie}`;
      case "heat-set-ended":
        return `heat-set ended: ${fact.result}`;
      case "problem-reported":
        return `${cookies(fact.count)} ${fact.problem}`;
      case "packed":
        return "packed";
      default:
        return unreachable(fact);
    }
  };

  return { say, risk, question };
};
