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
  const pickUp = (left: TimeLeft): string => {
    switch (left.code) {
      case "spare":
        return `pick-up met, ${timeLeft(left)}`;
      case "may-be-late":
        return `pick-up likely met, at worst ${span(left.mostMin)} late`;
      case "late":
        return `pick-up still missed, ${timeLeft(left)}`;
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
    pickUp,
    say: (help: Help) => `${act(help)}: ${gain(help.gain)}, ${pickUp(help.pickUp)}`,
    move: "Move…",
    toHeat: "To the heat-set",
    working: "Working it out…",
    noConnection: "The server works this out, and there is no connection to it.",
    nothing:
      "Nothing the kitchen has would make it sooner: no other place with room, no heat and no drier air gains five minutes.",
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
