import type { Formats } from "#shared/words/formats.ts";
import type { Words } from "#shared/words/words.ts";

const is = (found: string | undefined): string => (found === undefined ? "falta" : `es ${found}`);

export const sensors = (format: Formats): Words["server"]["sensors"] => ({
  taken: (tempC, rhPct) => `${format.temp(tempC)}, ${format.number(rhPct, 1)} % de humedad.`,
  noPlace: (named) => `No hay ningún lugar llamado ${format.name(named)}.`,
  keptByBroker: "Por ahora, solo un mensaje antiguo que guardaba el broker.",
  clockAhead: (min) => `Su reloj va más de ${min} min adelantado: póngalo en hora.`,
  tooLong: (mostBytes, bytes) => `El mensaje debe tener como máximo ${mostBytes} bytes: tiene ${bytes}.`,
  notJson: "El mensaje no es JSON.",
  figure: ({ path, min, max, unit, found }) =>
    `${path} debe ser de ${min} a ${max} ${unit === "% RH" ? "% de humedad" : unit}: ${is(found)}.`,
  time: (path, found) => `${path} debe ser ISO 8601 con su zona, o s o ms desde 1970: ${is(found)}.`,
  noName: (path, most) => `${path ?? "place"} debe nombrar un lugar, con un máximo de ${most} caracteres.`,
  closed: "el broker cerró la conexión",
  subscription: (topic, cause) => `el broker no acepta la suscripción a ${topic}: ${cause}`,
  login:
    "el broker rechaza el acceso: defina TRAYTIDE_MQTT_USERNAME y TRAYTIDE_MQTT_PASSWORD donde corre el servidor",
  listening: "Higrómetros por MQTT: se vuelve a escuchar.",
  retrying: (why) => `Higrómetros por MQTT: ${why}. Se intenta de nuevo.`,
  refused: (from, why) => `Higrómetros por MQTT: se rechaza ${JSON.stringify(from)}: ${why}`,
});
