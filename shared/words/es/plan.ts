import type { Formats } from "#shared/words/formats.ts";
import { sayNumbers } from "#shared/words/tray-numbers.ts";
import type { Words } from "#shared/words/words.ts";

export const plan = (format: Formats): Words["plan"] => {
  const which = (numbers: readonly number[], most = 4): string => sayNumbers(numbers, most);
  const trays = (numbers: readonly number[]): string =>
    format.count(numbers.length, { one: "bandeja", other: "bandejas" });
  const may = (numbers: readonly number[]): string =>
    `${trays(numbers)} ${format.plural(numbers.length, { one: "puede", other: "pueden" })} pasar la noche`;
  return {
    closing: {
      title: (closesMs) => `Antes de cerrar a las ${format.time(closesMs)}`,
      layShort: ({ trays: numbers, byMs }) =>
        `Glasear ${which(numbers, 2)} antes de las ${format.time(byMs)}`,
      finishShort: (numbers) => `Terminar ${which(numbers, 2)} antes de cerrar`,
      beside: (closesMs, mayStand) =>
        `cierre ${format.time(closesMs)} · ${format.number(mayStand)} ${format.plural(mayStand, { one: "puede", other: "pueden" })} quedar`,
      dryAtOpening: (opensMs, nowMs) => `secas al abrir, ${format.when(opensMs, nowMs)}`,
      layLine: ({ trays: numbers, layer, byMs }) =>
        `${which(numbers, 6)}: capa ${layer + 1} antes de las ${format.time(byMs)}`,
      nothingDry: (opensMs, nowMs) =>
        `Nada de lo que se glasee ahora estaría seco al abrir, ${format.when(opensMs, nowMs)}`,
      finishFirst: (numbers) =>
        `Terminar antes ${which(numbers, 6)}: la capa siguiente va sobre el glaseado húmedo`,
      mayStand: (numbers) => `${may(numbers)}: ${which(numbers, 6)}`,
      noneStands: "Ninguna bandeja queda secándose de noche",
      toolsToCheck: (names) =>
        `Herramientas de calor encendidas o aún calientes: ${format.and(names.map(format.name))}`,
    },
  };
};
