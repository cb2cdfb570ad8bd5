import { said as alertSaid } from "#tests/support/alert-words.ts";
import { said } from "#tests/support/said.ts";
import { describe, expect, it } from "vitest";
import { nextAct } from "#shared/kitchen/tray/route.ts";
import { orderCard } from "#shared/kitchen/orders/progress.ts";
import { traysOf, goodOn } from "#shared/kitchen/model/lookups.ts";
import { cookiesOnTrays, isOrderPacked, spoiledShort } from "#shared/kitchen/model/order-cookies.ts";
import { tend } from "../support/alerting.ts";
import { aKitchen, HOUR, MIN, type Scene, T0 } from "../support/scene.ts";

const orderOf = (scene: Scene) => scene.kitchen.orders["walk"]!;
const shortOf = (scene: Scene): number => spoiledShort(orderOf(scene), traysOf(scene.kitchen, "walk"));
const alertOf = (scene: Scene) =>
  Object.values(scene.kitchen.alerts).find(({ kind }) => kind === "order-short");

/** Tray 7 of the order, its ten cookies laid, and three of them bled. */
function threeBled(): Scene {
  const scene = aKitchen();
  scene.act("flooded", { trayId: "t2" });
  scene.later(MIN).act("report-problem", { trayId: "t2", problem: "bled", count: 3 });
  return scene;
}

describe("K42 spoiled cookies count", () => {
  it("the tray packs what is good, and the order says what is short", () => {
    const scene = threeBled();
    expect(goodOn(scene.tray("t2"))).toBe(7);
    expect(nextAct(scene.kitchen, scene.tray("t2"))).toMatchObject({
      kind: "pack",
      count: 7,
    });
    expect(cookiesOnTrays(orderOf(scene), traysOf(scene.kitchen, "walk"))).toBe(29);
    expect(shortOf(scene)).toBe(3);
    expect(orderCard(scene.kitchen, scene.forecasts, orderOf(scene), scene.nowMs).status).toEqual({
      code: "spoiled",
      cookies: 3,
    });
  });

  it("cookies that swelled under heat are spoiled too, and none is spoiled twice", () => {
    const scene = threeBled();
    scene.act("start-heat-set", { trayId: "t2", toolId: "oven-1" });
    scene.later(MIN).act("end-heat-set", { trayId: "t2", result: "swollen or cracked", spoiled: 10 });
    expect(goodOn(scene.tray("t2"))).toBe(0);
    expect(shortOf(scene)).toBe(10);
  });

  it("what is taken back is good again", () => {
    const scene = threeBled();
    const { act } = scene.tray("t2").history.at(-1)!;
    scene.act("take-back", { trayId: "t2", actId: act.actId });
    expect(shortOf(scene)).toBe(0);
  });

  it("an order is packed only once it has as many good ones as it wants; a make-up tray closes what is short", () => {
    const scene = threeBled().as("ida", "lead");
    const plan = { id: "t9", number: 9, designId: "moon", orderId: "walk", count: 3, placeId: "rack-a" };
    for (const trayId of ["t1", "t2", "t3"]) {
      scene.kitchen = {
        ...scene.kitchen,
        trays: {
          ...scene.kitchen.trays,
          [trayId]: {
            ...scene.tray(trayId),
            status: { stage: "packed", atMs: scene.nowMs, by: "kitchen" },
          },
        },
      };
    }
    const trays = () => traysOf(scene.kitchen, "walk");
    expect(isOrderPacked(orderOf(scene), trays())).toBe(false);
    scene.act("add-trays", { trays: [plan] });
    expect(shortOf(scene)).toBe(0);
  });

  it("what was spoiled on a tray that is put away stays short", () => {
    const scene = aKitchen().as("ida", "lead");
    scene.act("put-order", {
      order: { ...orderOf(scene), cookies: 32, pickUpAtMs: T0 + 200 * HOUR },
      isChange: true,
    });
    scene.as("wren").act("flooded", { trayId: "t2" });
    scene.later(HOUR).act("report-problem", { trayId: "t2", problem: "bled", count: 3 });
    scene.act("pack", { trayId: "t2", acceptRisk: true });
    expect(tend(scene).raised.filter((key) => key.startsWith("order-short"))).toHaveLength(1);
    scene.later(49 * HOUR);
    scene.by = scene.role = "kitchen";
    scene.act("archive", {});
    expect(scene.kitchen.trays["t2"]).toBeUndefined();
    expect(shortOf(scene)).toBe(3);
    tend(scene);
    expect(alertSaid(scene.kitchen, alertOf(scene))).toMatch(/^Lantern Walk: 3 cookies short/);
  });

  it("cookies that were never put on trays are not called spoiled", () => {
    const scene = threeBled().as("ida", "lead");
    scene.act("put-order", { order: { ...orderOf(scene), cookies: 60 }, isChange: true });
    expect(shortOf(scene)).toBe(0);
  });
});

describe("A30 leads are told of an order that is short", () => {
  it("once, with what it lacks by now; a make-up tray or a smaller order clears it", () => {
    const scene = threeBled();
    expect(tend(scene).raised).toHaveLength(1);
    expect(alertOf(scene)).toMatchObject({
      orderId: "walk",
      cookies: 3,
      class: "prompt",
      recipients: { leads: true, wall: false },
    });
    const { raisedAtMs } = alertOf(scene)!;
    scene.later(MIN).act("report-problem", { trayId: "t2", problem: "dented", count: 1 });
    expect(tend(scene)).toEqual({ raised: [], cleared: [] });
    expect(alertOf(scene)).toMatchObject({ cookies: 4, raisedAtMs });
    scene.as("ida", "lead").act("put-order", { order: { ...orderOf(scene), cookies: 28 }, isChange: true });
    tend(scene);
    expect(alertOf(scene)).toBeUndefined();
  });

  it("not where it cannot be ready by its pick-up at all: that is told instead", () => {
    const scene = threeBled();
    scene.later(29.9 * HOUR);
    tend(scene);
    expect(
      Object.values(scene.kitchen.alerts).map((alert) => alertSaid(scene.kitchen, alert)),
    ).toContainEqual(expect.stringMatching(/^Lantern Walk: 3 cookies short: they were spoiled/));
    expect(alertOf(scene)).toBeUndefined();
  });
});

describe("K43 an order is cancelled", () => {
  it("not while packed trays would lose it", () => {
    const scene = aKitchen().as("ida", "lead");
    for (const trayId of ["t1", "t3"]) scene.act("remove-tray", { trayId });
    scene.act("flooded", { trayId: "t2" });
    scene.later(HOUR).act("pack", { trayId: "t2", acceptRisk: true });
    const decision = scene.ask("cancel-order", { orderId: "walk" });
    expect(decision).toMatchObject({ ok: false, refusal: { reason: "in-use" } });
    expect(!decision.ok && said(decision.refusal)).toContain("10 cookies of Lantern Walk are packed");
    scene.as("wren").act("report-problem", { trayId: "t2", problem: "smeared", count: 10 });
    expect(scene.as("ida", "lead").ask("cancel-order", { orderId: "walk" }).ok).toBe(false);
  });

  it("and is put back as it was, though its pick-up has passed meanwhile; no new order is", () => {
    const scene = aKitchen().as("ida", "lead");
    for (const trayId of ["t1", "t2", "t3"]) scene.act("remove-tray", { trayId });
    scene.later(31 * HOUR);
    const order = orderOf(scene);
    scene.act("cancel-order", { orderId: "walk" });
    expect(scene.ask("put-order", { order })).toMatchObject({
      ok: false,
      refusal: { reason: "out-of-range" },
    });
    scene.act("put-order", { order, isUndo: true });
    expect(orderOf(scene)).toEqual(order);
  });
});
