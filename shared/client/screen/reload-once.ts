import { PROTOCOL_VERSION } from "#shared/protocol/version.ts";

const RELOADED = "traytide.reloaded";

/**
 * Loads a page anew whose version is not the server's; false where this version of it was loaded anew before, or where that cannot
 * be noted down: it would go on for ever.
 */
export function reloadOnce({
  sessionStorage,
  location,
}: Pick<Window, "sessionStorage" | "location">): boolean {
  const own = String(PROTOCOL_VERSION);
  try {
    if (sessionStorage.getItem(RELOADED) === own) return false;
    sessionStorage.setItem(RELOADED, own);
  } catch {
    return false;
  }
  location.reload();
  return true;
}
