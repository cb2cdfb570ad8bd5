import { describe, expect, it } from "vitest";
import {
  cookiesByDesign,
  packedOver,
  secondsOf,
  spoiledOf,
  spoiledShort,
} from "#shared/kitchen/model/order-cookies.ts";
import { goodOn } from "#shared/kitchen/model/lookups.ts";
import { undoOf } from "#shared/kitchen/commands/decide.ts";
import type { Command } from "#shared/kitchen/model/command.ts";
import { said } from "#tests/support/said.ts";
import { aKitchen, HOUR, id, type Scene } from "../support/scene.ts";

const refusalOf = (decision: ReturnType<Scene["ask"]>): string => {
  if (decision.ok) throw new Error("was taken, not refused");
  return said(decision.refusal);
};

/** Moons t2 and t3 of ten cookies each, laid and left to dry; the order asks for 32. */
function dry(): Scene {
  const scene = aKitchen();
  for (const trayId of ["t2", "t3"]) scene.act("flooded", { trayId });
  return scene.later(20 * HOUR);
}
const walk = (scene: Scene) => scene.kitchen.orders["walk"]!;
const traysOf = (scene: Scene) => Object.values(scene.kitchen.trays);

describe("K61 packing tells good cookies from seconds and from those lost, with the reason", () => {
  it("and only good ones count", () => {
    const scene = dry();
    const actId = scene.act("pack", {
      trayId: "t2",
      acceptRisk: true,
      seconds: 2,
      lost: [
        { problem: "broken", count: 1 },
        { problem: "cracked", count: 1 },
      ],
    });
    const tray = scene.tray("t2");
    expect(goodOn(tray)).toBe(6);
    expect(tray.problems).toMatchObject([
      { problem: "broken", count: 1 },
      { problem: "cracked", count: 1 },
    ]);
    expect(cookiesByDesign(scene.kitchen, walk(scene), [tray])).toEqual({ moon: 6 });
    expect([secondsOf(walk(scene), [tray]), spoiledOf(walk(scene), [tray])]).toEqual([2, 2]);
    // Taken back as one act: what was lost with it stands no more.
    scene.act("take-back", { trayId: "t2", actId });
    expect(scene.tray("t2").status.stage).toBe("full-dry");
    expect(goodOn(scene.tray("t2"))).toBe(10);
  });

  it("more than the tray holds is refused with how many are good", () => {
    const scene = dry();
    scene.act("report-problem", { trayId: "t2", problem: "sunk", count: 4 });
    const lost = [{ problem: "broken", count: 3 }];
    expect(refusalOf(scene.ask("pack", { trayId: "t2", acceptRisk: true, seconds: 4, lost }))).toBe(
      "seconds and lost must be at most 6 together: tray 7 holds 6 good cookies.",
    );
    scene.act("pack", { trayId: "t2", acceptRisk: true, seconds: 3, lost });
    expect(goodOn(scene.tray("t2"))).toBe(0);
  });

  it("an order lacks what became seconds, also once the trays are archived", () => {
    const scene = dry();
    scene.as("ida", "lead").act("put-order", { order: { ...walk(scene), cookies: 20 } });
    scene.as("wren").act("pack", { trayId: "t2", acceptRisk: true, seconds: 3 });
    scene.act("pack", { trayId: "t3", acceptRisk: true });
    const own = traysOf(scene).filter(({ id: trayId }) => trayId !== "t1");
    expect(spoiledShort(walk(scene), own)).toBe(3);
    scene
      .as("kitchen", "kitchen")
      .later(60 * HOUR)
      .act("archive", {});
    expect(walk(scene)).toMatchObject({ archived: { moon: 17 }, archivedSeconds: 3 });
    expect(spoiledShort(walk(scene), [])).toBe(3);
  });
});

describe("K62 what an order has packed beyond its count goes to another order on request", () => {
  function over(): Scene {
    const scene = dry().as("ida", "lead");
    scene.act("put-order", { order: { ...walk(scene), cookies: 12 } });
    scene.act("put-order", {
      order: { id: "boat", name: "Boat day", pickUpAtMs: scene.nowMs + 30 * HOUR, cookies: 10 },
    });
    for (const trayId of ["t2", "t3"]) scene.act("pack", { trayId, acceptRisk: true });
    return scene;
  }
  const give = { fromId: "walk", toId: "boat", designId: "moon" };

  it("and back, never more than it has over", () => {
    const scene = over();
    expect(packedOver(scene.kitchen, walk(scene), "moon")).toBe(8);
    expect(refusalOf(scene.ask("give-cookies", { ...give, count: 9 }))).toBe(
      "count must be 1 to 8: Lantern Walk has 8 cookies packed of that design that it does not need.",
    );
    const before = scene.kitchen;
    const commandId = scene.act("give-cookies", { ...give, count: 6 });
    expect(packedOver(scene.kitchen, walk(scene), "moon")).toBe(2);
    expect(cookiesByDesign(scene.kitchen, scene.kitchen.orders["boat"]!, [])).toEqual({ moon: 6 });
    const undo = undoOf(
      { type: "give-cookies", commandId: id(commandId), ...give, count: 6 } as unknown as Command,
      before,
    )!;
    scene.send({ commandId: id("back"), ...undo });
    expect(packedOver(scene.kitchen, walk(scene), "moon")).toBe(8);
    expect(scene.ask("give-cookies", { ...give, toId: "walk", count: 1 }).ok).toBe(false);
  });

  it("what was given stays given when the order changes and its trays are archived", () => {
    const scene = over();
    scene.act("give-cookies", { ...give, count: 6 });
    scene.act("put-order", { order: { ...walk(scene), note: "Ribbons" } });
    scene
      .as("kitchen", "kitchen")
      .later(2 * 60 * HOUR)
      .act("archive", {});
    const { orders } = scene.kitchen;
    expect(orders["boat"]?.given).toEqual({ moon: 6 });
    const left = orders["walk"];
    if (left !== undefined) expect(cookiesByDesign(scene.kitchen, left, [])).toEqual({ moon: 14 });
  });
});
