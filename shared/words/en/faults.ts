import type { BadField, Must } from "#shared/fields.ts";
import { unreachable } from "#shared/outcome.ts";
import type { Formats } from "#shared/words/formats.ts";
import { besideUnits } from "#shared/words/beside-units.ts";

const LISTS = {
  people: "people",
  trays: "trays",
  layers: "layers",
  rules: "rules",
  places: "places",
  ingredients: "ingredients",
  problems: "problems",
  areas: "areas",
  lines: "lines",
} as const;

/** What a field must be, and that one is missing. */
export const faults = (format: Formats) => {
  const must = (fact: Must): string => {
    switch (fact.is) {
      case "between": {
        const { min, max, unit, isWhole } = fact;
        if (isWhole === true) return `must be a whole number from ${min} to ${max}`;
        const beside = besideUnits(min, max, unit, format, "to");
        return `must be ${min} to ${max}${unit === "" ? "" : ` ${unit}`}${beside}`;
      }
      case "text":
        return `must be text of 1 to ${fact.max} characters`;
      case "one of":
        return `must be one of: ${fact.words.join(", ")}`;
      case "id":
        return `must be a ${fact.of}: 1 to 40 letters, digits, "_" or "-"`;
      case "list":
        return fact.min === 0
          ? `must be at most ${fact.max} ${LISTS[fact.of]}`
          : `must have ${fact.min} to ${fact.max} ${LISTS[fact.of]}`;
      case "air":
        return `must be ${fact.words.join(", ")}, or ${fact.min} to ${fact.max} ${fact.unit}`;
      case "true or false":
        return "must be true or false";
      case "a colour":
        return `must be a ${format.units === "us" ? "color" : "colour"} as #rrggbb`;
      case "a time zone":
        return "must be a time zone such as Europe/Lisbon";
      case "a command":
        return "must be the name of a command";
      case "seven days":
        return "must have seven days, Monday first";
      case "another time":
        return "must close at another time than it opens";
      case "earlier layers":
        return "must have layers that touch and wait for earlier layers only";
      case "a JSON path":
        return "must be a path such as temperature or data.temp_c";
      case "a broker's address":
        return "must be mqtt:// or mqtts:// with a host name and perhaps a port, and no name or password";
      case "an MQTT topic":
        return "must be an MQTT topic: + stands for one whole level, # for all that follow, at the end only";
      case "path data":
        return "must be SVG path data of M, L, C and Z in millimetres";
      case "well formed":
        return "is not well formed";
      default:
        return unreachable(fact);
    }
  };
  return {
    must,
    say: ({ field, must: fact, isMissing }: BadField): string => {
      if (isMissing !== true) return `${field} ${must(fact)}`;
      return fact.is === "well formed" ? `${field} is missing` : `${field} is missing: it ${must(fact)}`;
    },
  };
};
