import { type Accessor, createRenderEffect, createSignal, onCleanup } from "solid-js";
import { listen } from "./browser.ts";

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
  onCleanup(listen(dark, ["change"], () => setAsksDark(dark.matches)));
  createRenderEffect(() => {
    const own = asksDark() || isNight() ? "night" : "day";
    window.document.documentElement.dataset["theme"] = choice() === "auto" ? own : choice();
  });
  return {
    choice,
    choose(next) {
      window.localStorage.setItem(key, next);
      setChoice(next);
    },
  };
}
