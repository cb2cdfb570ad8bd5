import type { Formats } from "#shared/words/formats.ts";
import { sayNumbers } from "#shared/words/tray-numbers.ts";

/** What only a wide screen has room for, and what is found by its name. */
export const desk = (format: Formats) => {
  const which = (numbers: readonly number[]): string =>
    `${format.plural(numbers.length, { one: "tray", other: "trays" })} ${sayNumbers(numbers)}`;
  return {
    find: "Find",
    findLabel: "Find a tray, an order, a design or an icing",
    nothingFound: (text: string) => `Nothing found for ${format.name(text)}`,
    foundTray: (number: number, order: string | undefined) =>
      order === undefined ? `Tray ${number}` : `Tray ${number} · ${format.name(order)}`,
    gone: "This is not here any more.",
    bench: {
      who: "Who is tapping?",
      by: (person: string) => `By ${format.name(person)} · someone else`,
    },
    invite: {
      title: "Let another phone join",
      asking: "Asking the server…",
      scan: "Point its camera here, or open",
      code: "and enter the code",
    },
    hours: { same: "The same hours every day", everyDay: "Every day" },
    plan: {
      about: (trays: number, hands: number, madeAtMs: number | undefined) =>
        [
          format.count(trays, { one: "tray", other: "trays" }),
          format.count(hands, { one: "pair of hands", other: "pairs of hands" }),
          ...(madeAtMs === undefined ? [] : [`made ${format.time(madeAtMs)}, again after each tap`]),
        ].join(" · "),
      asLastHeard: (about: string) => `No connection: as last heard · ${about}`,
      noConnection: "The server makes the plan, and there is no connection to it.",
      asking: "Asking for the plan…",
      nothing: "Nothing to do: no tray waits for hands, and nothing dries.",
      asList: "The plan as a list",
      pickUps: "Pick-ups",
      hours: "Hours shown",
      earlier: "Earlier",
      now: "Now",
      later: "Later",
      doing: {
        pipe: "pipe",
        flood: "flood",
        "top-coat": "top-coat",
        heat: "heat-set",
        pack: "pack",
        several: "several",
      },
      laying: (how: string, icing: string | undefined) =>
        icing === undefined ? how : `${how}, ${format.name(icing)}`,
      rows: { hands: "More hands", "hot-air": "Hot air" },
      tools: (count: number) => format.count(count, { one: "tool", other: "tools" }),
      from: (when: string) => `from ${when}`,
      until: (when: string) => `until ${when}`,
      taken: (trays: number, capacity: number) => `${format.number(trays)} of ${format.number(capacity)}`,
      act: (times: string, doing: string, numbers: readonly number[]) =>
        `${times}: ${doing}, ${which(numbers)}`,
      dries: (numbers: readonly number[], when: string, isPlanned: boolean) =>
        isPlanned
          ? `${format.sentence(which(numbers))}: the next layer likely dry through ${when}`
          : `${format.sentence(which(numbers))}: likely dry through ${when}`,
      neverDries: (numbers: readonly number[]) =>
        `${format.sentence(which(numbers))}: will not dry in this air`,
      wet: "wet",
      drying: "skinned, drying through",
      planned: "planned",
    },
  };
};
