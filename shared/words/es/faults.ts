import { unreachable } from "#shared/outcome.ts";
import { besideUnits } from "#shared/words/beside-units.ts";
import type { Formats } from "#shared/words/formats.ts";
import type { Words } from "#shared/words/words.ts";

const LISTS = {
  people: "personas",
  trays: "bandejas",
  layers: "capas",
  rules: "reglas",
  places: "lugares",
  ingredients: "ingredientes",
  problems: "problemas",
  areas: "zonas",
  lines: "líneas",
} as const;
/** Units that are words. */
const UNITS: Readonly<Record<string, string>> = {
  "% water": "% de agua",
  "% humidity": "% de humedad",
  "ms since 1970": "ms desde 1970",
};

export const faults = (format: Formats): Words["faults"] => {
  const must: Words["faults"]["must"] = (fact) => {
    switch (fact.is) {
      case "between": {
        const { min, max, unit, isWhole } = fact;
        if (isWhole === true) return `debe ser un número entero de ${min} a ${max}`;
        const beside = besideUnits(min, max, unit, format, "a");
        return `debe ser de ${min} a ${max}${unit === "" ? "" : ` ${UNITS[unit] ?? unit}`}${beside}`;
      }
      case "text":
        return `debe ser un texto de 1 a ${fact.max} caracteres`;
      case "one of":
        return `debe ser uno de: ${fact.words.join(", ")}`;
      case "id":
        return `debe ser un ${fact.of}: de 1 a 40 letras, cifras, "_" o "-"`;
      case "list":
        return fact.min === 0
          ? `debe tener como máximo ${fact.max} ${LISTS[fact.of]}`
          : `debe tener de ${fact.min} a ${fact.max} ${LISTS[fact.of]}`;
      case "air":
        return `debe ser ${fact.words.join(", ")}, o de ${fact.min} a ${fact.max} ${fact.unit}`;
      case "true or false":
        return "debe ser true o false";
      case "a colour":
        return "debe ser un color como #rrggbb";
      case "a time zone":
        return "debe ser una zona horaria como Europe/Lisbon";
      case "a command":
        return "debe ser el nombre de un comando";
      case "seven days":
        return "debe tener siete días, empezando por el lunes";
      case "another time":
        return "debe cerrar a una hora distinta de la de apertura";
      case "earlier layers":
        return "debe tener capas que toquen y esperen solo a capas anteriores";
      case "a JSON path":
        return "debe ser una ruta como temperature o data.temp_c";
      case "a broker's address":
        return "debe ser mqtt:// o mqtts:// con un nombre de host y, si hace falta, un puerto, sin usuario ni contraseña";
      case "an MQTT topic":
        return "debe ser un tema MQTT: + vale por un nivel entero y # por todos los que siguen, solo al final";
      case "path data":
        return "debe ser un trazado SVG de M, L, C y Z en milímetros";
      case "well formed":
        return "no está bien formado";
      default:
        return unreachable(fact);
    }
  };
  return {
    must,
    say: ({ field, must: fact, isMissing }) => {
      if (isMissing !== true) return `${field} ${must(fact)}`;
      return fact.is === "well formed" ? `Falta ${field}` : `Falta ${field}: ${must(fact)}`;
    },
  };
};
