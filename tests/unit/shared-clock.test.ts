import { expect, test } from "vitest";
import { sharedClock } from "#server/postgres/shared-clock.ts";

test("S2 the answer that was under way least tells the time", () => {
  const clock = sharedClock();
  expect(clock.at(0)).toBeUndefined();
  // It was at 1000 when ours was at 0: once asked slowly, one way longer than the other, then fast.
  clock.measured(0, 1080, 100);
  expect(clock.at(100)).toBe(1130);
  clock.measured(1000, 2001, 1002);
  expect(clock.at(1002)).toBe(2002);
  clock.measured(2000, 3090, 2100);
  expect(clock.at(3000)).toBe(4000);
});

test("S2 a clock that was set, or is another's, is followed with the first answer", () => {
  const clock = sharedClock();
  clock.measured(0, 1001, 2);
  clock.measured(1000, 62_050, 1100);
  expect(clock.at(1100)).toBe(62_100);
  clock.measured(2000, 3050, 2100);
  expect(clock.at(2100)).toBe(3100);
});

test("S2 a minute later only what was measured since counts", () => {
  const clock = sharedClock();
  clock.measured(0, 1001, 2);
  clock.measured(60_500, 61_520, 60_520);
  expect(clock.at(60_520)).toBe(61_530);
});
