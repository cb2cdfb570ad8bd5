import { PLAN_IN_TURN } from "#tests/support/plan-in-turn.ts";
import { beforeAll, describe, expect, test } from "vitest";
import { createForecaster } from "#server/forecast/forecaster.ts";
import { firstSeenMs } from "#server/practice/house.ts";
import { rehearsedPractice, type Rehearsal } from "#server/practice/rehearsal.ts";
import type { DaySheet } from "#shared/kitchen/day-sheet/sheet.ts";
import { daySheet } from "#shared/kitchen/day-sheet/day-sheet.ts";

describe("the air of a practice kitchen when people first see it", () => {
  let rehearsal: Rehearsal;
  let sheet: DaySheet | undefined;

  beforeAll(async () => {
    ({ rehearsal } = await rehearsedPractice({ seed: 9, opensMs: firstSeenMs(Date.UTC(2026, 4, 8)) }));
    const { kitchen, nowMs } = rehearsal;
    const forecaster = createForecaster({
      kitchen,
      nowMs,
      defer: setImmediate,
      monotonicMs: () => performance.now(),
      publish: () => undefined,
      planner: PLAN_IN_TURN,
    });
    await forecaster.idle();
    sheet = daySheet(kitchen(), forecaster.current(), forecaster.learned(), nowMs());
  }, 60_000);

  test("D24 is beside yesterday's and the usual: it has been read for a week, and every day its own way", () => {
    expect(sheet?.missing).toEqual([]);
    expect(sheet?.ahead).toBe("daily swing");
    const levels = [sheet?.today, sheet?.yesterday, sheet?.usual].map((air) => air?.rhPct);
    expect(new Set(levels).size).toBe(3);
    for (const row of sheet?.rows ?? []) expect(row.usual?.skinRatio).toBeGreaterThan(0.3);
  });

  test("no hygrometer was ever thought silent", () => {
    const raised = rehearsal
      .decided()
      .flatMap(({ events }) =>
        events.flatMap((event) => (event.type === "alert-raised" ? event.alert.kind : [])),
      );
    expect(raised).not.toContain("sensor-silent");
    expect(raised.length).toBeGreaterThan(0);
  });
});
