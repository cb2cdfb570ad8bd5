import type { Formats } from "#shared/words/formats.ts";
import type { Words } from "#shared/words/words.ts";

export const hygrometers = (format: Formats): Words["room"]["hygrometers"] => ({
  places: "Lugares",
  noneRead: "Nunca se leyó ningún lugar: los pronósticos suponen una sala normal.",
  goBy: (places, source) =>
    `${format.and(places.map(format.name))} ${places.length === 1 ? "usa" : "usan"} ${source === undefined ? "lo último leído en la sala" : `el higrómetro de ${format.name(source)}`}.`,
  read: (source, atMs, agoMin) =>
    `${source === "typed" ? "Anotado" : "Último dato"} a las ${format.time(atMs)}, hace ${format.span(agoMin)}.`,
  trouble: {
    silent:
      "Sin datos desde hace más de 30 min: ¿está encendido y al alcance? Aquí los tiempos son menos seguros.",
    frozen:
      "Los mismos valores desde hace horas: parece atascado. Quite la pila un momento. Aquí los tiempos son menos seguros.",
  },
  noBroker: "Aquí se puede escuchar a higrómetros que envían a un broker.",
  listen: "Escuchar un broker",
  changeBroker: "Cambiar el broker",
  asking: "Preguntando al servidor…",
  notConnected: (why) => `Sin conexión. ${why ?? "Intentándolo."}`,
  nothingHeard: "Conectado. Aún no llega nada de este tema.",
  lastMessage: (atMs) => format.stop(`Conectado. Último mensaje a las ${format.time(atMs)}`),
  outcomes: {
    taken: "aceptado:",
    "no such place": "sin lugar:",
    refused: "rechazado:",
    waiting: "en espera:",
  },
  hangsAt: "Este está en",
  sayWhere: "Decir dónde está",
  change: (place) => `Está en ${format.name(place)}: cambiar`,
  placed: (hygrometer, place) => `${format.name(hygrometer)} está en ${format.name(place)}`,
  overHttp: "Por HTTP",
  oneLine: "Una línea por lectura, al menos cada media hora:",
  token: "Su token se obtiene al entrar una vez, con el código de la pantalla del servidor:",
  broker: {
    fields: {
      url: {
        label: "Dirección del broker",
        hint: "mqtt://192.168.1.20 o mqtts:// con TLS. El usuario y la contraseña se dan al servidor donde se ejecuta: TRAYTIDE_MQTT_USERNAME y TRAYTIDE_MQTT_PASSWORD.",
      },
      topic: { label: "Tema", hint: "+ vale por un nivel; # al final, por todos los que siguen." },
      tempField: {
        label: "Campo de la temperatura",
        hint: "En el JSON de cada mensaje, con puntos entre niveles: data.temp_c",
      },
      rhField: { label: "Campo de la humedad" },
      tempUnit: { label: "La temperatura está en" },
      placeField: {
        label: "Campo con el nombre del lugar",
        hint: "Vacío: el último nivel del tema nombra el lugar.",
      },
      timeField: { label: "Campo de la hora", hint: "Vacío: un mensaje cuenta desde que llega." },
      places: { label: "Nombres, horas y lugares" },
    },
    mapping: (index) => `Nombre ${index + 1}`,
    match: "Su tema o nombre",
    place: "está en",
    addName: "Añadir un nombre",
    save: "Guardar y escuchar",
    saved: "Broker guardado",
    stop: "Dejar de escuchar",
    stopped: "Ya no se escucha",
  },
});
