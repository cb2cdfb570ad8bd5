import { Show } from "solid-js";
import type { Drawing } from "#shared/drawing/drawing.ts";
import { usePhone } from "#phone/app/phone.tsx";
import { FaultText } from "#phone/ui/fault-text.tsx";

/** A drawing that was chosen, and what to call the design; "" where it says nothing. */
export interface Drawn {
  drawing: Drawing;
  name: string;
}

/** A drawing that was just made, to look at and to take; or why there is none. */
export function DrawnChoice(props: {
  drawing: Drawing | undefined;
  fault: string | undefined;
  onUse: (drawing: Drawing) => void;
}) {
  const { words } = usePhone();
  return (
    <>
      <FaultText text={props.fault} />
      <Show when={props.fault === undefined && props.drawing}>
        {(drawing) => (
          <>
            <svg
              class="drawn-choice"
              viewBox={`-2 -2 ${drawing().widthMm + 4} ${drawing().heightMm + 4}`}
              role="img"
              aria-label={words().designs.covers(drawing().areas.length, drawing().lines.length)}
            >
              <path class="biscuit" d={drawing().outline} />
              {drawing().areas.map(({ d, colourHint }) => (
                <path class="part" d={d} fill={colourHint ?? "#fff8ea"} />
              ))}
              {drawing().lines.map(({ d, colourHint, widthMm }) => (
                <path class="stroke" d={d} stroke={colourHint ?? "#6b4a26"} stroke-width={widthMm} />
              ))}
            </svg>
            <p class="note">
              {words().format.box(drawing().widthMm, drawing().heightMm)}
              {" · "}
              {words().designs.covers(drawing().areas.length, drawing().lines.length)}
            </p>
            <button type="button" class="act" onClick={() => props.onUse(drawing())}>
              {words().newDesign.use}
            </button>
          </>
        )}
      </Show>
    </>
  );
}
