import type { Formats } from "#shared/words/formats.ts";
import { terms } from "./terms.ts";

/** The guided story of a practice kitchen: what happens on its board, and what to tap. */
export const story = (format: Formats) => {
  const { name, percent } = format;
  const { trays } = terms(format);
  return {
    label: "Guided story",
    working: "One moment…",
    skip: "Skip",
    toOrder: "Open the order",
    again: "The guided story again",
    offered: {
      title: "Two minutes, two mishaps",
      text: "This kitchen is invented. Its air turns damp, then a heat-set runs long. You put both right.",
      begin: "Begin",
    },
    damp: {
      title: (rhPct: number | undefined) =>
        rhPct === undefined ? "The air turns damp" : `The air turns damp: ${percent(rhPct)} RH`,
      text: (order: string, numbers: readonly number[], place: string) =>
        `${name(order)} still dries at ${name(place)}, on ${trays(numbers)}. The plan works out what that means for its pick-up.`,
    },
    behind: {
      title: (order: string, left: string) => `${name(order)} falls behind: ${left}`,
      text: (pickUp: string, helps: string, move: string) =>
        `Pick-up ${format.stop(pickUp)} Open the order. Under “${helps}”, tap “${move}” and say that the trays stand there.`,
    },
    moved: {
      title: "Moved. The plan is worked out again",
      text: (order: string, left: string) => `By the last plan, ${name(order)}: ${format.stop(left)}`,
    },
    back: {
      title: (order: string, left: string) => `${name(order)} is back in time: ${left}`,
      text: (pickUp: string, before: string) =>
        `Pick-up ${format.stop(pickUp)} Before the move: ${format.stop(before)}`,
      next: "Next: heat that runs long",
    },
    heat: {
      title: (number: number) => `Tray ${format.number(number)} is under heat, and nobody watches`,
      text: (tool: string) => `${name(tool)} runs. Wait until it passes its stop-by: then it calls you.`,
    },
    long: {
      title: (number: number) => `Tray ${format.number(number)} had heat too long and calls every phone`,
      text: (stop: string) => `Open the tray and tap “${stop}”. The alert then ends everywhere.`,
    },
    stopped: {
      title: (number: number) => `The heat is off tray ${format.number(number)}`,
      text: (room: string) =>
        `That is all. Look around: nothing here is real. “${room}” begins the story again.`,
      done: "Done",
    },
  };
};
