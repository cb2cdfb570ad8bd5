import { PROTOCOL_VERSION } from "#shared/protocol/version.ts";

type Tab = Pick<Window, "sessionStorage" | "location">;

/** Loads a page anew whose version is not the server's; false where it is of no use, as in `once`. */
export const reloadOnce = (tab: Tab): boolean => once(tab, "traytide.reloaded", String(PROTOCOL_VERSION));

/** Loads a page anew for which the server has no more code; `code`: the address of some of its own, which changes with it. */
export const reloadForCode = (tab: Tab, code: string): boolean => once(tab, "traytide.reloaded-code", code);

/** False where this version of the page was loaded anew before, or where that cannot be noted down: it would go on for ever. */
function once({ sessionStorage, location }: Tab, key: string, version: string): boolean {
  try {
    if (sessionStorage.getItem(key) === version) return false;
    sessionStorage.setItem(key, version);
  } catch {
    return false;
  }
  location.reload();
  return true;
}
