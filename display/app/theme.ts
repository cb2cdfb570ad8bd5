import { createEffect, createMemo, createSignal, onCleanup } from "solid-js";
import type { Accessor } from "solid-js";

export const THEMES = ["auto", "day", "night"] as const;
export type ThemeChoice = (typeof THEMES)[number];

const KEY = "traytide.wall.theme";

export interface Theme {
  choice: Accessor<ThemeChoice>;
  choose(choice: ThemeChoice): void;
}

/** Puts the theme on the root. "auto" is night while the kitchen is closed or the screen asks for dark. */
export function applyThemeTo(window: Window, isOpen: Accessor<boolean>): Theme {
  const kept = window.localStorage.getItem(KEY);
  const [choice, setChoice] = createSignal<ThemeChoice>(THEMES.find((theme) => theme === kept) ?? "auto");
  const dark = window.matchMedia("(prefers-color-scheme: dark)");
  const [asksDark, setAsksDark] = createSignal(dark.matches);
  const follow = (): void => void setAsksDark(dark.matches);
  dark.addEventListener("change", follow);
  onCleanup(() => dark.removeEventListener("change", follow));
  const worn = createMemo(() => {
    const chosen = choice();
    if (chosen !== "auto") return chosen;
    return asksDark() || !isOpen() ? "night" : "day";
  });
  createEffect(() => {
    window.document.documentElement.dataset["theme"] = worn();
  });
  return {
    choice,
    choose(next) {
      window.localStorage.setItem(KEY, next);
      setChoice(next);
    },
  };
}
