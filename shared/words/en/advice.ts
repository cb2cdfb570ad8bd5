import type { Help, NoAdvice } from "#shared/kitchen/advice/advice.ts";
import type { HelpAct } from "#shared/kitchen/advice/choices.ts";
import type { TimeLeft } from "#shared/kitchen/orders/time-left.ts";
import { unreachable } from "#shared/outcome.ts";
import type { Formats } from "#shared/words/formats.ts";
import { orders } from "./orders.ts";
import { terms } from "./terms.ts";

/** What would help an order or a tray that will be late. */
export const advice = (format: Formats) => {
  const { name, span, band, percent } = format;
  const { trays } = terms(format);
  const { timeLeft } = orders(format);
  const act = (help: HelpAct): string => {
    switch (help.kind) {
      case "move":
        return `Move ${trays(help.trayNumbers)} to ${name(help.placeName)}`;
      case "heat-set":
        return `Heat-set each wet layer: ${name(help.toolName)}`;
      case "drier air":
        return `Dry the room's air from ${percent(help.fromPct)} to ${percent(help.toPct)}`;
      case "thinner":
        return `Lay the poured layers still to come ${percent(help.byPct)} thinner`;
      case "more hands":
        return `One more pair of hands, ${format.number(help.hands)} in all`;
      case "later closing":
        return `Close at ${format.time(help.atMs)} instead of ${format.whenWithDay(help.closesMs, help.closesMs)}`;
      default:
        return unreachable(help);
    }
  };
  /** "2–4½ h sooner", earliest to latest. */
  const gain = (won: Help["gain"]): string => {
    if (won === undefined) return "it dries at all";
    return won.leastMin < 0
      ? `up to ${span(won.mostMin)} sooner, at worst ${span(-won.leastMin)} later`
      : `${band(won.leastMin, won.mostMin)} sooner`;
  };
  /** "in time on 8 of 10 days like this, now 3". */
  const chance = ({ before, after }: NonNullable<Help["chance"]>): string =>
    `in time on ${format.number(after * 10)} of 10 days like this, now ${format.number(before * 10)}`;
  const pickUp = (left: TimeLeft): string => {
    switch (left.code) {
      case "spare":
        return `pick-up met, ${timeLeft(left)}`;
      case "may-be-late":
        return `pick-up likely met, at worst ${span(left.mostMin)} late`;
      case "late":
        return `pick-up likely still missed, ${timeLeft(left)}`;
      case "never":
      case "no-forecast":
        return "pick-up still missed";
      default:
        return unreachable(left);
    }
  };
  return {
    title: "What would help",
    act,
    gain,
    chance,
    pickUp,
    say: (help: Help) =>
      [`${act(help)}: ${gain(help.gain)}`, pickUp(help.pickUp), help.chance && chance(help.chance)]
        .filter((part) => part !== undefined)
        .join(", "),
    move: "Move…",
    toHeat: "To the heat-set",
    working: "Working it out…",
    noConnection: "The server works this out, and there is no connection to it.",
    nothing:
      "Nothing would make it sooner: no other place with room, no heat, no drier air, no more hands and no later closing gains five minutes.",
    none: {
      "no-trays": "It has no trays yet.",
      packed: "It is packed.",
      "no-forecast": "There is no forecast yet: ask again in a moment.",
    } satisfies Record<NoAdvice, string>,
    ask: {
      either: "Give either tray, a tray's number, or order, an order's id.",
      noOrder: (id: string) => `order must be an order's id: there is no ${id}.`,
      noTray: (tray: number) => `tray must be a tray's number: there is no ${tray}.`,
    },
  };
};
