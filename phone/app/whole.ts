import { type Accessor, createSignal } from "solid-js";
import { FIRST_DECIDER, type Decider } from "#shared/client/screen/decider.ts";
import type { LanguageChoice } from "#shared/client/screen/language.ts";

/** What all screens but the first need: all words, and what decides all commands. */
export interface Whole {
  isHere: Accessor<boolean>;
  /** Rejects where it cannot be had. */
  load(): Promise<void>;
}

export function createWhole(language: LanguageChoice): Whole & { decider: Accessor<Decider> } {
  const [decider, setDecider] = createSignal(FIRST_DECIDER);
  async function loadDecider(): Promise<void> {
    const { WHOLE_DECIDER } = await import("#shared/client/screen/whole-decider.ts");
    setDecider(WHOLE_DECIDER);
  }
  return {
    decider,
    isHere: () => language.isWhole() && decider() !== FIRST_DECIDER,
    load: async () => void (await Promise.all([language.loadWhole(), loadDecider()])),
  };
}
