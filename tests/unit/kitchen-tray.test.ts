import { refusalOf } from "#tests/support/said.ts";
import { describe, expect, it } from "vitest";
import { openOrders } from "#shared/kitchen/mixing/icing-needed.ts";
import { orderStrip } from "#shared/kitchen/orders/progress.ts";
import { nextAct, readiness, needsOf } from "#shared/kitchen/tray/route.ts";
import { standsAt, trayByNumber } from "#shared/kitchen/model/lookups.ts";
import { cookiesByDesign } from "#shared/kitchen/model/order-cookies.ts";
import { LANTERN, MOON } from "../support/furnishings.ts";
import { aKitchen, band, HOUR, MIN, type Scene, T0 } from "../support/scene.ts";

describe("a tray's way", () => {
  it("K6 one tap ends flooding and starts that film's drying clock", () => {
    const scene = aKitchen();
    scene.act("start-flooding", { trayId: "t2" });
    expect(scene.tray("t2").status).toMatchObject({ stage: "flooding", layer: 0, startedAtMs: T0 });
    scene.later(8 * MIN).act("flooded", { trayId: "t2" });
    expect(scene.tray("t2").films).toMatchObject([
      { layer: 0, floodingFromMs: T0, clockStartMs: T0 + 8 * MIN, by: "wren" },
    ]);
  });

  it("K7 a tray that no one began is flooded by the same one tap", () => {
    const scene = aKitchen();
    scene.act("flooded", { trayId: "t2" });
    expect(scene.tray("t2").films).toHaveLength(1);
    expect(scene.tray("t2").status).toEqual({ stage: "full-dry" });
  });

  it("K5 a tap keeps the time it was made", () => {
    const scene = aKitchen().later(HOUR);
    scene.act("flooded", { trayId: "t2", atMs: T0 + 5 * MIN });
    expect(scene.tray("t2").films[0]?.clockStartMs).toBe(T0 + 5 * MIN);
  });

  it.each([
    ["6 s ahead", 6_000, false],
    ["5 s ahead", 5_000, true],
    ["12 h back", -12 * HOUR, false],
    ["a minute back", -MIN, true],
  ])("K5 a time %s: taken is %#", (_, offsetMs, taken) => {
    const scene = aKitchen().later(13 * HOUR);
    const decision = scene.ask("report-problem", {
      trayId: "t2",
      problem: "broken",
      count: 1,
      atMs: scene.nowMs + offsetMs - (offsetMs === -12 * HOUR ? 1 : 0),
    });
    expect(decision.ok).toBe(taken);
    if (!decision.ok)
      expect(refusalOf(decision)).toMatchObject({
        reason: "bad-time",
        message: expect.stringContaining("atMs"),
      });
  });

  it("K8 the same icing is laid wet on wet, another waits for the skin, a named wait wins", () => {
    expect(needsOf(LANTERN, 1)).toEqual([{ layer: 0, need: "wet" }]);
    expect(needsOf(LANTERN, 2)).toEqual([
      { layer: 0, need: "skin" },
      { layer: 1, need: "skin" },
    ]);
    expect(needsOf(LANTERN, 3)).toEqual([
      { layer: 0, need: "skin" },
      { layer: 1, need: "dry through" },
      { layer: 2, need: "skin" },
    ]);
  });

  it("K8 outline, flood at once, then crusting, then full-dry before a dry-through wait", () => {
    const scene = aKitchen();
    scene.act("flooded", { trayId: "t1" });
    expect(scene.tray().status).toEqual({ stage: "crusting", nextLayer: 1 });
    expect(readiness(scene.kitchen, scene.forecasts, scene.tray(), scene.nowMs)).toEqual({
      is: "ready",
      sinceMs: T0,
    });
    scene.later(MIN).act("flooded", { trayId: "t1" });
    expect(scene.tray().status).toEqual({ stage: "crusting", nextLayer: 2 });
    scene.forecast("t1", 0, { skin: band(T0) }).forecast("t1", 1, { skin: band(T0 + 40 * MIN) });
    scene.later(50 * MIN).act("flooded", { trayId: "t1" });
    expect(scene.tray().status).toEqual({ stage: "full-dry", nextLayer: 3 });
    expect(nextAct(scene.kitchen, scene.tray())).toMatchObject({
      kind: "flood",
      layer: 3,
      how: "pipe",
    });
  });

  it("K9 starting too soon asks for a second tap that names the risk, and records it", () => {
    const scene = aKitchen();
    scene.act("flooded", { trayId: "t1" });
    scene.act("flooded", { trayId: "t1" });
    scene.forecast("t1", 0, { skin: band(T0) }).forecast("t1", 1, { skin: band(T0 + 40 * MIN) });
    scene.later(10 * MIN);
    const refusal = refusalOf(scene.ask("start-flooding", { trayId: "t1" }));
    expect(refusal.reason).toBe("risk");
    expect(refusal.message).toContain("Layer 2 (sea glass) of tray 18 is likely to skin 09:30–09:50");
    expect(refusal.message).toContain("storm laid now may bleed, and it would show");
    scene.act("start-flooding", { trayId: "t1", acceptRisk: true });
    scene.later(5 * MIN).act("flooded", { trayId: "t1" });
    expect(scene.tray().films[2]?.risk).toMatchObject({
      act: "lay",
      tray: 18,
      need: "skin",
      wouldShow: true,
    });
    expect(scene.tray().films[1]?.skinnedBy).toBeUndefined();
  });

  it("K25 laying a neighbour without a risk says that its neighbour had skinned", () => {
    const scene = aKitchen();
    scene.act("flooded", { trayId: "t1" });
    scene.act("flooded", { trayId: "t1" });
    scene.forecast("t1", 0, { skin: band(T0) }).forecast("t1", 1, { skin: band(T0 + 40 * MIN) });
    scene.later(50 * MIN).act("flooded", { trayId: "t1" });
    expect(scene.tray().films[1]?.skinnedBy).toMatchObject({
      atMs: T0 + 50 * MIN,
      skinLn: expect.any(Number),
    });
  });

  it("K25 a neighbour begun by a tap of its own says so for the moment it was begun", () => {
    const scene = aKitchen();
    scene.act("flooded", { trayId: "t1" });
    scene.act("flooded", { trayId: "t1" });
    scene.forecast("t1", 0, { skin: band(T0) }).forecast("t1", 1, { skin: band(T0 + 40 * MIN) });
    scene.later(50 * MIN).act("start-flooding", { trayId: "t1" });
    scene.later(9 * MIN).act("flooded", { trayId: "t1" });
    expect(scene.tray().films[1]?.skinnedBy).toMatchObject({
      atMs: T0 + 50 * MIN,
      skinLn: expect.any(Number),
    });
  });

  it("K11 a touch overrules the forecast, and a later 'still wet' overrules an earlier finding", () => {
    const scene = aKitchen();
    scene.act("flooded", { trayId: "t1" });
    scene.act("flooded", { trayId: "t1" });
    scene.forecast("t1", 0, { skin: band(T0) }).forecast("t1", 1, { skin: band(T0 + 40 * MIN) });
    scene.later(20 * MIN).act("touch-test", { trayId: "t1", finding: "skinned" });
    expect(readiness(scene.kitchen, scene.forecasts, scene.tray(), scene.nowMs)).toEqual({
      is: "ready",
      sinceMs: T0 + 20 * MIN,
    });
    scene.later(MIN).act("touch-test", { trayId: "t1", finding: "still wet" });
    expect(readiness(scene.kitchen, scene.forecasts, scene.tray(), scene.nowMs)).toMatchObject({
      is: "coming",
    });
  });

  it("K12 past the latest time with no touch it says check by touch, not ready", () => {
    const scene = aKitchen();
    scene.act("flooded", { trayId: "t2" });
    scene.forecast("t2", 0, { dryThrough: band(T0 + 10 * HOUR, HOUR) });
    const at = (hours: number): string =>
      readiness(scene.kitchen, scene.forecasts, scene.tray("t2"), T0 + hours * HOUR).is;
    expect([at(9.9), at(10.1), at(10.9), at(11.1)]).toEqual(["coming", "ready", "ready", "check by touch"]);
  });

  it("K14 one film past its own latest asks for a finger, though another may still be early; a finger on that vouches", () => {
    const scene = aKitchen();
    const inTwo = {
      ...MOON,
      id: "two",
      name: "Two",
      layers: [MOON.layers[0], { ...MOON.layers[0], icingId: "butter" }],
    };
    scene.as("ida", "lead").act("put-design", { design: inTwo });
    scene.act("add-trays", {
      trays: [{ id: "t9", number: 9, designId: "two", orderId: "walk", count: 4, placeId: "rack-a" }],
    });
    for (let layer = 0; layer < 2; layer += 1) scene.act("flooded", { trayId: "t9", acceptRisk: true });
    scene.forecast("t9", 0, { dryThrough: band(T0 + 8 * HOUR, HOUR) });
    scene.forecast("t9", 1, { dryThrough: band(T0 + 10 * HOUR, 4 * HOUR) });
    const at = (hours: number) =>
      readiness(scene.kitchen, scene.forecasts, scene.tray("t9"), T0 + hours * HOUR);
    expect(at(9.9).is).toBe("coming");
    expect(at(10.1)).toEqual({ is: "check by touch", sinceMs: T0 + 10 * HOUR });
    scene.later(10.1 * HOUR).act("touch-test", { trayId: "t9", layer: 1, finding: "firm" });
    expect(at(10.2).is).toBe("ready");
  });

  it("K14 a finger on the newest film vouches for the older ones past their latest, one on an older film for none", () => {
    const scene = aKitchen();
    for (let layer = 0; layer < 4; layer += 1) {
      scene.act("flooded", { trayId: "t1", acceptRisk: true });
      scene.forecast("t1", layer, { dryThrough: band(T0 + 10 * HOUR, HOUR) });
    }
    scene.later(12 * HOUR);
    const now = (): string => readiness(scene.kitchen, scene.forecasts, scene.tray(), scene.nowMs).is;
    expect(now()).toBe("check by touch");
    scene.act("touch-test", { trayId: "t1", layer: 0, finding: "firm" });
    expect(now()).toBe("check by touch");
    scene.act("touch-test", { trayId: "t1", layer: 3, finding: "firm" });
    expect(now()).toBe("ready");
  });

  it("K14 a neighbour laid against an older film says nothing of the newest, past its latest and untouched", () => {
    const scene = aKitchen();
    scene.as("ida", "lead");
    const colours = ["sea-glass", "storm", "butter"];
    scene.act("put-design", {
      design: {
        ...MOON,
        id: "three",
        name: "Three",
        layers: colours.map((icingId) => ({ ...MOON.layers[0], name: icingId, icingId })),
      },
    });
    scene.act("add-trays", {
      trays: [{ id: "t9", number: 9, designId: "three", orderId: "walk", count: 4, placeId: "rack-a" }],
    });
    scene.act("flooded", { trayId: "t9" });
    scene.forecast("t9", 0, { skin: band(T0 + 30 * MIN) });
    scene.later(35 * MIN).act("flooded", { trayId: "t9" });
    scene.forecast("t9", 1, { skin: band(T0 + 65 * MIN) });
    const at = (minutes: number): string =>
      readiness(scene.kitchen, scene.forecasts, scene.tray("t9"), T0 + minutes * MIN).is;
    expect([at(60), at(70), at(80)]).toEqual(["coming", "ready", "check by touch"]);
  });

  it("K15 several films that are still wet are listed, and are many", () => {
    const scene = aKitchen();
    for (let layer = 0; layer < 4; layer += 1) {
      scene.act("flooded", { trayId: "t1", acceptRisk: true });
      scene.forecast("t1", layer, { dryThrough: band(T0 + (layer === 3 ? -1 : 10) * HOUR, MIN) });
    }
    expect(refusalOf(scene.ask("pack", { trayId: "t1" })).message).toContain(
      "Layer 1 (sea glass), layer 2 (sea glass) and layer 3 (storm) of tray 18 are likely to dry through",
    );
  });

  it("K15 packing waits until every film is dry through; packed sooner, the risk is named and kept", () => {
    const scene = aKitchen();
    scene.act("flooded", { trayId: "t2" });
    scene.forecast("t2", 0, { dryThrough: band(T0 + 10 * HOUR, HOUR) });
    expect(refusalOf(scene.later(HOUR).ask("pack", { trayId: "t2" }))).toMatchObject({
      reason: "risk",
      message: expect.stringContaining("may smear"),
    });
    scene.act("touch-test", { trayId: "t2", finding: "firm" });
    scene.act("pack", { trayId: "t2" });
    expect(scene.tray("t2").status).toMatchObject({ stage: "packed", by: "wren" });
    expect(scene.tray("t2").films[0]?.dryBy).toMatchObject({ atMs: scene.nowMs });
    expect(refusalOf(scene.ask("flooded", { trayId: "t2" }))).toMatchObject({
      reason: "wrong-stage",
      message: "Tray 7 is packed already.",
    });
  });

  it("K17 taking back marks the deed, undoes what it did, and keeps both in the history", () => {
    const scene = aKitchen();
    const actId = scene.act("flooded", { trayId: "t2" });
    scene.later(15_000).act("take-back", { trayId: "t2", actId });
    expect(scene.tray("t2").status).toEqual({ stage: "queued" });
    expect(scene.tray("t2").films).toEqual([]);
    expect(scene.tray("t2").history).toMatchObject([
      { act: { type: "flooded" }, takenBack: { by: "wren", atMs: T0 + 15_000 } },
    ]);
    expect(refusalOf(scene.ask("take-back", { trayId: "t2", actId })).reason).toBe("taken");
  });

  it("K16 only whoever did it or a lead takes back, and what came after must go first", () => {
    const scene = aKitchen();
    const flooded = scene.act("flooded", { trayId: "t2" });
    scene.later(HOUR).act("touch-test", { trayId: "t2", finding: "skinned" });
    expect(refusalOf(scene.as("sol").ask("take-back", { trayId: "t2", actId: flooded }))).toMatchObject({
      reason: "not-allowed",
      message: expect.stringContaining("Wren"),
    });
    expect(
      refusalOf(scene.as("ida", "lead").ask("take-back", { trayId: "t2", actId: flooded })).message,
    ).toContain("Take back what came after it first: layer 1 (storm) found skinned");
    scene.act("touch-test", { trayId: "t2", finding: "firm" });
    const moved = scene.act("move-tray", { trayId: "t2", placeId: "fan" });
    scene.act("touch-test", { trayId: "t2", finding: "firm" });
    scene.act("take-back", { trayId: "t2", actId: moved });
    expect(standsAt(scene.tray("t2")).placeId).toBe("rack-a");
    expect(scene.tray("t2").films[0]?.findings).toHaveLength(3);
  });

  it("K18 a number is free again once its tray is packed", () => {
    const scene = aKitchen().as("ida", "lead");
    const again = {
      trays: [{ id: "t9", number: 7, designId: "moon", orderId: "walk", count: 4, placeId: "rack-a" }],
    };
    expect(refusalOf(scene.ask("add-trays", again))).toMatchObject({
      reason: "taken",
      message: "Tray 7 is in use: it is free again once packed.",
    });
    scene.act("flooded", { trayId: "t2" });
    scene.act("pack", { trayId: "t2", acceptRisk: true });
    scene.act("add-trays", again);
    expect(trayByNumber(scene.kitchen, 7)?.id).toBe("t9");
  });

  it("K19 a place takes no more trays than it holds", () => {
    const scene = aKitchen();
    scene.act("move-tray", { trayId: "t1", placeId: "fan" });
    scene.act("move-tray", { trayId: "t2", placeId: "fan" });
    expect(refusalOf(scene.ask("move-tray", { trayId: "t3", placeId: "fan" }))).toEqual({
      reason: "no-room",
      message: "Fan rack is full: it holds 2 trays.",
    });
  });

  describe("packing taken back", () => {
    function packed(): { scene: Scene; back: () => ReturnType<Scene["ask"]> } {
      const scene = aKitchen().as("ida", "lead");
      scene.act("move-tray", { trayId: "t2", placeId: "fan" });
      scene.act("flooded", { trayId: "t2" });
      const actId = scene.act("pack", { trayId: "t2", acceptRisk: true });
      return { scene, back: () => scene.ask("take-back", { trayId: "t2", actId }) };
    }
    const plan = { id: "n1", designId: "moon", orderId: "walk", count: 4 };

    it("K16 stands where it stood before, while that is free", () => {
      const { scene, back } = packed();
      expect(back().ok).toBe(true);
      expect(scene.tray("t2").status.stage).toBe("full-dry");
    });

    it("K18 not once another tray bears its number; what else was done to it can be", () => {
      const { scene, back } = packed();
      const told = scene.act("report-problem", { trayId: "t2", problem: "cracked", count: 1 });
      scene.act("add-trays", { trays: [{ ...plan, number: scene.tray("t2").number, placeId: "rack-a" }] });
      expect(refusalOf(back())).toEqual({ reason: "taken", message: "Another tray has the number 7 now." });
      expect(scene.ask("take-back", { trayId: "t2", actId: told }).ok).toBe(true);
    });

    it("K19 nor onto a full place, or one that is gone", () => {
      const { scene, back } = packed();
      const trays = [90, 91].map((number) => ({ ...plan, id: `n${number}`, number, placeId: "fan" }));
      scene.act("add-trays", { trays });
      expect(refusalOf(back()).message).toBe("Fan rack is full: it holds 2 trays.");
      for (const { id } of trays) scene.act("remove-tray", { trayId: id });
      scene.act("remove-place", { placeId: "fan" });
      expect(refusalOf(back()).message).toContain("not here any more");
    });

    it("K16 nor for an order that is gone", () => {
      const { scene, back } = packed();
      // As a log of an earlier version may come to.
      scene.kitchen = { ...scene.kitchen, orders: {} };
      expect(refusalOf(back()).message).toBe("The order of tray 7 is not here any more.");
    });
  });

  it("K20 a tray comes into an oven only by a heat-set, so that its clock runs, and into a cabinet by a move", () => {
    expect(refusalOf(aKitchen().ask("move-tray", { trayId: "t1", placeId: "oven" })).message).toContain(
      "use Heat-set",
    );
    const lead = aKitchen().as("ida", "lead");
    const plan = { id: "n1", number: 90, designId: "moon", orderId: "walk", count: 4 };
    const added = (placeId: string) => refusalOf(lead.ask("add-trays", { trays: [{ ...plan, placeId }] }));
    expect(added("oven").message).toBe("Low oven is an oven: a tray comes there by a heat-set.");
    expect(added("cabinet").message).toBe(
      "Warm cabinet is a warm cabinet: a tray is moved there once it is iced.",
    );
  });

  it("K21 a changed design is for trays not begun; those under way keep theirs until the last is archived", () => {
    const scene = aKitchen().as("ida", "lead");
    scene.act("add-trays", {
      trays: [{ id: "t9", number: 9, designId: "lantern", orderId: "walk", count: 4, placeId: "rack-a" }],
    });
    scene.act("flooded", { trayId: "t1" });
    scene.act("put-design", { design: { ...LANTERN, name: "Lantern, big" } });
    expect(Object.keys(scene.kitchen.designs)).toEqual(["lantern", "moon"]);
    scene.act("put-design", { design: { ...LANTERN, layers: LANTERN.layers.slice(0, 2) } });
    const earlier = scene.tray("t1").designId;
    expect(scene.kitchen.designs[earlier]).toEqual({
      ...LANTERN,
      name: "Lantern, big",
      id: earlier,
      revisionOf: "lantern",
    });
    expect(scene.tray("t9").designId).toBe("lantern");
    expect(scene.kitchen.designs["lantern"]?.layers).toHaveLength(2);
    // The tray goes on by its own: four layers; the earlier version is nobody's to change.
    for (let layer = 1; layer < 4; layer += 1)
      scene.later(HOUR).act("flooded", { trayId: "t1", acceptRisk: true });
    expect(scene.tray("t1").films).toHaveLength(4);
    expect(
      refusalOf(scene.ask("put-design", { design: { ...LANTERN, id: earlier, name: "Mine" } })).message,
    ).toContain("kept for the trays begun by it");
    // Deleted it is not, as long as trays are made by it, or by how it was.
    for (const trayId of ["t9"]) scene.act("remove-tray", { trayId });
    expect(refusalOf(scene.ask("remove-design", { designId: "lantern" })).reason).toBe("in-use");
    scene.later(HOUR).act("pack", { trayId: "t1", acceptRisk: true });
    expect(cookiesByDesign(scene.kitchen, scene.kitchen.orders["walk"]!, [scene.tray("t1")])).toMatchObject({
      lantern: scene.tray("t1").count,
    });
    scene.as("kitchen", "kitchen").later(60 * HOUR);
    scene.act("archive", {});
    expect(scene.kitchen.designs[earlier]).toBeUndefined();
    scene.as("ida", "lead").act("remove-design", { designId: "lantern" });
  });

  it("K60 two designs of one name are refused, whatever its case", () => {
    const scene = aKitchen().as("ida", "lead");
    expect(
      refusalOf(scene.ask("put-design", { design: { ...LANTERN, id: "twin", name: "LANTERN" } })).message,
    ).toBe("There is a design called Lantern already.");
  });

  it("K27 a problem counts no more cookies than the tray holds", () => {
    const scene = aKitchen();
    expect(
      refusalOf(scene.ask("report-problem", { trayId: "t2", problem: "cracked", count: 11 })).message,
    ).toBe("count must be 1 to 10: tray 7 holds 10 cookies.");
    scene.act("report-problem", { trayId: "t2", problem: "cracked", count: 2, note: "dropped" });
    expect(scene.tray("t2").problems).toMatchObject([
      { problem: "cracked", count: 2, note: "dropped", by: "wren" },
    ]);
  });

  it("K24 packed trays are put away two days later with their orders; what they taught stays", () => {
    const scene = aKitchen();
    for (const trayId of ["t2", "t3"]) {
      scene.act("flooded", { trayId });
      scene.later(9 * HOUR).act("touch-test", { trayId, finding: "firm" });
      scene.act("pack", { trayId });
    }
    const { by, role } = scene;
    scene.by = "kitchen";
    scene.role = "kitchen";
    scene.later(47 * HOUR - 9 * HOUR).act("archive", {});
    expect(Object.keys(scene.kitchen.trays)).toHaveLength(3);
    scene.later(11 * HOUR).act("archive", {});
    expect(Object.keys(scene.kitchen.trays)).toEqual(["t1"]);
    expect(scene.kitchen.evidence.filter(({ quantity }) => quantity === "dryThrough")).toHaveLength(2);
    // Of 32 cookies twelve are on a tray; ten and ten were packed, and are neither to be iced nor to be put on trays again.
    expect(scene.kitchen.orders["walk"]).toMatchObject({ cookies: 32, archived: { moon: 20 } });
    expect(openOrders(scene.kitchen, T0)).toMatchObject([{ order: { id: "walk" }, offTrays: 0 }]);
    expect(orderStrip(scene.kitchen, scene.forecasts, scene.nowMs)[0]).toMatchObject({ done: 20 / 32 });
    Object.assign(scene, { by, role });
  });

  it.each([
    ["its pick-up has passed", 32, 30, false],
    ["it wants more for a pick-up to come", 32, 90, true],
    ["its pick-up is to come, though all its cookies were packed", 20, 90, true],
  ])("K22 an order goes with its last tray or stays: %s", (_, cookies, pickUpH, stays) => {
    const { scene, order } = packedOrder(cookies, pickUpH);
    asKitchen(scene.later(49 * HOUR)).act("archive", {});
    expect(scene.kitchen.trays).toEqual({});
    expect(scene.kitchen.orders["walk"] !== undefined).toBe(stays);
    if (!stays) return;
    // Changed, it still knows what was packed.
    scene.as("ida", "lead").act("put-order", { order: { ...order, cookies: 40 }, isChange: true });
    expect(scene.kitchen.orders["walk"]).toMatchObject({ cookies: 40, archived: { moon: 20 } });
    // Its last tray is away: it goes by itself once its pick-up has passed, and that is written once.
    asKitchen(scene).ask("archive", {});
    expect(scene.events.at(-1)?.type).toBe("order-put");
    scene.later(41 * HOUR).act("archive", {});
    expect(scene.events.at(-1)).toMatchObject({ type: "trays-put-away", trayIds: [], evidence: [] });
    expect(scene.kitchen.orders["walk"]).toBeUndefined();
    expect(scene.ask("archive", {})).toEqual({ ok: true, value: [] });
  });

  it("K22 an order that was never on a tray stays, though its pick-up has passed", () => {
    const { scene } = packedOrder(20, 30);
    scene.as("ida", "lead").act("put-order", {
      order: { id: "club", name: "Puffin Club", pickUpAtMs: T0 + 20 * HOUR, cookies: 12 },
    });
    asKitchen(scene.later(49 * HOUR)).act("archive", {});
    expect(Object.keys(scene.kitchen.orders)).toEqual(["club"]);
    expect(scene.ask("archive", {})).toEqual({ ok: true, value: [] });
  });

  it("K23 a change of an order that is gone does not bring it back as if nothing had been iced", () => {
    const { scene, order } = packedOrder(20, 30);
    asKitchen(scene.later(49 * HOUR)).act("archive", {});
    scene.as("ida", "lead");
    const change = { order: { ...order, pickUpAtMs: scene.nowMs + HOUR }, isChange: true };
    expect(refusalOf(scene.ask("put-order", change))).toEqual({
      reason: "unknown",
      message: "That order is not here any more: it was packed and archived, or cancelled.",
    });
    expect(scene.ask("put-order", { order: change.order }).ok).toBe(true);
  });
});

/** The only order, of two trays of ten Moons that are packed. */
function packedOrder(cookies: number, pickUpH: number) {
  const scene = aKitchen().as("ida", "lead");
  scene.act("remove-tray", { trayId: "t1" });
  const order = { id: "walk", name: "Lantern Walk", pickUpAtMs: T0 + pickUpH * HOUR, cookies };
  scene.act("put-order", { order });
  for (const trayId of ["t2", "t3"]) {
    scene.act("flooded", { trayId });
    scene.act("pack", { trayId, acceptRisk: true });
  }
  return { scene, order };
}

const asKitchen = (scene: Scene): Scene => Object.assign(scene, { by: "kitchen", role: "kitchen" });
