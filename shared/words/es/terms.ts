import type { Formats, Plural } from "#shared/words/formats.ts";
import { fewOf, sayNumbers } from "#shared/words/tray-numbers.ts";
import type { Words } from "#shared/words/words.ts";

const COOKIES: Plural = { one: "galleta", other: "galletas" };
const TRAYS: Plural = { one: "bandeja", other: "bandejas" };

/** What a touch found of a layer. */
export const FINDINGS = { "still wet": "aún húmeda", skinned: "con costra", firm: "firme" } as const;
/** What went wrong with cookies. */
export const PROBLEMS = {
  bled: "con color corrido",
  sunk: "hundidas",
  cracked: "agrietadas",
  swollen: "hinchadas",
  dented: "abolladas",
  smeared: "embarradas",
  burned: "quemadas",
  broken: "rotas",
} as const;

export const terms = (format: Formats): Words["terms"] => ({
  stages: {
    queued: "Sin empezar",
    flooding: "Rellenando",
    "heat-set": "Fijado con calor",
    crusting: "Formando costra",
    "full-dry": "Secado completo",
    packed: "Empacada",
  },
  consistencies: {
    outline: "contorno",
    "top-coat": "cobertura",
    flood: "relleno",
    detail: "detalle",
  },
  placeKinds: {
    rack: "estante",
    "fan-rack": "estante con ventilador",
    "warm-cabinet": "armario tibio",
    oven: "horno",
    bench: "mesa",
  },
  toolKinds: { "hot-air": "aire caliente", oven: "horno", "warm-cabinet": "armario tibio" },
  roles: { lead: "responsable", decorator: "decorador", wall: "pantalla", sensor: "sensor" },
  findings: { "still wet": "Aún húmedo", skinned: "Con costra", firm: "Firme" },
  problems: {
    bled: "Corrido: un color pasó a otro",
    sunk: "Hundido: el centro bajó",
    cracked: "Agrietado",
    swollen: "Hinchado por el calor",
    dented: "Abollado: se tocó húmedo",
    smeared: "Embarrado",
    burned: "Quemado",
    broken: "Galleta rota",
  },
  cookies: (count) => format.count(count, COOKIES),
  trayCount: (count) => format.count(count, TRAYS),
  trays: (numbers) =>
    `${format.plural(numbers.length, TRAYS)} ${format.and(fewOf(numbers, (more) => `${more} más`))}`,
  layer: (layer, icing) => `capa ${layer + 1}${icing === undefined ? "" : ` (${format.name(icing)})`}`,
  place: ({ names, slots }) => {
    if (names.length > 2) return `${names.length} lugares`;
    const named = names.length === 0 ? "sin lugar" : names.map(format.name).join(", ");
    // No line breaks between a place and where in it.
    if (slots === undefined) return named;
    return `${named}\u00a0·\u00a0${typeof slots === "string" ? slots : sayNumbers(slots, 2)}`;
  },
});
