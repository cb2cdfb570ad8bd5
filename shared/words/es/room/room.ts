import type { Consistency } from "#shared/kitchen/model/vocabulary.ts";
import type { Formats, Plural } from "#shared/words/formats.ts";
import type { Words } from "#shared/words/words.ts";
import { hygrometers } from "./hygrometers.ts";
import { drying } from "#shared/words/es/drying.ts";

const PEOPLE: Plural = { one: "persona", other: "personas" };
const FILMS: Readonly<Record<Consistency, (thickness: string) => string>> = {
  outline: (thickness) => `Un contorno de ${thickness}`,
  "top-coat": (thickness) => `Una cobertura de ${thickness}`,
  flood: (thickness) => `Un relleno de ${thickness}`,
  detail: (thickness) => `Un detalle de ${thickness}`,
};

export const room = (format: Formats): Words["room"] => ({
  allAlerts: "Todas las alertas",
  dayLink: "Hoja del día: aire, problemas, manos",
  noPlaces: "Aún no hay lugares. Un responsable los añade en Cocina.",
  kitchen: "Cocina",
  people: "Personas",
  leave: "Salir de esta cocina en este teléfono",
  place: {
    trays: (count, capacity) => `${format.number(count)} de ${format.number(capacity)} bandejas`,
    film: (thicknessMm, consistency, skin, dryThrough) => {
      const skins =
        "never" in skin
          ? `nunca forma costra: ${drying(format).why(skin.never)}`
          : `forma costra en ${format.bandOf(skin)}`;
      const dries =
        "never" in dryThrough
          ? `nunca seca por completo: ${drying(format).why(dryThrough.never)}`
          : `seca por completo en ${format.bandOf(dryThrough)}`;
      return `${FILMS[consistency](format.length(thicknessMm))} ${skins}, ${dries}`;
    },
    airShort: (air) =>
      air === undefined ? "aire sin leer" : `${format.temp(air.tempC)} · ${format.percent(air.rhPct)} HR`,
    air: ({ air, readAt, trouble, isMeasured }) => {
      if (air === undefined) return "Aún no hay lectura del aire: los pronósticos suponen una sala normal.";
      const from = readAt === undefined ? "" : `, leído en ${format.name(readAt)}`;
      const read = `${format.temp(air.tempC)} · ${format.percent(air.rhPct)} HR a las ${format.time(air.atMs)}${from}`;
      if (trouble === "frozen")
        return `${read}. El higrómetro parece atascado: los márgenes son más amplios.`;
      if (trouble === "silent") return `${read}. Nada desde entonces: los márgenes son más amplios.`;
      return isMeasured ? read : `${read}, lo último que se sabe`;
    },
    setTo: (tempC) => `puesto a ${format.temp(tempC)}`,
    enterReading: "Anotar una lectura",
  },
  reading: {
    title: (place) => `Aire en ${format.name(place)}`,
    temp: "Temperatura",
    humidity: "Humedad",
    bothNeeded: "Hacen falta la temperatura y la humedad.",
    enter: "Anotar",
    done: (place) => `${format.name(place)}: lectura anotada`,
  },
  person: {
    you: " (usted)",
    bench: "pantalla de mesa",
    noPhone: "sin teléfono conectado",
    canBeAlerted: "en línea, recibe alertas",
    cannotBeAlerted: "en línea, no recibe alertas",
    makeLead: "Hacer responsable",
    makeDecorator: "Hacer decorador",
    isLead: (name) => `${format.name(name)}: ahora responsable`,
    isDecorator: (name) => `${format.name(name)}: ahora decorador`,
    setHours: "Horario…",
    setHoursOf: (name) => `Horario de ${format.name(name)}`,
    hoursSet: (name) => `Horario de ${format.name(name)} guardado`,
    ownHours: "con horario propio",
    hours: {
      whole: "Todo el horario de la cocina",
      own: "Un horario propio",
      label: "Trabaja",
      hint: "Dentro del horario de la cocina. El plan del día cuenta con esta persona en esas horas, y no en otras.",
      none: "libre",
      from: (day) => `${day}, desde`,
      until: (day) => `${day}, hasta`,
      missing: (field) => `${field}: falta. Ponga una hora, o desmarque el día si lo tiene libre.`,
    },
    remove: (name) => `Quitar a ${name}`,
    removed: (name) => `${format.name(name)}: quitado`,
  },
  removePeople: {
    start: "Quitar personas…",
    explained: "Sus teléfonos deben entrar de nuevo. Lo que hicieron conserva su nombre.",
    tickIdle: (count) => `Marcar a las ${format.number(count)} sin nada en el tablero`,
    confirm: (count) => `Quitar ${format.count(count, PEOPLE)}`,
    removed: (count) => `${format.number(count)} personas quitadas`,
  },
  hygrometers: hygrometers(format),
});
