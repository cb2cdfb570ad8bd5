import type { JSX } from "solid-js";
import { KeyedFor } from "#shared/client/screen/keyed-for.tsx";

/** One button: its words, and what it does. */
export interface Choice {
  words: string;
  does(): void;
  isChosen?(): boolean;
  lang?: string;
}

/** Buttons side by side; while they are `isOff` a tap on them is not meant. */
export function Choices(props: {
  of: readonly Choice[];
  isOff?: boolean;
  areNumbers?: boolean;
}): JSX.Element {
  return (
    <div class="choices" classList={{ numbers: props.areNumbers === true }}>
      <KeyedFor each={props.of} by={({ words }) => words}>
        {(choice) => (
          <button
            type="button"
            lang={choice().lang}
            aria-pressed={choice().isChosen?.()}
            aria-disabled={props.isOff}
            onClick={() => props.isOff !== true && choice().does()}
          >
            {choice().words}
          </button>
        )}
      </KeyedFor>
    </div>
  );
}
