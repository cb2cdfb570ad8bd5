import type { Words } from "#shared/words/words.ts";
import type { Formats } from "#shared/words/formats.ts";
import { terms } from "./terms.ts";

export const story = (format: Formats): Words["story"] => {
  const { name, percent } = format;
  const { trays } = terms(format);
  return {
    label: "Historia guiada",
    working: "Un momento…",
    skip: "Saltar",
    toOrder: "Abrir el pedido",
    again: "La historia guiada otra vez",
    offered: {
      title: "Dos minutos, dos percances",
      text: "Esta cocina es inventada. El aire se vuelve húmedo y después un fijado con calor se alarga. Usted arregla las dos cosas.",
      begin: "Empezar",
    },
    damp: {
      title: (rhPct) =>
        rhPct === undefined ? "El aire se vuelve húmedo" : `El aire se vuelve húmedo: ${percent(rhPct)} HR`,
      text: (order, numbers, place) =>
        `${name(order)} todavía se seca en ${name(place)}: ${trays(numbers)}. El plan calcula qué supone para su retiro.`,
    },
    behind: {
      title: (order, left) => `${name(order)} se retrasa: ${left}`,
      text: (pickUp, helps, move) =>
        `Retiro: ${format.stop(pickUp)} Abra el pedido. En «${helps}», toque «${move}» y diga que las bandejas ya están allí.`,
    },
    moved: {
      title: "Movidas. El plan se calcula de nuevo",
      text: (order, left) => `Según el último plan, ${name(order)}: ${format.stop(left)}`,
    },
    back: {
      title: (order, left) => `${name(order)} vuelve a llegar a tiempo: ${left}`,
      text: (pickUp, before) => `Retiro: ${format.stop(pickUp)} Antes de moverlas: ${format.stop(before)}`,
      next: "Siguiente: calor que se alarga",
    },
    heat: {
      title: (number) => `La bandeja ${format.number(number)} recibe calor y nadie la mira`,
      text: (tool) => `${name(tool)} está en marcha. Espere a que pase su límite: entonces le avisa.`,
    },
    long: {
      title: (number) =>
        `La bandeja ${format.number(number)} lleva demasiado calor y avisa a todos los teléfonos`,
      text: (stop) => `Abra la bandeja y toque «${stop}». El aviso termina entonces en todas partes.`,
    },
    stopped: {
      title: (number) => `La bandeja ${format.number(number)} ya no recibe calor`,
      text: (room) =>
        `Eso es todo. Mire lo que quiera: aquí nada es real. «${room}» empieza la historia otra vez.`,
      done: "Listo",
    },
  };
};
