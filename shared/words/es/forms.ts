import type { AskedRange } from "#shared/words/en/forms.ts";
import type { Formats } from "#shared/words/formats.ts";
import type { Words } from "#shared/words/words.ts";

export const forms = (format: Formats): Words["forms"] => {
  const range = ({ label, min, max, unit }: AskedRange): string =>
    `${label}: debe ser de ${format.number(min, 3)} a ${format.number(max, 3)}${unit === undefined ? "" : ` ${unit}`}`;
  return {
    save: "Guardar",
    remove: "Quitar",
    cancel: "Cancelar",
    close: "Cerrar",
    missing: (label) => `${label}: falta.`,
    range: (asked) => `${range(asked)}.`,
    notWhole: (label) => `${label}: debe ser un número entero.`,
    notANumber: (asked, isFractional) =>
      `${range(asked)}, escrito como ${isFractional ? `${format.number(3.5, 1)} o 3\u00a01/2` : `1500 o ${format.number(3.5, 1)}`}.`,
    checkAbove: "Falta algo o está fuera de su rango: vea arriba.",
    fewer: "uno menos",
    more: "uno más",
    saved: (name) => `${format.name(name)}: guardado`,
    removed: (name) => `${format.name(name)}: quitado`,
    question: {
      notDone: "No se hizo",
      risk: "¿Acepta el riesgo?",
      anyway: "Hacerlo igual",
      riskHint: "el riesgo queda en el historial de la bandeja",
    },
    noAnswer: "El servidor de la cocina no responde.",
    answered: (status) => `El servidor respondió ${status}.`,
  };
};
