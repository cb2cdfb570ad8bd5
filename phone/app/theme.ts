export type ThemeChoice = "auto" | "day" | "night";

const KEY = "traytide.theme";

export const readTheme = (storage: Storage): ThemeChoice => {
  const kept = storage.getItem(KEY);
  return kept === "day" || kept === "night" ? kept : "auto";
};

const DARK = "(prefers-color-scheme: dark)";

/** Puts the kept theme on the root; "auto" is the device's. */
function wearKept(window: Window): void {
  const kept = readTheme(window.localStorage);
  const device = window.matchMedia(DARK).matches ? "night" : "day";
  window.document.documentElement.dataset["theme"] = kept === "auto" ? device : kept;
}

/** Keeps the choice and puts it on. */
export function applyThemeTo(window: Window, choice: ThemeChoice): void {
  if (choice === "auto") window.localStorage.removeItem(KEY);
  else window.localStorage.setItem(KEY, choice);
  wearKept(window);
}

/** At the page's start: puts on what was kept, and follows the device when it changes. */
export function startTheme(window: Window): void {
  window.matchMedia(DARK).addEventListener("change", () => wearKept(window));
  wearKept(window);
}
