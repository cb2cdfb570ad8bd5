import { describe, expect, it } from "vitest";
import { handsSince } from "#shared/kitchen/day-sheet/hands.ts";
import { problemsSince } from "#shared/kitchen/day-sheet/problems.ts";
import type { TrayId } from "#shared/ids.ts";
import { dayStartMs } from "#shared/kitchen/model/calendar.ts";
import { aKitchen, band, HOUR, id, MIN, type Scene, T0 } from "../support/scene.ts";

const report = (scene: Scene, trayId: string, problem: string, count = 1): void =>
  void scene.act("report-problem", { trayId, problem, count });
const read = (scene: Scene, rhPct: number): void =>
  void scene.act("enter-reading", { reading: { placeId: "rack-a", tempC: 22, rhPct, source: "typed" } });
const problems = (scene: Scene) => problemsSince(scene.kitchen, T0);

describe("K74 the day's problems stand by kind with likely causes, each with the trays it could explain, and trays with none", () => {
  it("nothing reported, nothing told; earlier reports are not today's", () => {
    const scene = aKitchen();
    scene.act("flooded", { trayId: "t2" });
    report(scene, "t2", "broken", 2);
    expect(problemsSince(scene.kitchen, T0 + 1)).toEqual([]);
    expect(problems(scene)).toEqual([
      { problem: "broken", cookies: 2, trays: [7], causes: [], unexplained: [7] },
    ]);
  });

  it("a kind's cookies are summed, the kind that took most first", () => {
    const scene = aKitchen();
    for (const trayId of ["t2", "t3"]) scene.act("flooded", { trayId });
    report(scene, "t2", "cracked", 1);
    report(scene, "t2", "broken", 1);
    report(scene, "t2", "broken", 2);
    report(scene, "t3", "broken", 4);
    expect(problems(scene)).toMatchObject([
      { problem: "broken", cookies: 7, trays: [7, 8] },
      { problem: "cracked", cookies: 1, trays: [7] },
    ]);
  });

  it.each([
    [59, []],
    [60, [{ code: "damp-air", trays: [7], rhPct: 60 }]],
  ])("air read at %i %% RH while a film that bled was fresh", (rhPct, causes) => {
    const scene = aKitchen();
    read(scene, rhPct);
    scene.later(MIN).act("flooded", { trayId: "t2" });
    scene.later(30 * MIN);
    report(scene, "t2", "bled");
    expect(problems(scene)[0]?.causes).toEqual(causes);
  });

  it("air that turned damp long after it was laid is no cause", () => {
    const scene = aKitchen();
    read(scene, 45);
    scene.later(MIN).act("flooded", { trayId: "t2" });
    scene.later(5 * HOUR);
    read(scene, 80);
    scene.later(MIN);
    report(scene, "t2", "bled");
    expect(problems(scene)[0]).toMatchObject({ causes: [], unexplained: [7] });
  });

  it("laid before its wait was over", () => {
    const scene = aKitchen();
    for (let layer = 0; layer < 2; layer += 1) scene.later(MIN).act("flooded", { trayId: "t1" });
    scene.forecast("t1", 1, { skin: band(scene.nowMs + 60 * MIN) });
    scene.later(10 * MIN).act("flooded", { trayId: "t1", acceptRisk: true });
    report(scene, "t1", "bled", 3);
    expect(problems(scene)[0]).toMatchObject({
      problem: "bled",
      causes: [{ code: "laid-early", trays: [18] }],
      unexplained: [],
    });
    // It explains no sunk middle.
    report(scene, "t1", "swollen");
    expect(problems(scene)[1]).toMatchObject({ problem: "swollen", causes: [], unexplained: [18] });
  });

  it("a section that may sink, not heat-set in time", () => {
    const scene = aKitchen();
    scene.act("flooded", { trayId: "t2" });
    const { films, ...tray } = scene.tray("t2");
    const setWithinMin = 6;
    scene.kitchen = {
      ...scene.kitchen,
      trays: {
        ...scene.kitchen.trays,
        t2: { ...tray, films: films.map((film) => ({ ...film, setWithinMin })) },
      },
    };
    const sunkAfter = (min: number): Scene => {
      const later = Object.assign(aKitchen(), { kitchen: scene.kitchen, nowMs: T0 + min * MIN });
      later.kitchen = {
        ...scene.kitchen,
        trays: {
          ...scene.kitchen.trays,
          t2: {
            ...scene.tray("t2"),
            problems: [{ problem: "sunk", count: 2, atMs: later.nowMs, by: "kitchen", actId: "x" }],
          },
        },
      };
      return later;
    };
    expect(problems(sunkAfter(20))[0]?.causes).toEqual([{ code: "not-set-in-time", trays: [7] }]);
    // Reported while there was still time, it was not for want of heat.
    expect(problems(sunkAfter(5))[0]?.causes).toEqual([]);
  });

  it("heat that swelled it", () => {
    const scene = aKitchen();
    scene.act("flooded", { trayId: "t2" });
    scene.later(MIN).act("start-heat-set", { trayId: "t2", toolId: "oven-1" });
    scene.later(3 * MIN).act("end-heat-set", { trayId: "t2", result: "swollen or cracked", spoiled: 2 });
    report(scene, "t2", "cracked");
    expect(problems(scene)).toMatchObject([
      { problem: "swollen", cookies: 2, causes: [{ code: "overheated", trays: [7] }] },
      { problem: "cracked", cookies: 1, causes: [{ code: "overheated", trays: [7] }] },
    ]);
  });

  it("a batch with the problem on a third of its trays and two of them, or found wrong; none that was not recorded", () => {
    const scene = aKitchen();
    const { consistency, icingId } = scene.kitchen.designs["moon"]!.layers[0]!;
    const batch = { icingId, consistency, mixedAtMs: scene.nowMs, useByAtMs: scene.nowMs + 8 * HOUR };
    scene.act("flooded", { trayId: "t3" });
    scene.act("record-batch", { batch: { ...batch, id: "b1" } });
    scene.later(MIN).act("flooded", { trayId: "t2" });
    report(scene, "t2", "cracked");
    report(scene, "t3", "cracked");
    expect(problems(scene)[0]).toMatchObject({ causes: [], unexplained: [7, 8] });
    scene.act("judge-batch", { batchId: "b1", wrong: "too stiff" });
    expect(problems(scene)[0]).toMatchObject({
      causes: [{ code: "batch", batchId: "b1", isWrong: true, trays: [7] }],
      unexplained: [8],
    });
    const both = aKitchen();
    both.act("record-batch", { batch: { ...batch, id: "b1" } });
    for (const trayId of ["t2", "t3"]) {
      both.act("flooded", { trayId });
      report(both, trayId, "smeared");
    }
    const suspected = [{ code: "batch", batchId: "b1", isWrong: false, trays: [7, 8] }];
    expect(problems(both)[0]?.causes).toEqual(suspected);
    // Two of six are a third; two of seven are no more than chance may bring.
    const more = (count: number) =>
      Array.from({ length: count }, (_, k) => ({
        ...both.tray("t2"),
        id: id<TrayId>(`m${k}`),
        problems: [],
      }));
    const among = (count: number) =>
      problemsSince(
        {
          ...both.kitchen,
          trays: { ...both.kitchen.trays, ...Object.fromEntries(more(count).map((tray) => [tray.id, tray])) },
        },
        T0,
      )[0]?.causes;
    expect(among(4)).toEqual(suspected);
    expect(among(5)).toEqual([]);
  });
});

describe("K75 the day sheet tells how long hands took for a layer, by consistency, of the layers that were timed", () => {
  it("the middle, the least and the most of a tray's minutes", () => {
    const scene = aKitchen();
    for (const [trayId, min] of [
      ["t2", 8],
      ["t3", 12],
    ] as const) {
      scene.act("start-flooding", { trayId });
      scene.later(min * MIN).act("flooded", { trayId });
    }
    scene.act("flooded", { trayId: "t1" });
    expect(handsSince(scene.kitchen, T0)).toEqual([
      { consistency: "top-coat", trays: 2, middleMin: 10, leastMin: 8, mostMin: 12, cookieMin: 1 },
    ]);
    expect(handsSince(scene.kitchen, scene.nowMs + 1)).toEqual([]);
  });

  it("the kitchen's day begins at its own midnight, on the day its clocks change too", () => {
    // 29 March 2026: Lisbon's clocks go from 01:00 to 02:00.
    const noonMs = Date.UTC(2026, 2, 29, 11);
    expect(new Date(dayStartMs(noonMs, "Europe/Lisbon")).toISOString()).toBe("2026-03-29T00:00:00.000Z");
    expect(new Date(dayStartMs(T0, "Europe/Lisbon")).toISOString()).toBe("2026-05-03T23:00:00.000Z");
    expect(new Date(dayStartMs(T0, "America/Los_Angeles")).toISOString()).toBe("2026-05-04T07:00:00.000Z");
  });
});
