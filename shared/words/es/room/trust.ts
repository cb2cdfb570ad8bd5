import type { Found, Score } from "#shared/kitchen/calibration/trust.ts";
import { unreachable } from "#shared/outcome.ts";
import type { Formats, Plural } from "#shared/words/formats.ts";
import type { Words } from "#shared/words/words.ts";

const FILMS: Plural = { one: "capa", other: "capas" };
const THAN = { sooner: "antes que lo más temprano", later: "después que lo más tardío" } as const;

export const trust = (format: Formats): Words["trust"] => {
  const { number, plural, span, name } = format;
  const quantities: Record<Found["quantity"], string> = { skin: "Costra", dryThrough: "Secado completo" };
  const shown: Words["trust"]["shown"] = ({ earliestMin, latestMin }) =>
    `de ${span(earliestMin)} a ${span(latestMin)}`;
  const foundAt: Words["trust"]["foundAt"] = ({ notYetMin, byMin }) => {
    const by = byMin === undefined ? undefined : `ya en ${span(byMin)}`;
    if (notYetMin === undefined) return by ?? "";
    return by === undefined ? `aún no tras ${span(notYetMin)}` : `aún no tras ${span(notYetMin)}, ${by}`;
  };
  const surprise: Words["trust"]["surprise"] = ({ is, byMin }, contradicted) =>
    `al menos ${span(byMin)} ${THAN[is]}${contradicted ? "; sus pruebas no coinciden, vale la última" : ""}`;
  function verdict(verdict: Score["verdict"]): string {
    switch (verdict) {
      case "as expected":
        return "como debe ser";
      case "too few":
        return "muy pocas, guíese por el tacto";
      case "more than expected":
        return "los márgenes son más amplios de lo necesario";
      case "too early to tell":
        return "muy pocas capas para juzgar";
      default:
        return unreachable(verdict);
    }
  }
  return {
    title: "Cómo seca esta cocina",
    whichTime: "Qué tiempo",
    quantities,
    lists: {
      kitchen: "Junto al libro",
      icing: "Por glaseado, junto al libro",
      place: "Por lugar, junto al libro",
      heat: "Bajo calor, junto al libro",
    },
    howWeCount: "Cómo contamos",
    nothingKnown: "Aún no se sabe nada: cada prueba al tacto enseña.",
    working: "Calculando…",
    scale: { half: "la mitad", same: "el libro", twice: "el doble" },
    explained:
      "El libro es el cálculo de secado tal como era antes de las pruebas de esta cocina. Entre paréntesis, dónde está su propio ritmo con 8 de 10 probabilidades. Cada pronóstico de aquí ya lo tiene en cuenta.",
    surprises: "Las últimas sorpresas",
    noSurprise: "Ninguna prueba quedó fuera del margen mostrado.",
    score: ({ films, inside, expected, sooner, later, verdict: is }) => {
      if (films === 0)
        return {
          head: "Aún no se tocó ninguna capa con un margen para comparar.",
          body: "Cuenta cada prueba al tacto en una capa cuya costra o secado aún está por venir.",
        };
      const whole = Math.round(inside);
      const which = films === 1 ? "la única capa tocada" : `las últimas ${number(films)} capas tocadas`;
      const counts = plural(whole, { one: "cuenta", other: "cuentan" });
      const ways = [
        ...(sooner > 0 ? [`${number(sooner)} antes`] : []),
        ...(later > 0 ? [`${number(later)} después`] : []),
      ];
      const outside =
        sooner + later === 0
          ? "Ninguna prueba descarta su margen."
          : `${format.count(sooner + later, { one: "prueba queda", other: "pruebas quedan" })} del todo fuera: ${ways.join(", ")}.`;
      return {
        head: `De ${which}, unas ${number(whole)} ${counts} como dentro del margen mostrado (${number(expected)} esperadas, 8 de 10): ${verdict(is)}.`,
        body: `${outside} El tacto solo dice «ya» o «aún no»: cada capa cuenta por la parte que cae dentro de su margen, y el resto queda abierto.`,
      };
    },
    shown,
    foundAt,
    surprise,
    film: ({ trayNumber, layer }) => `Bandeja ${trayNumber}, capa ${layer + 1}`,
    where: (icing, place, atMs) =>
      [
        icing === undefined ? "un glaseado ya quitado" : name(icing),
        place === undefined ? "un lugar ya quitado" : name(place),
        format.dayTime(atMs),
      ].join(" · "),
    found: (found) => `${quantities[found.quantity]}: mostrado ${shown(found)}, hallado ${foundAt(found)}`,
    plot: {
      title: (films) =>
        films === 1
          ? "Pronóstico y hallazgo: la última capa"
          : `Pronóstico y hallazgo: las últimas ${number(films)} capas, primero el pronóstico más corto`,
      label: (films, outside) =>
        `${format.count(films, FILMS)}, ${number(outside)} fuera del margen mostrado. La tabla de abajo dice lo mismo.`,
      tap: "Toque una columna para ver qué capa es.",
      asTable: "Lo mismo en una tabla",
      columns: { film: "Capa", shown: "Mostrado", found: "Hallado" },
      outside: { sooner: "antes, fuera del margen", later: "después, fuera del margen" },
      legend: {
        band: "margen mostrado, de lo más temprano a lo más tardío; la línea: lo más probable",
        between: "hallado entre un «aún no» y un «ya»",
        done: "hallado ya: entonces o antes",
        notYet: "hallado aún no: después",
        outside: "fuera del margen: una sorpresa",
      },
    },
  };
};
