import { type Accessor, createSignal, onCleanup } from "solid-js";
import { listen } from "#shared/client/screen/browser.ts";

/** From this width the phone's screens stand in a desk's frame; px. */
const DESK_FROM_PX = 1000;

/** Whether the window is wide enough for the desk, for as long as its owner lives. */
export function createWide(window: Window): Accessor<boolean> {
  const query = window.matchMedia(`(min-width: ${DESK_FROM_PX}px)`);
  const [isWide, setWide] = createSignal(query.matches);
  onCleanup(listen(query, ["change"], () => setWide(query.matches)));
  return isWide;
}
