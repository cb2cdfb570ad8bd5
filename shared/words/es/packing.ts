import type { Formats } from "#shared/words/formats.ts";
import type { Words } from "#shared/words/words.ts";
import { PROBLEMS, terms } from "./terms.ts";

export const packing = (format: Formats): Words["packing"] => {
  const { name, number, plural } = format;
  const { cookies, trayCount } = terms(format);
  const good = (count: number): string => format.count(count, { one: "buena", other: "buenas" });
  return {
    whichNot: (tray) => `Bandeja ${tray}: ¿cuáles no están bien?`,
    seconds: "De segunda: se venden así",
    lost: "Perdidas",
    good: (count, of) => `${good(count)} de ${number(of)}`,
    pack: (count) =>
      count === 0 ? "Empacar ninguna: todas de segunda o perdidas" : `Empacar ${good(count)}`,
    said: (tray, count) => `Bandeja ${tray} empacada: ${good(count)}`,
    title: "Empaque",
    boxes: ({ size, of, full, inNext }) =>
      [
        `Cajas de ${number(size)}: ${number(full)} de ${number(of)} ${plural(full, { one: "llena", other: "llenas" })}`,
        inNext > 0 ? `, ${number(inNext)} en la siguiente` : "",
      ].join(""),
    packed: (packed, promised) =>
      packed > promised
        ? `${cookies(packed)} ${plural(packed, { one: "empacada", other: "empacadas" })}, ${number(promised)} prometidas: sobran ${number(packed - promised)}`
        : `${number(packed)} de ${cookies(promised)} ${plural(promised, { one: "empacada", other: "empacadas" })}`,
    lostAre: (count, by) => {
      const lost = format.count(count, { one: "perdida", other: "perdidas" });
      const each = by.map(({ problem, count: of }) => {
        const many = PROBLEMS[problem];
        return format.count(of, { one: many.replace(/s$/, ""), other: many });
      });
      return each.length === 0 ? lost : `${lost}: ${each.join(", ")}`;
    },
    makeUp: {
      proposal: (counts, total, design) =>
        counts.length === 1
          ? `${trayCount(1)} de ${number(total)} ${name(design)}`
          : `${trayCount(counts.length)}, ${number(total)} ${name(design)} en total`,
      beginBy: (byMs, pickUpAtMs, nowMs) =>
        `Empezar antes de: ${format.when(byMs, nowMs)}. Así las manos, el secado con el aire de hoy y el empaque terminan para ${format.whenWithDay(pickUpAtMs, nowMs)}`,
      tooLate: "Ya es tarde para asegurar el retiro: empezar ahora",
      working: "Calculando cuándo empezar…",
      noConnection: "Cuándo empezar lo calcula el servidor, que no responde.",
    },
    over: {
      title: (over, design) =>
        `${plural(over, { one: "Sobra", other: "Sobran" })} ${number(over)} ${name(design)}`,
      give: (count, order) => `Dar ${number(count)} a ${name(order)}`,
      lacks: (count) => `le ${plural(count, { one: "falta", other: "faltan" })} ${cookies(count)}`,
      stillToPack: (count) =>
        `le ${plural(count, { one: "queda", other: "quedan" })} ${cookies(count)} por empacar`,
      given: (count, design, order) => `${number(count)} ${name(design)}: ahora de ${name(order)}`,
    },
    boxOf: "Cuántas por caja",
    boxOfHint: (usual) =>
      usual === null || usual === undefined
        ? "Vacío: no se empaca en cajas."
        : `Vacío: ${number(usual)}, como siempre.`,
  };
};
