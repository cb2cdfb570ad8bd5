import { describe, expect, it } from "vitest";
import { pathOf } from "#phone/app/path.ts";
import {
  parentOf,
  pathTo,
  SCREENS,
  type ScreenName,
  screenAt,
  tabOf,
  TABS,
  titleOf,
} from "#phone/app/screens.tsx";
import { english } from "#shared/words/en/index.ts";
import { spanish } from "#shared/words/es/index.ts";
import { aPhone } from "#tests/support/a-phone.tsx";

const NAMES = Object.keys(SCREENS) as ScreenName[];
const LANGUAGES = [english("metric", "UTC"), spanish("metric", "UTC")];
/** A path of a screen with something in place of what is not fixed. */
const somewhere = (name: ScreenName) => pathOf(`#/${pathTo(name, "18")}`);

describe("the table of screens", () => {
  it.each(NAMES)("%s is found at its own path, with a title in each language", (name) => {
    const address = screenAt(somewhere(name));
    expect(address?.name).toBe(name);
    for (const words of LANGUAGES) expect(titleOf(words, address!)).toMatch(/\p{L}/u);
    expect(new Set(LANGUAGES.map((words) => titleOf(words, address!))).size).toBe(2);
  });

  it.each(NAMES)("%s leads back to a screen that exists, at last to a tab's own", (name) => {
    let address = screenAt(somewhere(name));
    for (let steps = 0; parentOf(address!) !== undefined; steps += 1) {
      const parent = parentOf(address!)!;
      expect(screenAt(pathOf(`#/${pathTo(parent.name, parent.id)}`))).toEqual(parent);
      address = parent;
      expect(steps).toBeLessThan(5);
    }
    if (name !== "set-up") expect(TABS).toContain(address!.name);
  });

  it("a tab's own screen lies under that tab", () => {
    for (const tab of TABS) expect(tabOf(tab)).toBe(tab);
  });

  it("a tray's number is a number, and a path is found whole or not at all", () => {
    expect(screenAt(pathOf("#/t/18/heat"))).toEqual({ name: "tray-heat", id: "18" });
    expect(screenAt(pathOf("#/orders/new"))).toEqual({ name: "new-order", id: "" });
    expect(screenAt(pathOf("#/orders/a%2Fb"))).toEqual({ name: "order", id: "a/b" });
    for (const hash of ["#/t/x", "#/t/12345", "#/t/18/cold", "#/kitchen", "#/constructor", "#/orders/1/2"])
      expect([hash, screenAt(pathOf(hash))]).toEqual([hash, undefined]);
    expect(screenAt(pathOf("#join=PLUM-7"))).toEqual({ name: "trays", id: "" });
  });

  it.each(NAMES.filter((name) => SCREENS[name].isLeads === true))(
    "K4 a decorator who opens %s is told that it is the leads'",
    async (name) => {
      const { container } = await aPhone(`#/${pathTo(name, "1")}`);
      expect(container.querySelector("main")?.textContent).toBe("This page is for the kitchen's leads.");
    },
  );
});
