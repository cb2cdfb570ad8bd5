/** How today's time stands to another day's, as near as it may be said. */
export type Pace =
  /** Within a tenth. */
  | { code: "alike" }
  | { code: "slower" | "quicker"; by: "tenth" | "fifth" | "quarter" | "third" }
  | { code: "half-longer" }
  | { code: "times-as-long"; times: number }
  | { code: "half" }
  | { code: "third" }
  | { code: "quarter-at-most" };

const ALIKE = 1.1;
const SLOWER: readonly [below: number, pace: Pace][] = [
  [ALIKE, { code: "alike" }],
  [1.15, { code: "slower", by: "tenth" }],
  [1.225, { code: "slower", by: "fifth" }],
  [1.29, { code: "slower", by: "quarter" }],
  [1.42, { code: "slower", by: "third" }],
  [1.75, { code: "half-longer" }],
  [2.5, { code: "times-as-long", times: 2 }],
];
const QUICKER: readonly [above: number, pace: Pace][] = [
  [1 / ALIKE, { code: "alike" }],
  [0.85, { code: "quicker", by: "tenth" }],
  [0.775, { code: "quicker", by: "fifth" }],
  [0.71, { code: "quicker", by: "quarter" }],
  [0.58, { code: "quicker", by: "third" }],
  [0.42, { code: "half" }],
  [0.29, { code: "third" }],
];

/** `ratio`: how many times as long today takes. */
export function paceOf(ratio: number): Pace {
  if (ratio >= 1)
    return (
      SLOWER.find(([below]) => ratio < below)?.[1] ?? { code: "times-as-long", times: Math.round(ratio) }
    );
  return QUICKER.find(([above]) => ratio > above)?.[1] ?? { code: "quarter-at-most" };
}

export const isSamePace = (one: Pace, other: Pace): boolean => JSON.stringify(one) === JSON.stringify(other);
