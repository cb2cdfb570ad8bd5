/** Runs at each tap or key: at its end, since before that browsers let no sound in for it. */
export function onTap(window: Window, run: () => void): void {
  for (const type of ["click", "touchend", "keydown"]) window.addEventListener(type, run, { capture: true });
}
