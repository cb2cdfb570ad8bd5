import type { Formats } from "#shared/words/formats.ts";

/** What a field asks for: its label, its range as typed, and the unit after it. */
export interface AskedRange {
  label: string;
  min: number;
  max: number;
  unit: string | undefined;
}

/** Forms, questions and what was just done. */
export const forms = (format: Formats) => {
  const range = ({ label, min, max, unit }: AskedRange): string =>
    `${label} must be ${format.number(min, 3)} to ${format.number(max, 3)}${unit === undefined ? "" : ` ${unit}`}`;
  return {
    save: "Save",
    remove: "Remove",
    cancel: "Cancel",
    close: "Close",
    /** Of a form's field left empty. */
    missing: (label: string) => `${label} is missing.`,
    range: (asked: AskedRange) => `${range(asked)}.`,
    /** Of a count that is no whole number. */
    notWhole: (label: string) => `${label} must be a whole number.`,
    /** Of what is no number. */
    notANumber: (asked: AskedRange, isFractional: boolean) =>
      `${range(asked)}, written like ${isFractional ? `${format.number(3.5, 1)} or 3\u00a01/2` : `1500 or ${format.number(3.5, 1)}`}.`,
    checkAbove: "Something is missing or out of its range: see above.",
    fewer: "one fewer",
    more: "one more",
    saved: (name: string) => `${format.name(name)} saved`,
    removed: (name: string) => `${format.name(name)} removed`,
    question: {
      notDone: "Not done",
      risk: "Do you take the risk?",
      anyway: "Do it anyway",
      riskHint: "the risk goes into the tray's history",
    },
    noAnswer: "The kitchen's server does not answer.",
    answered: (status: number) => `The server answered ${status}.`,
  };
};
