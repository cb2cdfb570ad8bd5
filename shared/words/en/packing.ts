import type { BoxCount } from "#shared/kitchen/orders/boxes.ts";
import type { Packing } from "#shared/kitchen/orders/packing.ts";
import type { Formats } from "#shared/words/formats.ts";
import { terms } from "./terms.ts";

/** Packing: good cookies, seconds and lost ones, an order's boxes, what makes it up and what it has over. */
export const packing = (format: Formats) => {
  const { name, number, plural } = format;
  const { cookies, trayCount } = terms(format);
  const lostBy = (by: Packing["lostBy"]): string =>
    by.map(({ problem, count }) => `${number(count)} ${problem}`).join(", ");
  return {
    // A tray's sheet.
    whichNot: (tray: number) => `Tray ${tray}: which are not good?`,
    seconds: "Seconds: sold as such",
    lost: "Lost",
    good: (good: number, count: number) => `${number(good)} of ${number(count)} good`,
    pack: (good: number) => (good === 0 ? "Pack none: all are seconds or lost" : `Pack ${number(good)} good`),
    said: (tray: number, good: number) => `Tray ${tray} packed: ${number(good)} good`,
    // An order's page.
    title: "Packing",
    boxes: ({ size, of, full, inNext }: BoxCount) =>
      [
        `Boxes of ${number(size)}: ${number(full)} of ${number(of)} full`,
        inNext > 0 ? `, ${number(inNext)} in the next` : "",
      ].join(""),
    packed: (packed: number, promised: number) =>
      packed > promised
        ? `${cookies(packed)} packed, ${number(promised)} promised: ${number(packed - promised)} over`
        : `${number(packed)} of ${cookies(promised)} packed`,
    lostAre: (count: number, by: Packing["lostBy"]) =>
      `${number(count)} lost${by.length === 0 ? "" : `: ${lostBy(by)}`}`,
    makeUp: {
      /** "1 tray of 6 Moon", "3 trays, 30 Moon in all". */
      proposal: (counts: readonly number[], total: number, design: string) =>
        counts.length === 1
          ? `${trayCount(1)} of ${number(total)} ${name(design)}`
          : `${trayCount(counts.length)}, ${number(total)} ${name(design)} in all`,
      beginBy: (byMs: number, pickUpAtMs: number, nowMs: number) =>
        `Begin by ${format.when(byMs, nowMs)}: hands, drying in today's air and packing then end by ${format.whenWithDay(pickUpAtMs, nowMs)}`,
      tooLate: "Too late to be sure of the pick-up: begin now",
      working: "Working out by when to begin…",
      noConnection: "By when to begin is the server's to work out, and it does not answer.",
    },
    over: {
      title: (over: number, design: string) => `${number(over)} ${name(design)} over`,
      give: (count: number, order: string) => `Give ${number(count)} to ${name(order)}`,
      lacks: (count: number) => `it lacks ${cookies(count)}`,
      stillToPack: (count: number) => `it has ${cookies(count)} still to pack`,
      given: (count: number, design: string, order: string) =>
        `${number(count)} ${name(design)} ${plural(count, { one: "is", other: "are" })} ${name(order)}'s now`,
    },
    boxOf: "How many to a box",
    boxOfHint: (usual: number | null | undefined) =>
      usual === null || usual === undefined
        ? "Empty: not packed in boxes."
        : `Empty: ${number(usual)}, as usual.`,
  };
};
