import { createSignal, For, onCleanup, Show } from "solid-js";
import type { JSX } from "solid-js";
import type { AlertClass } from "#shared/kitchen/model/alert.ts";
import type { Settings } from "#shared/kitchen/model/vocabulary.ts";
import { wallTooSmall, type WallLayout } from "#display/model/wall-layout.ts";
import type { Sound } from "./sound.ts";
import { THEMES, type Theme } from "#shared/client/screen/theme.ts";

const SOUNDS: readonly AlertClass[] = ["urgent", "prompt", "note"];

/** The corner: whether this screen can sound, its theme and loudness, and whether it is large enough. */
export function Menu(props: {
  sound: Sound;
  theme: Theme;
  layout: WallLayout;
  wall: Settings["wall"];
  onLeave(): void;
}): JSX.Element {
  const [isOpen, setOpen] = createSignal(false);
  const onKey = (event: KeyboardEvent): void => {
    if (event.key === "Escape") setOpen(false);
    if (event.target instanceof HTMLInputElement || event.ctrlKey || event.metaKey || event.altKey) return;
    if (event.key === "m") setOpen(!isOpen());
    if (event.key === "t") props.theme.choose(props.theme.choice() === "night" ? "day" : "night");
  };
  document.addEventListener("keydown", onKey);
  onCleanup(() => document.removeEventListener("keydown", onKey));
  return (
    <div class="corner">
      <button
        type="button"
        class="corner-button"
        data-armed={props.sound.canSound()}
        aria-expanded={isOpen()}
        onClick={() => setOpen(!isOpen())}
      >
        {props.sound.canSound() ? "sound on" : "sound off: tap once"}
      </button>
      <Show when={isOpen()}>
        <div class="menu" role="dialog" aria-label="This screen">
          <h2>This screen</h2>
          <h3>Sound</h3>
          <p>
            <Show
              when={props.sound.canSound()}
              fallback={<>Not armed: this browser lets sound in only after a tap or a key on this screen.</>}
            >
              Armed. Urgent sounds until someone answers it on a phone.
            </Show>
          </p>
          <label>
            Loudness
            <input
              type="range"
              min="0"
              max="1"
              step="0.05"
              value={props.sound.loudness()}
              onInput={(event) => props.sound.setLoudness(event.currentTarget.valueAsNumber)}
            />
          </label>
          <div class="choices">
            <For each={SOUNDS}>
              {(kind) => (
                <button type="button" onClick={() => props.sound.play(kind)}>
                  Try {kind}
                </button>
              )}
            </For>
          </div>
          <h3>Theme</h3>
          <div class="choices">
            <For each={THEMES}>
              {(theme) => (
                <button
                  type="button"
                  aria-pressed={props.theme.choice() === theme}
                  onClick={() => props.theme.choose(theme)}
                >
                  {theme === "auto" ? "by opening hours" : theme}
                </button>
              )}
            </For>
          </div>
          <h3>Size</h3>
          <p>{wallTooSmall(props.layout, props.wall) ?? sizeWords(props.wall)}</p>
          <div class="choices">
            <button type="button" onClick={() => props.onLeave()}>
              Leave this kitchen
            </button>
            <button type="button" onClick={() => setOpen(false)}>
              Close
            </button>
          </div>
        </div>
      </Show>
    </div>
  );
}

const sizeWords = ({ diagonalCm, farthestM }: Settings["wall"]): string =>
  `Laid out for a ${diagonalCm} cm screen and a reader ${farthestM} m away. A lead changes both on a phone: Room, Kitchen.`;
