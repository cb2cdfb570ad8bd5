import { expect, it } from "vitest";
import type { Spans } from "#shared/kitchen/forecast/films.ts";
import { beforeClosing } from "#shared/kitchen/plan/before-closing.ts";
import { aKitchen, band, HOUR, MIN, type Scene, T0 } from "../support/scene.ts";
import { surely } from "../support/plan-of.ts";

/** 18:10 in Lisbon, where the kitchen closes at 20:00 and opens at 06:00; t2 and t3, Moons, not begun. */
function evening(dryMin: number): Scene {
  const scene = aKitchen().as("ida", "lead");
  scene.act("remove-tray", { trayId: "t1" });
  scene.later(9 * HOUR + 10 * MIN);
  const spans: Spans = { skin: surely(30), dryThrough: surely(dryMin) };
  const finish = band(T0 + 30 * HOUR);
  scene.forecasts = {
    ...scene.forecasts,
    trays: { t2: { finish, next: { layer: 0, ...spans } }, t3: { finish, next: { layer: 0, ...spans } } },
  };
  return scene;
}
const list = ({ kitchen, forecasts, nowMs }: Scene) => beforeClosing(kitchen, forecasts, nowMs);

it("K53 says from two hours before closing on, and only while the kitchen is open", () => {
  const scene = evening(600);
  expect(list(scene)).toMatchObject({ closesMs: T0 + 11 * HOUR, opensMs: T0 + 21 * HOUR });
  expect(list(scene.later(-11 * MIN))).toBeUndefined();
  expect(list(scene.later(3 * HOUR))).toBeUndefined();
});

it("K53 names what is to be laid by when to be dry at opening, trays alike in one line", () => {
  // Dry in eleven hours: 06:00 less eleven hours and ten minutes of laying is 18:50.
  const [line] = list(evening(660))!.floodBy;
  expect(line).toMatchObject({ trays: [7, 8], layer: 0 });
  expect(line?.byMs).toBeCloseTo(T0 + 21 * HOUR - 660 * MIN - 10 * MIN, -3);
  // Dry in two hours it is enough to have laid it by closing.
  expect(list(evening(120))?.floodBy[0]?.byMs).toBeCloseTo(T0 + 11 * HOUR - 10 * MIN, -3);
  // Dry in twelve hours it is too late.
  expect(list(evening(720))).toMatchObject({ floodBy: [], isTooLateForSome: true });
});

it("K58 counts on the hands there are: of two trays for one person the first is begun a tray's laying sooner", () => {
  const scene = evening(660);
  const byMs = (): number => Math.round(list(scene)!.floodBy[0]!.byMs / MIN) * MIN;
  const alone = byMs();
  scene.act("set-kitchen", { settings: { hands: 1 } });
  expect(list(scene)!.floodBy).toMatchObject([{ trays: [7, 8] }]);
  expect(byMs()).toBe(alone - 10 * MIN);
  scene.act("set-kitchen", { settings: { hands: null } });
  // Where all go home at 18:30 the last ten minutes begin at 18:20.
  const day = { fromMin: 9 * 60, toMin: 18 * 60 + 30 };
  for (const personId of Object.keys(scene.kitchen.people))
    scene.act("set-hours", { personId, hours: Array.from({ length: 7 }, () => day) });
  expect(byMs()).toBe(T0 + 9 * HOUR + 20 * MIN);
  expect(list(scene.later(11 * MIN))).toMatchObject({ floodBy: [], isTooLateForSome: true });
});

it("K53 that nothing laid now would be dry is said only where there is something to lay", () => {
  const scene = evening(720);
  expect(list(scene.later(105 * MIN))).toMatchObject({ floodBy: [], isTooLateForSome: false });
  scene.later(-105 * MIN);
  for (const trayId of ["t2", "t3"]) scene.act("remove-tray", { trayId });
  expect(list(scene)).toMatchObject({ floodBy: [], isTooLateForSome: false });
});

it("K53 a section that sinks unless it is heat-set now may not stand until opening", () => {
  const scene = evening(600);
  const sink = { risk: "most", setWithinMin: 9, floodBeforeSetting: 3 } as const;
  const next = { layer: 0, skin: surely(30), dryThrough: surely(600), sink };
  scene.forecasts = { ...scene.forecasts, trays: { t2: { finish: band(T0 + 30 * HOUR), next } } };
  scene.act("flooded", { trayId: "t2" });
  expect(list(scene)?.mayStand).toEqual([]);
  expect(list(scene.later(HOUR))?.mayStand).toEqual([7]);
});

it("K53 what dries on may stand overnight, unless its next layer goes on wet icing", () => {
  const scene = aKitchen().later(9 * HOUR + 10 * MIN);
  scene.act("flooded", { trayId: "t2" });
  scene.act("flooded", { trayId: "t1" });
  scene.forecast("t1", 0, { skin: band(scene.nowMs + HOUR), dryThrough: band(scene.nowMs + 9 * HOUR) });
  expect(list(scene)).toMatchObject({ finishFirst: [18], mayStand: [7] });
  scene.later(70 * MIN);
  expect(list(scene)).toMatchObject({ finishFirst: [], mayStand: [7, 18] });
});
