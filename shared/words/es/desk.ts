import type { Formats } from "#shared/words/formats.ts";
import { sayNumbers } from "#shared/words/tray-numbers.ts";
import type { Words } from "#shared/words/words.ts";

export const desk = (format: Formats): Words["desk"] => {
  const which = (numbers: readonly number[]): string =>
    `${format.plural(numbers.length, { one: "bandeja", other: "bandejas" })} ${sayNumbers(numbers)}`;
  return {
    find: "Buscar",
    findLabel: "Buscar una bandeja, un pedido, un diseño o un glaseado",
    nothingFound: (text) => `No se encontró nada con ${format.name(text)}`,
    foundTray: (number, order) =>
      order === undefined ? `Bandeja ${number}` : `Bandeja ${number} · ${format.name(order)}`,
    gone: "Esto ya no está aquí.",
    bench: {
      who: "¿Quién toca?",
      by: (person) => `Lo hace ${format.name(person)} · otra persona`,
    },
    invite: {
      title: "Dejar entrar otro teléfono",
      asking: "Preguntando al servidor…",
      scan: "Apunte aquí con su cámara, o abra",
      code: "y escriba el código",
    },
    hours: { same: "El mismo horario todos los días", everyDay: "Todos los días" },
    plan: {
      about: (trays, hands, madeAtMs) =>
        [
          format.count(trays, { one: "bandeja", other: "bandejas" }),
          format.count(hands, { one: "persona", other: "personas" }),
          ...(madeAtMs === undefined
            ? []
            : [`hecho a las ${format.time(madeAtMs)}, de nuevo tras cada toque`]),
        ].join(" · "),
      asLastHeard: (about) => `Sin conexión, lo último recibido · ${about}`,
      noConnection: "El plan lo hace el servidor, y no hay conexión con él.",
      asking: "Pidiendo el plan…",
      nothing: "Nada que hacer: ninguna bandeja espera manos y nada se seca.",
      asList: "El plan como lista",
      pickUps: "Retiros",
      hours: "Horas a la vista",
      earlier: "Antes",
      now: "Ahora",
      later: "Después",
      doing: {
        pipe: "delinear",
        flood: "rellenar",
        "top-coat": "cubrir",
        heat: "fijar con calor",
        pack: "empacar",
        several: "varias",
      },
      laying: (how, icing) => (icing === undefined ? how : `${how}, ${format.name(icing)}`),
      rows: { hands: "Más manos", "hot-air": "Aire caliente" },
      tools: (count) => format.count(count, { one: "equipo", other: "equipos" }),
      from: (when) => `desde ${when}`,
      until: (when) => `hasta ${when}`,
      taken: (trays, capacity) => `${format.number(trays)} de ${format.number(capacity)}`,
      act: (times, doing, numbers) => `${times}: ${doing}, ${which(numbers)}`,
      dries: (numbers, when, isPlanned) =>
        isPlanned
          ? `${format.sentence(which(numbers))}: capa siguiente seca del todo hacia ${when}`
          : `${format.sentence(which(numbers))}: seca del todo hacia ${when}`,
      neverDries: (numbers) => `${format.sentence(which(numbers))}: no se secará con este aire`,
      wet: "húmedo",
      drying: "con costra, secándose",
      planned: "previsto",
    },
  };
};
