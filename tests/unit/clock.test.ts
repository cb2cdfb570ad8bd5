import { expect, it } from "vitest";
import { DRIFT, better, doubtMs, kitchenTimeMs, sampleOf } from "#shared/client/sync/clock.ts";

// RFC 5905 §8, on-wire protocol: θ = ½[(T2−T1)+(T3−T4)], δ = (T4−T1)−(T3−T2).

it("C3 equal ways there and back give the offset exactly", () => {
  // The server is 5000 ms ahead; 30 ms there, 4 ms in the server, 30 ms back.
  const sample = sampleOf({ t1: 1000, t2: 6030, t3: 6034, t4: 1064 });
  expect(sample).toEqual({ offsetMs: 5000, delayMs: 60, takenAtMs: 1064 });
});

it("C3 a server behind gives a negative offset", () => {
  expect(sampleOf({ t1: 10_000, t2: 7_010, t3: 7_010, t4: 10_020 }).offsetMs).toBe(-3000);
});

it("C3 unequal ways err by no more than half the delay", () => {
  // True offset 2000 ms; the way there takes 100 ms, the way back 10 ms.
  const sample = sampleOf({ t1: 0, t2: 2100, t3: 2100, t4: 110 });
  expect(sample.delayMs).toBe(110);
  expect(Math.abs(sample.offsetMs - 2000)).toBeLessThanOrEqual(sample.delayMs / 2);
});

it("C3 of one asking, the sample with the least delay is kept", () => {
  const quick = { offsetMs: 10, delayMs: 8, takenAtMs: 0 };
  const slow = { offsetMs: 90, delayMs: 80, takenAtMs: 10 };
  expect(better(quick, slow, 10)).toBe(quick);
  expect(better(slow, quick, 10)).toBe(quick);
  expect(better(undefined, slow, 10)).toBe(slow);
});

it("C3 an old sample is worth less by the drift since", () => {
  const old = { offsetMs: 10, delayMs: 20, takenAtMs: 0 };
  const tenMinutes = 600_000;
  // 78 ppm over 10 min is 46.8 ms (the median drift of a host, as reported for internet hosts).
  expect(doubtMs(old, tenMinutes)).toBeCloseTo(10 + tenMinutes * DRIFT, 9);
  expect(doubtMs(old, tenMinutes)).toBeCloseTo(56.8, 6);
  const fresh = { offsetMs: 60, delayMs: 100, takenAtMs: tenMinutes };
  expect(better(old, fresh, tenMinutes)).toBe(fresh);
  expect(better(old, { ...fresh, delayMs: 120 }, tenMinutes)).toBe(old);
});

it("C3 kitchen time runs at the kitchen's speed", () => {
  const fact = { speed: 60, realMs: 1_000_000, kitchenMs: 9_000_000 };
  expect(kitchenTimeMs(fact, 1_000_000)).toBe(9_000_000);
  expect(kitchenTimeMs(fact, 1_001_000)).toBe(9_060_000);
  expect(kitchenTimeMs({ ...fact, speed: 1, kitchenMs: 1_000_000 }, 1_000_250)).toBe(1_000_250);
});
