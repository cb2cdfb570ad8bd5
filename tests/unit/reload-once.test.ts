import { expect, it } from "vitest";
import { reloadOnce } from "#shared/client/screen/reload-once.ts";
import { PROTOCOL_VERSION } from "#shared/protocol/version.ts";

/** A tab: what it keeps outlives a reload. */
function aTab(kept: Map<string, string> = new Map()) {
  let reloads = 0;
  const sessionStorage = {
    getItem: (key: string) => kept.get(key) ?? null,
    setItem: (key: string, value: string) => void kept.set(key, value),
  } as Storage;
  const location = { reload: () => void (reloads += 1) } as Location;
  return { window: { sessionStorage, location }, reloads: () => reloads, kept };
}

it("P14 a page reloads itself once for its version, and never again in that tab", () => {
  const { window, reloads } = aTab();
  expect(reloadOnce(window)).toBe(true);
  for (let k = 0; k < 5; k += 1) expect(reloadOnce(window)).toBe(false);
  expect(reloads()).toBe(1);
});

it("P14 a page of a later version may reload once too, when the server goes on", () => {
  const { window, kept, reloads } = aTab();
  reloadOnce(window);
  for (const key of kept.keys()) kept.set(key, String(PROTOCOL_VERSION - 1));
  expect(reloadOnce(window)).toBe(true);
  expect(reloads()).toBe(2);
});

it("P14 where nothing can be noted down it does not reload: it would go on for ever", () => {
  const { window, reloads } = aTab();
  window.sessionStorage.setItem = () => {
    throw new Error("no storage");
  };
  expect(reloadOnce(window)).toBe(false);
  expect(reloads()).toBe(0);
});
