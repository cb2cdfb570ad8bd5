import { createSignal } from "solid-js";
import type { Accessor } from "solid-js";

/** Where the phone is: "#/t/18/heat" → ["t", "18", "heat"]. */
export type Path = readonly string[];

export const pathOf = (hash: string): Path =>
  hash
    .replace(/^#\/?/, "")
    .split("/")
    .filter((part) => part !== "")
    .map((part) => decodeURIComponent(part));

/** The join code of a link that was scanned: "#join=CODE". */
export const joinCodeOf = (hash: string): string | undefined => {
  const code = new URLSearchParams(hash.replace(/^#\/?/, "")).get("join");
  return code === null || code === "" ? undefined : code;
};

/** The path as a signal, for as long as the page lives. */
export function createPath(window: Window): Accessor<Path> {
  const [path, setPath] = createSignal(pathOf(window.location.hash));
  window.addEventListener("hashchange", () => {
    setPath(pathOf(window.location.hash));
    window.scrollTo(0, 0);
  });
  return path;
}
