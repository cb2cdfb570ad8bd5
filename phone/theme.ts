export type ThemeChoice = "auto" | "day" | "night";

const KEY = "traytide.theme";

export const readTheme = (storage: Storage): ThemeChoice => {
  const kept = storage.getItem(KEY);
  return kept === "day" || kept === "night" ? kept : "auto";
};

/** Puts the theme on the root; "auto" follows the device, now and when it changes. */
export function wearTheme(window: Window, choice: ThemeChoice): void {
  if (choice === "auto") window.localStorage.removeItem(KEY);
  else window.localStorage.setItem(KEY, choice);
  const dark = window.matchMedia("(prefers-color-scheme: dark)");
  const wear = (): void => {
    const kept = readTheme(window.localStorage);
    window.document.documentElement.dataset["theme"] =
      kept === "auto" ? (dark.matches ? "night" : "day") : kept;
  };
  dark.onchange = wear;
  wear();
}
