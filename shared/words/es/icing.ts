import type { IngredientName } from "#shared/icing/water.ts";
import type { OpenOrder } from "#shared/kitchen/mixing/icing-needed.ts";
import { unreachable } from "#shared/outcome.ts";
import type { Formats } from "#shared/words/formats.ts";
import type { Words } from "#shared/words/words.ts";
import { terms } from "./terms.ts";

const INGREDIENTS: Record<IngredientName, string> = {
  "icing-sugar": "azúcar glas",
  "meringue-powder": "polvo de merengue",
  "egg-white": "clara pasteurizada",
  water: "agua",
};

export const icing = (format: Formats): Words["icing"] => {
  const { name, mass, volume, number, percent, sentence, when } = format;
  const { cookies, consistencies } = terms(format);
  const isUs = format.units === "us";
  /** "relleno de storm" */
  const kind: Words["icing"]["kind"] = ({ icing = "glaseado", consistency }) =>
    `${consistencies[consistency]} de ${name(icing)}`;
  const offTrays = ({ order, offTrays, like }: OpenOrder): string => {
    const which = `${name(order.name)}: ${cookies(offTrays)} aún sin bandeja`;
    return like.length === 0
      ? `${which} y sin diseño: no se cuentan.`
      : `${which}; se cuentan como sus bandejas (${format.and(like.map((design) => name(design.name)))}).`;
  };
  return {
    title: "Glaseado por mezclar",
    of: "Para",
    allOrders: "todos los pedidos abiertos",
    asOf: (order, atMs, isLive) =>
      `${order === undefined ? "Todos los pedidos abiertos" : name(order)} · ${isLive ? "" : "según lo último, "}${format.dayTime(atMs)}`,
    nothing: {
      "no-trays": "Aún no hay bandejas: no hay de qué partir.",
      "no-orders": "Nada por mezclar: aún no hay pedidos.",
      "all-laid": "Nada por mezclar: cada capa está puesta o en mano.",
    },
    columns: { mix: "mezclar", base: "base", water: "agua" },
    baseInAll: "base en total",
    noWater: "nada",
    need: ({ needG, leastG, mostG }, mixedG) => {
      const need = `${mass(needG)} en las galletas`;
      const guess = mostG > needG ? `estimado: ${need} (${format.massRange(leastG, mostG)})` : need;
      return mixedG > 0 ? `${guess}; ya hay mezclado: ${mass(mixedG)}` : guess;
    },
    base: (baseG) => `Glaseado base en total: ${mass(baseG)}`,
    recipes: "Qué lleva, según dos recetas habituales",
    recipeNames: {
      "meringue-powder": "Con polvo de merengue",
      "egg-white": "Con clara pasteurizada",
    },
    recipe: ({ ingredients, moreWaterG }) =>
      `${ingredients.map((part) => `${INGREDIENTS[part.name]} ${mass(part.massG)}`).join(", ")}; después ${format.water(moreWaterG)} más de agua`,
    ownRecipe: "De memoria: su propia receta va primero.",
    notes: ({ mixes, orders, guessed, wastePct, batchMl, batchG }) => [
      ...(mixes.length === 0
        ? []
        : [
            `Incluye ${percent(wastePct)} por lo que queda en mangas y tazones, redondeado a tandas de ${isUs ? volume(batchMl) : mass(batchG)}.`,
            "Para capas sin empezar. El glaseado ya mezclado, o en una manga, no se descuenta: eso lo decide usted.",
          ]),
      ...orders.filter((order) => order.offTrays > 0).map(offTrays),
      ...(guessed.length === 0
        ? []
        : [
            `Falta el área en ${format.and(guessed.map(name))}. Se estima por el tamaño de la galleta: un relleno o una cobertura en toda ella, una línea alrededor. Puede ser la mitad, o la mitad más.`,
          ]),
    ],
    giveAreas: "Indicar áreas en Diseños",
    print: "Imprimir esta página",
    kind,
    mixedToo: "También hay mezclado",
    past: "Pasó su límite de uso",
    batch: ({ massG, closesS, mixedAtMs, useByAtMs }, of, nowMs) => {
      const what = [...(of === undefined ? [] : [kind(of)]), ...(massG === undefined ? [] : [mass(massG)])];
      const closes = closesS === undefined ? [] : [`se cierra en ${number(closesS)} s`];
      const mixed = sentence([...what, `mezclado ${when(mixedAtMs, nowMs)}`, ...closes].join(", "));
      return useByAtMs < nowMs
        ? `${mixed}, debía usarse hasta ${when(useByAtMs, nowMs)}`
        : `${mixed}, usar hasta ${when(useByAtMs, nowMs)}`;
    },
    tooOld: (of, useByAtMs, nowMs) =>
      `${format.stop(`${sentence(kind(of))}: debía usarse hasta ${when(useByAtMs, nowMs)}`)} Tome glaseado nuevo.`,
    finish: "Usado / desechado",
    finishWhich: (of) => `${sentence(kind(of))}: usado / desechado`,
    finished: (of) => `${sentence(kind(of))}: terminado`,
    mixed: "Mezclado",
    mixedWhich: (consistency) => `${consistencies[consistency]}: mezclado`,
    mixedTitle: (of) => `${sentence(kind(of))}, mezclado`,
    recorded: (of) => `${sentence(kind(of))}: mezclado`,
    form: {
      mass: "Cuánto",
      massHint: "Vacío si no se pesó.",
      closes: "Segundos hasta que se cierra una línea",
      closesHint: "Trace una línea en el tazón y cuente. Vacío si no se hizo.",
      useBy: "Usar hasta",
      useByHint: (timeZone, hours) =>
        hours === undefined
          ? `Hora de la cocina, ${timeZone}. Un responsable puede fijar las horas habituales en Sala.`
          : `Según el ajuste de la cocina: dentro de ${number(hours)} h. Hora de la cocina, ${timeZone}.`,
      noUseBy: "«Usar hasta» debe ser un día y una hora.",
      useByRange: (days) => `«Usar hasta» debe ser después de ahora y dentro de ${number(days)} días.`,
      usual: (hours) => `${number(hours)} h después de mezclar, para cada tanda desde ahora`,
      notSafe:
        "Cuánto tiempo puede usarse el glaseado lo dicen el plan de su cocina y las normas locales. Nada aquí lo declara seguro.",
    },
    stir: {
      title: "Añadir agua",
      base: "Glaseado base",
      waterInIt: "Agua que contiene",
      ofMass: "% de su masa",
      icing: "Glaseado",
      any: "cualquiera: los datos de la cocina",
      wanted: "Se busca, con su agua",
      choice: (consistency, pct) => `${sentence(consistencies[consistency])} ${number(pct, 1)}\u00a0%`,
      answer: (fact) => {
        const what = consistencies[fact.consistency];
        const wanted = `${number(fact.wantedPct, 1)} % de agua`;
        switch (fact.code) {
          case "too-wet":
            return {
              head: "Sin agua",
              body: `${sentence(what)}: aquí lleva ${wanted}, y esta base ya tiene ${number(fact.basePct, 1)} %. El agua no se puede quitar: mezcle base más firme.`,
            };
          case "as-it-is":
            return {
              head: "Sin agua: úselo como está",
              body: `Resulta en ${mass(fact.massG)} de ${what} con ${wanted}.`,
            };
          case "add": {
            const aCup = isUs ? ` ${volume(fact.aCupMl)} por taza de base.` : "";
            return {
              head: `Añada ${format.water(fact.waterG)} de agua`,
              body: `Resulta en ${mass(fact.massG)} de ${what} con ${wanted}.${aCup}`,
            };
          }
          default:
            return unreachable(fact);
        }
      },
    },
    list: {
      none: "Aún no hay glaseados.",
      add: "Añadir un glaseado",
      name: "Nombre del glaseado",
      colour: "Color",
      laidAt: "Temperatura al aplicarlo",
      laidAtHint: "Vacío: la del ambiente.",
      slow: "Seca despacio",
      slowHint: "Glicerina, jarabe de maíz o un color intenso. Cuánto, lo dirán sus propias capas.",
      ownWater: "Agua, donde difiere de la cocina",
      water: (consistency) => `Agua para ${consistencies[consistency]}`,
      kitchens: (pct) => `La de la cocina: ${number(pct, 1)} %`,
    },
  };
};
