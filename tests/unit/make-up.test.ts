import { describe, expect, it } from "vitest";
import { learn } from "#shared/drying/uncertainty/learning.ts";
import { traysOf } from "#shared/kitchen/model/lookups.ts";
import { makeUpFor, type MakeUpStart, makeUpStartSteps } from "#shared/kitchen/orders/make-up.ts";
import { planSteps } from "#shared/kitchen/plan/plan.ts";
import { questionSteps } from "#shared/kitchen/plan/question.ts";
import { paceOf } from "#shared/kitchen/plan/pace.ts";
import { plannedFilmOf, spansAt } from "#shared/kitchen/forecast/films.ts";
import { openSinceMs } from "#shared/kitchen/model/opening-hours.ts";
import { atOnce } from "#shared/steps.ts";
import { DAY_AND_NIGHT } from "../support/furnishings.ts";
import { aKitchen, HOUR, MIN, type Scene } from "../support/scene.ts";

const LEARNED = learn([]);

/** Moons t2 and t3 of ten each are the order's; air read; three ice. */
function moons(cookies = 20): Scene {
  const scene = aKitchen().as("ida", "lead");
  scene.act("remove-tray", { trayId: "t1" });
  scene.act("put-order", { order: { ...scene.kitchen.orders["walk"]!, cookies } });
  scene.act("enter-reading", { reading: { placeId: "rack-a", tempC: 22, rhPct: 45, source: "typed" } });
  for (const trayId of ["t2", "t3"]) scene.act("flooded", { trayId });
  return scene;
}
const proposal = (scene: Scene) => makeUpFor(scene.kitchen, scene.kitchen.orders["walk"]!);

function start(scene: Scene): MakeUpStart {
  const order = scene.kitchen.orders["walk"]!;
  return atOnce(makeUpStartSteps(scene.kitchen, LEARNED, order, proposal(scene)!, scene.nowMs));
}
const startByMs = (scene: Scene): number => {
  const found = start(scene);
  if ("never" in found) throw new Error("never dries");
  return found.startByMs;
};
const lose = (scene: Scene, trayId: string, count: number): string =>
  scene.act("report-problem", { trayId, problem: "cracked", count });

describe("K72 what an order lacks is proposed as trays like its own, with the latest moment at which to begin them", () => {
  it("nothing while it has all its cookies on trays, or none to go by", () => {
    expect(proposal(moons())).toBeUndefined();
    const scene = moons();
    scene.act("put-order", {
      order: { id: "new", name: "New", cookies: 5, pickUpAtMs: scene.nowMs + 9 * HOUR },
    });
    expect(makeUpFor(scene.kitchen, scene.kitchen.orders["new"]!)).toBeUndefined();
  });

  it("as many trays as its own hold, of the design that lost most, where its trays stand", () => {
    const scene = moons(33);
    lose(scene, "t3", 4);
    expect(proposal(scene)).toEqual({
      cookies: 17,
      designId: "moon",
      placeId: "rack-a",
      perTray: 10,
      counts: [10, 7],
    });
  });

  it("of a design that was changed meanwhile the new version is made up", () => {
    const scene = moons();
    lose(scene, "t3", 4);
    scene.act("put-design", { design: { ...scene.kitchen.designs["moon"]!, sizeMm: 70 } });
    expect(scene.tray("t3").designId).not.toBe("moon");
    expect(proposal(scene)).toMatchObject({ designId: "moon", cookies: 4 });
  });

  it("its latest start is what the plan says of such a tray once it is added", () => {
    const scene = moons();
    lose(scene, "t3", 4);
    const said = startByMs(scene);
    const { counts, designId, placeId } = proposal(scene)!;
    scene.act("add-trays", {
      trays: [{ id: "m", number: 90, designId, placeId, orderId: "walk", count: counts[0] }],
    });
    // The tray's own act, with the same air and pace.
    const { kitchen, nowMs } = scene;
    const design = kitchen.designs[designId]!;
    const spans = spansAt(kitchen, placeId, plannedFilmOf(kitchen, design, 0), LEARNED, nowMs);
    const films = Object.fromEntries(
      traysOf(kitchen, "walk").flatMap(({ id, films }) =>
        films.map(({ layer }) => [`${id}/${layer}`, { ...done(nowMs), basis: "measured" as const }]),
      ),
    );
    const input = { kitchen, films, spansOf: () => spans, pace: paceOf(kitchen), nowMs, learned: LEARNED };
    const plan = atOnce(
      (function* () {
        return yield* planSteps(yield* questionSteps(input));
      })(),
    );
    expect(said).toBe(plan.acts.find(({ trayId, act }) => trayId === "m" && act === "flood")?.startByMs);
    expect(said).toBeGreaterThan(scene.nowMs);
    expect(said).toBeLessThan(kitchen.orders["walk"]!.pickUpAtMs - 4 * HOUR);
  });

  it("damper air, a nearer pick-up and more cookies each make it sooner; it is within opening hours", () => {
    const scene = moons(26);
    const usual = startByMs(scene);
    expect(openSinceMs(scene.kitchen.settings, usual)).toBeDefined();
    const damp = moons(26);
    damp.act("enter-reading", { reading: { placeId: "rack-a", tempC: 22, rhPct: 65, source: "typed" } });
    expect(startByMs(damp)).toBeLessThan(usual);
    const order = scene.kitchen.orders["walk"]!;
    scene.act("put-order", { order: { ...order, pickUpAtMs: order.pickUpAtMs - 3 * HOUR } });
    expect(startByMs(scene)).toBeLessThan(usual);
    expect(startByMs(moons(60))).toBeLessThan(startByMs(moons(22)));
  });

  it("counts on the hands there are: a second round is due earlier by the work of the one after it", () => {
    const alone = (cookies: number): Scene => {
      const scene = moons(cookies);
      scene.act("set-kitchen", {
        settings: { hands: 1, opening: DAY_AND_NIGHT },
      });
      return scene;
    };
    const [one, two] = [startByMs(alone(30)), startByMs(alone(40))];
    // Ten cookies take ten minutes to lay; then there is their packing.
    expect(one - two).toBeGreaterThanOrEqual(10 * MIN);
    expect(one - two).toBeLessThan(30 * MIN);
    const both = alone(40);
    both.act("set-kitchen", { settings: { hands: 2 } });
    expect(startByMs(both)).toBeGreaterThan(two);
  });

  it("too late is a moment gone by, and icing that never dries has its reason", () => {
    const scene = moons(26);
    const order = scene.kitchen.orders["walk"]!;
    scene.act("put-order", { order: { ...order, pickUpAtMs: scene.nowMs + HOUR } });
    expect(startByMs(scene)).toBeLessThan(scene.nowMs);
    const damp = moons(26);
    damp.act("enter-reading", { reading: { placeId: "rack-a", tempC: 22, rhPct: 97, source: "typed" } });
    expect(start(damp)).toMatchObject({ never: { code: expect.any(String) } });
  });
});

const done = (atMs: number) => {
  const band = { earliestMs: atMs, likelyMs: atMs, latestMs: atMs };
  return { skin: band, dryThrough: band };
};
