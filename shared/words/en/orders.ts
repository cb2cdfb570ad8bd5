import type { HangsOn } from "#shared/kitchen/model/forecast.ts";
import type { OrderStatus } from "#shared/kitchen/orders/progress.ts";
import type { Lack } from "#shared/kitchen/plan/lacks.ts";
import type { TimeLeft } from "#shared/kitchen/orders/time-left.ts";
import { unreachable } from "#shared/outcome.ts";
import type { Formats } from "#shared/words/formats.ts";
import { sayNumbers } from "#shared/words/tray-numbers.ts";
import { terms } from "./terms.ts";

/** How many cookies of an order are where. */
export interface CookieCounts {
  ordered: number;
  /** Good ones. */
  onTrays: number;
  spoiled: number;
  /** Sold as such: not good for the order. */
  seconds: number;
  /** Lacking because they were not good. */
  short: number;
  /** Not on trays. */
  missing: number;
}

/** Orders, their trays and their forms. */
export const orders = (format: Formats) => {
  const { name, number, plural, span, band } = format;
  const { cookies } = terms(format);
  const cancelled = format.units === "us" ? "canceled" : "cancelled";
  /** "1½–3½ h spare", "40 min–2 h late", "up to 30 min late". */
  const timeLeft = (left: TimeLeft): string => {
    switch (left.code) {
      case "never":
        return "will not dry";
      case "no-forecast":
        return "no forecast yet";
      case "late":
        return `${band(left.leastMin, left.mostMin)} late`;
      case "may-be-late":
        return `up to ${span(left.mostMin)} late`;
      case "spare":
        return `${band(left.leastMin, left.mostMin)} spare`;
      default:
        return unreachable(left);
    }
  };
  /** "3 spoiled, 1 sold as seconds". */
  const notGood = ({ spoiled, seconds }: CookieCounts): string =>
    [
      ...(spoiled > 0 ? [`${number(spoiled)} spoiled`] : []),
      ...(seconds > 0 ? [`${number(seconds)} sold as seconds`] : []),
    ].join(", ");
  return {
    timeLeft,
    status: (status: OrderStatus, nowMs: number): string => {
      switch (status.code) {
        case "packed":
          return "packed";
        case "ready-to-pack":
          return "ready to pack";
        case "touch-then-pack":
          return "check by touch, then pack";
        case "pack-before":
          return `pack before ${format.when(status.beforeMs, nowMs)}`;
        case "spoiled":
          return `${cookies(status.cookies)} short`;
        case "off-trays":
          return `${number(status.cookies)} not on trays yet`;
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
    /** "6 in 10": how likely it is packed by its pick-up. */
    inTen: (chance: number) => `${number(chance * 10)} in 10`,
    inTime: (chance: number) =>
      chance >= 0.995
        ? "Likely in time on every day like this"
        : chance < 0.05
          ? "Hardly ever in time on a day like this"
          : chance >= 0.95
            ? "In time on more than 9 of 10 days like this"
            : `In time on ${number(chance * 10)} of 10 days like this`,
    hangsOn: ({ trays, because }: HangsOn) => {
      const which = `Hangs on ${plural(trays.length, { one: "tray", other: "trays" })} ${sayNumbers(trays, 3)}`;
      switch (because.is) {
        case "drying":
          return `${which}: layer ${because.layer + 1} has to dry`;
        case "work":
          return `${which}: ${because.act === "pack" ? "packing" : because.act === "heat" ? "heat-setting" : `laying layer ${(because.layer ?? 0) + 1}`} takes longest`;
        case "hands":
          return `${which}: ${because.act === "pack" ? "packing" : because.act === "heat" ? "heat" : `layer ${(because.layer ?? 0) + 1}`} waits for someone free`;
        case "tool":
          return `${which}: layer ${(because.layer ?? 0) + 1} waits for a heat tool`;
        case "closed":
          return `${which}: it waits for opening`;
        default:
          return unreachable(because);
      }
    },
    closedAt: (when: string) => `Late because the kitchen closes at ${when}`,
    // The list, and the wall's cards.
    none: "No orders yet.",
    add: "Add an order",
    madeOf: "What orders are made of",
    whatFollows: "What follows from the orders",
    pickUpLabel: "pick-up",
    pickUp: (when: string) => `pick-up ${when}`,
    progress: (done: string, inHand: string) => `${done} done, ${inHand} in hand`,
    // An order's page.
    gone: `This order is not here any more. It may have been packed and archived, or ${cancelled}.`,
    /** `isPart`: some of its cookies are not on trays. */
    dryThrough: (isPart: boolean, times: string, likely: string) =>
      `${isPart ? "Those on trays dry" : "Dry"} through ${times}, likeliest ${likely}`,
    /** What the times count on, for want of anything better. */
    countsOn: {
      hands: "Nobody has joined with hands: times count on one person.",
      "opening hours": "No opening hours are set: times count on a kitchen that never closes.",
    } satisfies Record<Lack, string>,
    counts: (counts: CookieCounts) => {
      const { ordered, onTrays, spoiled, seconds, short, missing } = counts;
      return [
        `${cookies(ordered)} ordered, `,
        spoiled + seconds > 0
          ? `${number(onTrays)} good on trays, ${notGood(counts)}`
          : `${number(onTrays)} on trays`,
        short > 0 ? `: ${cookies(short)} short` : missing > 0 ? `: ${number(missing)} not on trays yet` : "",
      ].join("");
    },
    addMakeUp: "Add a make-up tray",
    makeUpFor: (counts: CookieCounts) => `${cookies(counts.short)} short: ${notGood(counts)}`,
    icingToMix: "Icing to mix for this order",
    change: "Change the order",
    cancel: "Cancel the order",
    cancelWhich: (order: string) => `Cancel ${name(order)}?`,
    cancelHint: (count: number, when: string) => `${cookies(count)} for ${when}. You can undo it for 20 s.`,
    keep: "Keep it",
    cancelled: (order: string) => `${name(order)} ${cancelled}`,
    removeTray: (tray: number) => `Remove tray ${tray}`,
    trayRemoved: (tray: number) => `Tray ${tray} removed`,
    // Its form.
    form: {
      name: "Name",
      pickUp: "Pick-up: packed by then",
      pickUpHint: (timeZone: string) => `The kitchen's clock, ${timeZone}`,
      pickUpMissing: "Pick-up must be a day and a time.",
      cookies: "Cookies",
      allergens: "Allergens",
      allergensHint: "As your own labels name them. This page clears nothing.",
      note: "Note",
    },
    // Its trays' form.
    trays: {
      title: "Add trays",
      needs: "Trays need a design and a place first:",
      design: "Design",
      cookies: "Cookies to put on trays",
      perTray: "On each tray",
      first: "First tray number",
      firstHint: "Numbers in use are skipped.",
      place: "Where they stand",
      room: (place: string, room: number) => `${name(place)} · room for ${number(room)}`,
      /** "3 trays: 27–29, the last with 6"; `last`: what the last holds, where it holds fewer. */
      plan: (numbers: readonly number[], last: number | undefined) => {
        if (numbers.length === 0) return "No trays yet.";
        const which = numbers.length === 1 ? "Tray" : `${number(numbers.length)} trays:`;
        const fewer =
          last === undefined ? "" : numbers.length === 1 ? `, with ${last}` : `, the last with ${last}`;
        return `${which} ${sayNumbers(numbers)}${fewer}`;
      },
      add: (count: number) => (count === 1 ? "Add the tray" : `Add ${number(count)} trays`),
      added: (numbers: readonly number[]) =>
        `${numbers.length === 1 ? "Tray" : "Trays"} ${sayNumbers(numbers)} added`,
    },
  };
};
