import type { TimeLeft } from "#shared/kitchen/orders/time-left.ts";
import { unreachable } from "#shared/outcome.ts";
import type { Formats } from "#shared/words/formats.ts";
import { sayNumbers } from "#shared/words/tray-numbers.ts";
import type { CookieCounts } from "#shared/words/en/orders.ts";
import type { Words } from "#shared/words/words.ts";
import { terms } from "./terms.ts";

export const orders = (format: Formats): Words["orders"] => {
  const { name, number, span, band, plural } = format;
  const { cookies } = terms(format);
  const lacking = (count: number): string =>
    `${plural(count, { one: "falta", other: "faltan" })} ${cookies(count)}`;
  const notGood = ({ spoiled, seconds }: CookieCounts): string =>
    [
      ...(spoiled > 0 ? [format.count(spoiled, { one: "estropeada", other: "estropeadas" })] : []),
      ...(seconds > 0 ? [`${number(seconds)} de segunda`] : []),
    ].join(", ");
  const offTrays = (count: number): string => `${number(count)} aún sin bandeja`;
  const timeLeft = (left: TimeLeft): string => {
    switch (left.code) {
      case "never":
        return "no se secará";
      case "no-forecast":
        return "aún sin pronóstico";
      case "late":
        return `${band(left.leastMin, left.mostMin)} tarde`;
      case "may-be-late":
        return `hasta ${span(left.mostMin)} tarde`;
      case "spare":
        return `${band(left.leastMin, left.mostMin)} de margen`;
      default:
        return unreachable(left);
    }
  };
  return {
    timeLeft,
    status: (status, nowMs) => {
      switch (status.code) {
        case "packed":
          return "empacado";
        case "ready-to-pack":
          return "listo para empacar";
        case "touch-then-pack":
          return "tocar, luego empacar";
        case "pack-before":
          return `empacar antes: ${format.when(status.beforeMs, nowMs)}`;
        case "spoiled":
          return lacking(status.cookies);
        case "off-trays":
          return offTrays(status.cookies);
        case "never":
        case "no-forecast":
        case "late":
        case "may-be-late":
        case "spare":
          return timeLeft(status);
        default:
          return unreachable(status);
      }
    },
    inTen: (chance) => `${number(chance * 10)} de 10`,
    inTime: (chance) =>
      chance >= 0.995
        ? "A tiempo prácticamente siempre en días así"
        : chance < 0.05
          ? "Casi nunca a tiempo en días así"
          : chance >= 0.95
            ? "A tiempo en más de 9 de cada 10 días así"
            : `A tiempo en ${number(chance * 10)} de cada 10 días así`,
    hangsOn: ({ trays, because }) => {
      const which = `Depende de ${plural(trays.length, { one: "la bandeja", other: "las bandejas" })} ${sayNumbers(trays, 3)}`;
      switch (because.is) {
        case "drying":
          return `${which}: falta secar la capa ${because.layer + 1}`;
        case "work":
          return `${which}: lo que más tarda es ${because.act === "pack" ? "empacar" : because.act === "heat" ? "fijar con calor" : `glasear la capa ${(because.layer ?? 0) + 1}`}`;
        case "hands":
          return `${which}: ${because.act === "pack" ? "empacar" : because.act === "heat" ? "fijar con calor" : `la capa ${(because.layer ?? 0) + 1}`} espera a alguien libre`;
        case "tool":
          return `${which}: la capa ${(because.layer ?? 0) + 1} espera un equipo de calor`;
        case "closed":
          return `${which}: espera a la apertura`;
        default:
          return unreachable(because);
      }
    },
    closedAt: (when) => `Tarde porque la cocina cierra a las ${when}`,
    none: "Aún no hay pedidos.",
    add: "Añadir un pedido",
    madeOf: "De qué se componen los pedidos",
    whatFollows: "Lo que resulta de los pedidos",
    pickUpLabel: "retiro",
    pickUp: (when) => `retiro ${when}`,
    progress: (done, inHand) => `${done} hecho, ${inHand} en marcha`,
    gone: "Este pedido ya no está aquí. Quizá se empacó y archivó, o se canceló.",
    dryThrough: (isPart, times, likely) =>
      `${isPart ? "Lo que está en bandejas, seco" : "Seco"} por completo ${times}, lo más probable ${likely}`,
    countsOn: {
      hands: "Nadie que decore se ha unido: los tiempos cuentan con una persona.",
      "opening hours": "No hay horario de apertura: los tiempos cuentan con una cocina que no cierra.",
    },
    counts: (counts) => {
      const { ordered, onTrays, spoiled, seconds, short, missing } = counts;
      return [
        `${cookies(ordered)} ${plural(ordered, { one: "pedida", other: "pedidas" })}, `,
        spoiled + seconds > 0
          ? `${number(onTrays)} ${plural(onTrays, { one: "buena", other: "buenas" })} en bandejas, ${notGood(counts)}`
          : `${number(onTrays)} en bandejas`,
        short > 0 ? `: ${lacking(short)}` : missing > 0 ? `: ${offTrays(missing)}` : "",
      ].join("");
    },
    addMakeUp: "Añadir bandeja de reposición",
    makeUpFor: (counts) => `${lacking(counts.short)}: ${notGood(counts)}`,
    icingToMix: "Glaseado por mezclar para este pedido",
    change: "Cambiar el pedido",
    cancel: "Cancelar el pedido",
    cancelWhich: (order) => `¿Cancelar ${name(order)}?`,
    cancelHint: (count, when) =>
      `${format.stop(`${cookies(count)} para ${when}`)} Se puede deshacer durante 20 s.`,
    keep: "Conservarlo",
    cancelled: (order) => `${name(order)}: cancelado`,
    removeTray: (tray) => `Quitar la bandeja ${tray}`,
    trayRemoved: (tray) => `Bandeja ${tray} quitada`,
    form: {
      name: "Nombre",
      pickUp: "Retiro: empacado para entonces",
      pickUpHint: (timeZone) => `Hora de la cocina, ${timeZone}`,
      pickUpMissing: "El retiro debe ser un día y una hora.",
      cookies: "Galletas",
      allergens: "Alérgenos",
      allergensHint: "Como los nombran sus propias etiquetas. Esta página no descarta ninguno.",
      note: "Nota",
    },
    trays: {
      title: "Añadir bandejas",
      needs: "Las bandejas necesitan antes un diseño y un lugar:",
      design: "Diseño",
      cookies: "Galletas por poner en bandejas",
      perTray: "En cada bandeja",
      first: "Primer número de bandeja",
      firstHint: "Se saltan los números en uso.",
      place: "Dónde están",
      room: (place, room) =>
        `${name(place)} · ${plural(room, { one: "cabe", other: "caben" })} ${number(room)}`,
      plan: (numbers, last) => {
        if (numbers.length === 0) return "Aún sin bandejas.";
        const which = numbers.length === 1 ? "Bandeja" : `${number(numbers.length)} bandejas:`;
        const fewer =
          last === undefined ? "" : numbers.length === 1 ? `, con ${last}` : `, la última con ${last}`;
        return `${which} ${sayNumbers(numbers)}${fewer}`;
      },
      add: (count) => (count === 1 ? "Añadir la bandeja" : `Añadir ${number(count)} bandejas`),
      added: (numbers) =>
        numbers.length === 1
          ? `Bandeja ${sayNumbers(numbers)} añadida`
          : `Bandejas ${sayNumbers(numbers)} añadidas`,
    },
  };
};
