import { describe, expect, it } from "vitest";
import { traysOf } from "#shared/kitchen/model/lookups.ts";
import type { OrderState } from "#shared/kitchen/model/state.ts";
import { bestBeforeMs, boxCount, boxes, boxSize } from "#shared/kitchen/orders/boxes.ts";
import { giftsOf, packingOf } from "#shared/kitchen/orders/packing.ts";
import { english } from "#shared/words/en/index.ts";
import { aKitchen, HOUR, type Scene, T0 } from "../support/scene.ts";

const walk = (scene: Scene): OrderState => scene.kitchen.orders["walk"]!;

/** Moons t2 and t3 of ten cookies each, laid and left to dry; an order of 16 in boxes of six. */
function dry(cookies = 16, boxes: { boxOf?: number } = { boxOf: 6 }): Scene {
  const scene = aKitchen().as("ida", "lead");
  const { boxOf: _none, ...order } = walk(scene);
  scene.act("put-order", { order: { ...order, cookies, ...boxes } });
  for (const trayId of ["t2", "t3"]) scene.act("flooded", { trayId });
  return scene.later(20 * HOUR);
}
const pack = (scene: Scene, trayId: string, more: object = {}): Scene => {
  scene.act("pack", { trayId, acceptRisk: true, ...more });
  return scene;
};
const allBoxes = (scene: Scene) => boxes(6, walk(scene), traysOf(scene.kitchen, "walk"), { from: 1, to: 99 });

describe("K69 an order's boxes fill with its good cookies as they are packed; the last one holds what is left over", () => {
  it("so many full, so many in the next", () => {
    const order = { ...walk(dry()), cookies: 164 };
    expect(boxCount(24, order, 0)).toEqual({ size: 24, of: 7, full: 0, inNext: 0 });
    expect(boxCount(24, order, 124)).toEqual({ size: 24, of: 7, full: 5, inNext: 4 });
    // Six of 24, and the last of 20.
    expect(boxCount(24, order, 163)).toEqual({ size: 24, of: 7, full: 6, inNext: 19 });
    expect(boxCount(24, order, 164)).toEqual({ size: 24, of: 7, full: 7, inNext: 0 });
    expect(boxCount(24, order, 190)).toEqual({ size: 24, of: 7, full: 7, inNext: 0 });
  });

  it("an order's own size goes before the kitchen's, and there may be none", () => {
    const scene = dry(16, {});
    expect(boxSize(scene.kitchen, walk(scene))).toBeUndefined();
    expect(packingOf(scene.kitchen, walk(scene)).boxes).toBeUndefined();
    scene.act("set-kitchen", { settings: { boxOf: 8 } });
    expect(boxSize(scene.kitchen, walk(scene))).toBe(8);
    scene.act("put-order", { order: { ...walk(scene), boxOf: 5 } });
    expect(boxSize(scene.kitchen, walk(scene))).toBe(5);
  });

  it("what is lost or sold as seconds fills none, and is told with its reasons", () => {
    const scene = pack(dry(), "t2", { seconds: 1, lost: [{ problem: "cracked", count: 2 }] });
    scene.act("report-problem", { trayId: "t3", problem: "smeared", count: 3 });
    expect(packingOf(scene.kitchen, walk(scene))).toEqual({
      promised: 16,
      packed: 7,
      seconds: 1,
      lost: 5,
      lostBy: [
        { problem: "smeared", count: 3 },
        { problem: "cracked", count: 2 },
      ],
      boxes: { size: 6, of: 3, full: 1, inNext: 1 },
    });
    const words = english("metric", "Europe/Lisbon").packing;
    expect(words.boxes({ size: 6, of: 3, full: 1, inNext: 1 })).toBe(
      "Boxes of 6: 1 of 3 full, 1 in the next",
    );
    expect(words.lostAre(5, packingOf(scene.kitchen, walk(scene)).lostBy)).toBe(
      "5 lost: 3 smeared, 2 cracked",
    );
  });

  it("each box is numbered, with its cookies, and full ones with when their first cookie was packed", () => {
    const scene = pack(dry(), "t2");
    const firstMs = scene.nowMs;
    expect(allBoxes(scene)).toEqual([
      { number: 1, of: 3, cookies: 6, isFull: true, packedAtMs: firstMs },
      { number: 2, of: 3, cookies: 6, isFull: false },
      { number: 3, of: 3, cookies: 4, isFull: false },
    ]);
    pack(scene.later(3 * HOUR), "t3");
    // The second box holds four of the first tray: their packing is the older one.
    expect(allBoxes(scene).map(({ packedAtMs }) => packedAtMs)).toEqual([firstMs, firstMs, scene.nowMs]);
    expect(boxes(6, walk(scene), traysOf(scene.kitchen, "walk"), { from: 2, to: 2 })).toMatchObject([
      { number: 2 },
    ]);
  });

  it("of cookies on trays archived since nobody knows any more when", () => {
    const scene = pack(dry(24), "t2");
    scene
      .as("kitchen", "kitchen")
      .later(60 * HOUR)
      .act("archive", {});
    expect(walk(scene).archived).toEqual({ moon: 10 });
    expect(allBoxes(scene)[0]).toEqual({ number: 1, of: 4, cookies: 6, isFull: true });
  });
});

describe("K70 best before is so many days after packing by the kitchen's calendar, and no date where it has no rule", () => {
  const lisbon = { timeZone: "Europe/Lisbon" };
  it.each([
    // 23:30 on 24 October in Lisbon, where clocks go back that night.
    [Date.UTC(2026, 9, 24, 22, 30), 1, "Sun 25 Oct 2026"],
    [Date.UTC(2026, 9, 24, 23, 30), 1, "Mon 26 Oct 2026"],
    [Date.UTC(2026, 10, 28, 10), 21, "Sat 19 Dec 2026"],
    [Date.UTC(2026, 11, 31, 23, 59), 0, "Thu 31 Dec 2026"],
  ])("%d + %d days", (packedAtMs, bestBeforeDays, date) => {
    const atMs = bestBeforeMs({ ...lisbon, bestBeforeDays }, packedAtMs)!;
    expect(english("metric", "Europe/Lisbon").format.shortDate(atMs).replaceAll(",", "")).toBe(date);
  });

  it("none", () => {
    expect(bestBeforeMs({ ...lisbon, bestBeforeDays: null }, T0)).toBeUndefined();
    expect(bestBeforeMs(lisbon, T0)).toBeUndefined();
  });
});

describe("K71 what is packed over is offered to orders of the same design, those that lack cookies first", () => {
  const order = (id: string, cookies: number, hours: number, scene: Scene) => ({
    id,
    name: id,
    cookies,
    pickUpAtMs: scene.nowMs + hours * HOUR,
  });
  const tray = (id: string, number: number, designId: string, orderId: string, count: number) => ({
    id,
    number,
    designId,
    orderId,
    count,
    placeId: "rack-a",
  });
  function over(): Scene {
    const scene = dry(12, {});
    scene.act("put-order", { order: order("soon", 10, 10, scene) });
    scene.act("put-order", { order: order("lacks", 10, 90, scene) });
    scene.act("put-order", { order: order("other", 10, 5, scene) });
    scene.act("add-trays", {
      trays: [
        tray("s", 61, "moon", "soon", 10),
        tray("l", 62, "moon", "lacks", 7),
        tray("o", 63, "lantern", "other", 5),
      ],
    });
    return pack(pack(scene, "t2"), "t3");
  }

  it("with how many they could have, never more than is over", () => {
    const scene = over();
    const found = giftsOf(scene.kitchen, walk(scene)).map(({ to, count, lacks, toPack, designId }) => [
      to.id,
      designId,
      count,
      lacks,
      toPack,
    ]);
    // Eight are over; "lacks" has three on no tray, "soon" has all on trays but packed none.
    expect(found).toEqual([
      ["lacks", "moon", 8, 3, 10],
      ["soon", "moon", 8, 0, 10],
    ]);
  });

  it("given, it is offered no more; an order that has all its cookies packed is offered none", () => {
    const scene = over();
    scene.act("give-cookies", { fromId: "walk", toId: "soon", designId: "moon", count: 8 });
    expect(giftsOf(scene.kitchen, walk(scene))).toEqual([]);
    expect(giftsOf(scene.kitchen, scene.kitchen.orders["soon"]!)).toEqual([]);
  });
});
