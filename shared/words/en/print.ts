import type { Box } from "#shared/kitchen/orders/boxes.ts";
import type { Formats } from "#shared/words/formats.ts";
import { terms } from "./terms.ts";

/** Labels, and what else is printed. */
export const print = (format: Formats) => {
  const { name, number } = format;
  const { cookies } = terms(format);
  const LABELS = { one: "label", other: "labels" };
  return {
    // Pages.
    paper: "Paper",
    papers: { a4: "A4", letter: "Letter" },
    kind: "Labels for",
    kinds: { trays: "Trays", boxes: "Boxes" },
    from: { trays: "From tray", boxes: "From box" },
    to: { trays: "To tray", boxes: "To box" },
    print: (labels: number) => `Print ${format.count(labels, LABELS)}`,
    sheets: (sheets: number) => format.count(sheets, { one: "sheet", other: "sheets" }),
    none: {
      trays: "No trays to label: none has these numbers, or they are packed.",
      boxes: "No boxes with these numbers.",
    },
    atMost: (labels: number) => `At most ${number(labels)} labels at once: the first are shown.`,
    noBoxes:
      "This order is not packed in boxes. Its form, and the kitchen's settings, say how many cookies to a box.",
    packedOn: "Packed on, for boxes that are not full yet",
    ofTrays: "Labels of trays",
    ofOrders: "An order's trays and boxes",
    others: "Sheets to print",
    labelOfTray: "Print its label",
    labelsOfOrder: "Print labels",
    scan: (origin: string) => `The codes open ${origin}: phones in the kitchen reach it.`,
    noAddress: "Without a connection to the server the labels have no code: it knows the kitchen's address.",
    // A tray's label.
    tray: (tray: number) => `Label of tray ${tray}`,
    opens: (tray: number) => `Code that opens tray ${tray}`,
    holds: (count: number, design: string) => `${number(count)} × ${name(design)}`,
    pickUp: (atMs: number) => `pick-up ${format.dateTime(atMs)}`,
    // A box's label.
    box: ({ number: box, of, cookies: count }: Box) =>
      `box ${number(box)} of ${number(of)} · ${cookies(count)}`,
    packed: (atMs: number | undefined) =>
      `Packed ${atMs === undefined ? "______________" : format.shortDate(atMs)}`,
    bestBefore: (atMs: number | undefined) =>
      `Best before ${atMs === undefined ? "______________" : format.shortDate(atMs)}`,
    allergens: (own: string) => `Allergens: ${own}`,
    ownText: "Allergens and dates are this kitchen's own text.",
  };
};
