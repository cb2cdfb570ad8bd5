import { createMemo, createRenderEffect, createSignal, onCleanup } from "solid-js";
import type { Accessor } from "solid-js";

export const THEMES = ["auto", "day", "night"] as const;
export type ThemeChoice = (typeof THEMES)[number];

export interface Theme {
  choice: Accessor<ThemeChoice>;
  /** Shows it, and remembers it on this device. */
  choose(choice: ThemeChoice): void;
}

/**
 * Puts the theme on the root, for as long as its owner lives. "auto" is night where the device asks for dark or `isNight` says so.
 * `key`: under which the choice is kept.
 */
export function createTheme(window: Window, key: string, isNight: Accessor<boolean> = () => false): Theme {
  const kept = window.localStorage.getItem(key);
  const [choice, setChoice] = createSignal<ThemeChoice>(THEMES.find((theme) => theme === kept) ?? "auto");
  const dark = window.matchMedia("(prefers-color-scheme: dark)");
  const [asksDark, setAsksDark] = createSignal(dark.matches);
  const follow = (): void => void setAsksDark(dark.matches);
  dark.addEventListener("change", follow);
  onCleanup(() => dark.removeEventListener("change", follow));
  const shown = createMemo(() => {
    const chosen = choice();
    if (chosen !== "auto") return chosen;
    return asksDark() || isNight() ? "night" : "day";
  });
  createRenderEffect(() => {
    window.document.documentElement.dataset["theme"] = shown();
  });
  return {
    choice,
    choose(next) {
      window.localStorage.setItem(key, next);
      setChoice(next);
    },
  };
}
