import { createSignal, onCleanup, Show } from "solid-js";
import type { JSX } from "solid-js";
import type { AlertClass } from "#shared/kitchen/model/alert-kinds.ts";
import type { Settings } from "#shared/kitchen/model/settings.ts";
import { wallTooSmall, type WallLayout } from "#display/model/wall-layout.ts";
import { Choices } from "#display/view/choices.tsx";
import { listen } from "#shared/client/screen/browser.ts";
import { useWords } from "#shared/client/screen/language.ts";
import { LanguageButtons } from "./language-buttons.tsx";
import type { Sound } from "./sound.ts";
import { THEMES, type Theme } from "#shared/client/screen/theme.ts";

const SOUNDS: readonly AlertClass[] = ["urgent", "prompt", "note"];

/** The corner: whether this screen can sound, its theme and loudness, and whether it is large enough. */
export function Menu(props: {
  sound: Sound;
  theme: Theme;
  layout: WallLayout;
  wall: Settings["wall"];
  /** Nothing keeps this screen from going dark. */
  goesDark: boolean;
  onLeave(): void;
}): JSX.Element {
  const words = useWords();
  const menu = () => words().wall.menu;
  const [isOpen, setOpen] = createSignal(false);
  const onKey = (event: KeyboardEvent): void => {
    if (event.key === "Escape") setOpen(false);
    if (event.target instanceof HTMLInputElement || event.ctrlKey || event.metaKey || event.altKey) return;
    if (event.key === "m") setOpen(!isOpen());
    if (event.key === "t") props.theme.choose(props.theme.choice() === "night" ? "day" : "night");
  };
  const sizeWords = (): string => {
    const tooSmall = wallTooSmall(props.layout, props.wall);
    return tooSmall === undefined
      ? menu().sizeIs(props.wall.diagonalCm, props.wall.farthestM)
      : menu().tooSmall(tooSmall);
  };
  onCleanup(listen(document, ["keydown"], onKey));
  return (
    <div class="corner">
      <button
        type="button"
        class="corner-button"
        data-armed={props.sound.canSound()}
        aria-expanded={isOpen()}
        onClick={() => setOpen(!isOpen())}
      >
        {props.sound.canSound() ? menu().soundOn : menu().soundOff}
      </button>
      <Show when={isOpen()}>
        <div class="menu" role="dialog" aria-label={menu().title}>
          <h2>{menu().title}</h2>
          <h3>{menu().sound}</h3>
          <p>{props.sound.canSound() ? menu().armed : menu().notArmed}</p>
          <label>
            {menu().loudness}
            <input
              type="range"
              min="0"
              max="1"
              step="0.05"
              value={props.sound.loudness()}
              onInput={(event) => props.sound.setLoudness(event.currentTarget.valueAsNumber)}
            />
          </label>
          <Choices
            of={SOUNDS.map((kind) => ({ words: menu().tries[kind], does: () => props.sound.play(kind) }))}
          />
          <h3>{menu().theme}</h3>
          <Choices
            of={THEMES.map((theme) => ({
              words: menu().themes[theme],
              isChosen: () => props.theme.choice() === theme,
              does: () => props.theme.choose(theme),
            }))}
          />
          <h3>{menu().language}</h3>
          <LanguageButtons />
          <h3>{menu().size}</h3>
          <p>{sizeWords()}</p>
          <Show when={props.goesDark}>
            <p>{menu().goesDark}</p>
          </Show>
          <Choices
            of={[
              { words: menu().leave, does: () => props.onLeave() },
              { words: words().wall.sheet.close, does: () => setOpen(false) },
            ]}
          />
        </div>
      </Show>
    </div>
  );
}
