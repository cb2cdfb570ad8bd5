import type { BeforeClosing } from "#shared/kitchen/plan/before-closing.ts";
import type { Formats } from "#shared/words/formats.ts";
import { sayNumbers } from "#shared/words/tray-numbers.ts";

/** The day's plan: whose turn it is, by when, and what to think of before closing. */
export const plan = (format: Formats) => {
  const which = (numbers: readonly number[], most = 4): string => sayNumbers(numbers, most);
  const trays = (numbers: readonly number[]): string =>
    format.count(numbers.length, { one: "tray", other: "trays" });
  return {
    closing: {
      title: (closesMs: number) => `Before you close at ${format.time(closesMs)}`,
      /** For the wall's top line: the act, and what stands beside it. */
      layShort: ({ trays: numbers, byMs }: BeforeClosing["floodBy"][number]) =>
        `Lay ${which(numbers, 2)} by ${format.time(byMs)}`,
      finishShort: (numbers: readonly number[]) => `Finish ${which(numbers, 2)} before closing`,
      beside: (closesMs: number, mayStand: number) =>
        `closing ${format.time(closesMs)} · ${format.number(mayStand)} may stand`,
      dryAtOpening: (opensMs: number, nowMs: number) =>
        `to be dry at opening, ${format.when(opensMs, nowMs)}`,
      layLine: ({ trays: numbers, layer, byMs }: BeforeClosing["floodBy"][number]) =>
        `${which(numbers, 6)}: lay layer ${layer + 1} by ${format.time(byMs)}`,
      nothingDry: (opensMs: number, nowMs: number) =>
        `Nothing laid now would be dry at opening, ${format.when(opensMs, nowMs)}`,
      finishFirst: (numbers: readonly number[]) =>
        `Finish ${which(numbers, 6)} first: the next layer goes on while the icing is wet`,
      mayStand: (numbers: readonly number[]) => `${trays(numbers)} may stand overnight: ${which(numbers, 6)}`,
      noneStands: "No tray stands drying overnight",
      toolsToCheck: (names: readonly string[]) =>
        `Heat tools on or still hot: ${format.and(names.map(format.name))}`,
    },
  };
};
