import type { Formats } from "#shared/words/formats.ts";
import type { Words } from "#shared/words/words.ts";
import { terms } from "./terms.ts";

export const print = (format: Formats): Words["print"] => {
  const { name, number } = format;
  const { cookies } = terms(format);
  const LABELS = { one: "etiqueta", other: "etiquetas" };
  return {
    paper: "Papel",
    papers: { a4: "A4", letter: "Carta" },
    kind: "Etiquetas para",
    kinds: { trays: "Bandejas", boxes: "Cajas" },
    from: { trays: "Desde la bandeja", boxes: "Desde la caja" },
    to: { trays: "Hasta la bandeja", boxes: "Hasta la caja" },
    print: (labels) => `Imprimir ${format.count(labels, LABELS)}`,
    sheets: (sheets) => format.count(sheets, { one: "hoja", other: "hojas" }),
    none: {
      trays: "No hay bandejas que etiquetar: ninguna tiene esos números, o están empacadas.",
      boxes: "No hay cajas con esos números.",
    },
    atMost: (labels) => `Como máximo ${number(labels)} etiquetas a la vez: se muestran las primeras.`,
    noBoxes:
      "Este pedido no se empaca en cajas. Su formulario y los ajustes de la cocina dicen cuántas galletas van por caja.",
    packedOn: "Empacado el, para cajas aún no llenas",
    ofTrays: "Etiquetas de bandejas",
    ofOrders: "Bandejas y cajas de un pedido",
    others: "Hojas para imprimir",
    labelOfTray: "Imprimir su etiqueta",
    labelsOfOrder: "Imprimir etiquetas",
    scan: (origin) => `Los códigos abren ${origin}: los teléfonos de la cocina llegan ahí.`,
    noAddress:
      "Sin conexión con el servidor las etiquetas no llevan código: él sabe la dirección de la cocina.",
    tray: (tray) => `Etiqueta de la bandeja ${tray}`,
    opens: (tray) => `Código que abre la bandeja ${tray}`,
    holds: (count, design) => `${number(count)} × ${name(design)}`,
    pickUp: (atMs) => `retiro ${format.dateTime(atMs)}`,
    box: ({ number: box, of, cookies: count }) => `caja ${number(box)} de ${number(of)} · ${cookies(count)}`,
    packed: (atMs) => `Empacado ${atMs === undefined ? "______________" : format.shortDate(atMs)}`,
    bestBefore: (atMs) =>
      `Consumir preferentemente antes del ${atMs === undefined ? "______________" : format.shortDate(atMs)}`,
    allergens: (own) => `Alérgenos: ${own}`,
    ownText: "Los alérgenos y las fechas son texto propio de esta cocina.",
  };
};
