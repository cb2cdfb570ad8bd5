import { type Accessor, createSignal, onCleanup } from "solid-js";
import { listen } from "#shared/client/screen/browser.ts";
import { joinCodeIn } from "#shared/client/screen/joining.ts";

/** Where the phone is: "#/t/18/heat" → ["t", "18", "heat"]. */
export type Path = readonly string[];

export const pathOf = (hash: string): Path =>
  // The join code that a phone in the kitchen scans again is no path.
  (joinCodeIn(hash) === "" ? hash : "")
    .replace(/^#\/?/, "")
    .split("/")
    .filter((part) => part !== "")
    .map(decoded);

/** A part that is no text at all is left as it is: no page has such a name. */
function decoded(part: string): string {
  try {
    return decodeURIComponent(part);
  } catch {
    return part;
  }
}

/** The path as a signal, for as long as its owner lives. */
export function createPath(window: Window): Accessor<Path> {
  const [path, setPath] = createSignal(pathOf(window.location.hash));
  onCleanup(listen(window, ["hashchange"], () => setPath(pathOf(window.location.hash))));
  return path;
}
