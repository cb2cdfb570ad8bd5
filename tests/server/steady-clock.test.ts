import { inLog } from "#server/words.ts";
import fc from "fast-check";
import { expect, it } from "vitest";
import { openKitchenDb } from "#server/log/kitchen-db.ts";
import { steadyClock } from "#server/live/steady-clock.ts";
import { HOT_AIR } from "../support/furnishings.ts";
import { startServer } from "../support/server-app.ts";
import { setUp } from "../support/server-kitchen.ts";
import { handDriven, START_MS } from "../support/server-timers.ts";

const HOUR = 3_600_000;

/** A machine whose two clocks are moved by hand. */
function aMachine(startMs = START_MS) {
  let [wall, monotonic, isOn] = [startMs, 5000, false];
  const reports: string[] = [];
  const clock = steadyClock(
    () => wall,
    () => monotonic,
    (say) => void reports.push(inLog(say)),
  );
  return {
    clock,
    reports,
    heat: (next: boolean) => void (isOn = next),
    isNeeded: () => isOn,
    pass: (ms: number) => {
      wall += ms;
      monotonic += ms;
    },
    set: (byMs: number) => void (wall += byMs),
  };
}

it("C3 it is the machine's own time while that goes forward", () => {
  const { clock, pass, set, reports, isNeeded } = aMachine();
  clock.hold(0, isNeeded);
  expect(clock.realMs()).toBe(START_MS);
  pass(1000);
  expect(clock.realMs()).toBe(START_MS + 1000);
  set(59_000);
  expect(clock.realMs()).toBe(START_MS + 60_000);
  expect(reports).toEqual([]);
  expect(clock.problem()).toBeUndefined();
});

it("A28 set back, it goes on at half its pace until the machine has caught up, and says so once", () => {
  const { clock, pass, set, reports, isNeeded } = aMachine();
  clock.hold(0, isNeeded);
  set(-HOUR);
  expect(clock.realMs()).toBe(START_MS);
  pass(HOUR);
  expect(clock.realMs()).toBe(START_MS + HOUR / 2);
  expect(clock.problem()).toEqual({ code: "clock-behind", byS: 1800 });
  pass(HOUR);
  expect(clock.realMs()).toBe(START_MS + HOUR);
  expect(clock.problem()).toBeUndefined();
  pass(1000);
  expect(clock.realMs()).toBe(START_MS + HOUR + 1000);
  expect(reports).toHaveLength(1);
  expect(reports[0]).toContain("3600 s behind");
});

it("A28 under heat it goes on at full pace, whatever the machine's clock is set to", () => {
  const { clock, pass, set, heat, reports, isNeeded } = aMachine();
  clock.hold(0, isNeeded);
  heat(true);
  set(-HOUR);
  pass(60_000);
  expect(clock.realMs()).toBe(START_MS + 60_000);
  pass(60_000);
  expect(clock.realMs()).toBe(START_MS + 120_000);
  expect(reports).toHaveLength(1);
  set(2 * HOUR);
  expect(clock.realMs()).toBe(START_MS + 120_000 + HOUR);
});

it("A28 a step ahead of over a minute is followed at once, reported, and said for a quarter of an hour", () => {
  const { clock, pass, set, reports } = aMachine();
  clock.realMs();
  set(2 * HOUR);
  expect(clock.realMs()).toBe(START_MS + 2 * HOUR);
  expect(clock.problem()).toEqual({ code: "clock-jumped", byS: 7200 });
  expect(reports[0]).toContain("jumped ahead by 7200 s");
  pass(16 * 60_000);
  expect(clock.problem()).toBeUndefined();
});

it("A28 it opens no earlier than the log's latest moment", () => {
  const { clock, isNeeded } = aMachine();
  clock.hold(START_MS + HOUR, isNeeded);
  expect(clock.realMs()).toBe(START_MS + HOUR);
});

it("A28 it never runs backwards, however the machine's clock is set", () => {
  fc.assert(
    fc.property(
      fc.array(
        fc.record({
          passMs: fc.nat(100_000),
          setMs: fc.integer({ min: -HOUR, max: HOUR }),
          isHeat: fc.boolean(),
        }),
      ),
      (steps) => {
        const { clock, pass, set, heat, isNeeded } = aMachine();
        clock.hold(0, isNeeded);
        let before = clock.realMs();
        for (const { passMs, setMs, isHeat } of steps) {
          heat(isHeat);
          set(setMs);
          pass(passMs);
          const now = clock.realMs();
          expect(now).toBeGreaterThanOrEqual(before);
          before = now;
        }
      },
    ),
  );
});

it("A1 A13 a server back from a power cut with its clock an hour behind keeps a heat-set's clock, alarm and end", async () => {
  const db = openKitchenDb(":memory:");
  const before = await startServer({ db });
  const { token } = await before.join("Ida");
  await setUp(before, token, 3);
  for (const command of [
    { commandId: "tool", type: "put-tool", tool: HOT_AIR },
    { commandId: "flooded", type: "flooded", trayId: "t1" },
    { commandId: "heat", type: "start-heat-set", trayId: "t1", toolId: HOT_AIR.id },
  ])
    expect((await before.command(token, command)).status).toBe(200);
  await before.close();

  const hands = handDriven(START_MS - HOUR);
  const steady = steadyClock(hands.clock.realMs, hands.clock.realMs, () => undefined);
  const clock = { ...hands.clock, realMs: steady.realMs, nowMs: steady.realMs };
  const after = await startServer({
    db,
    hands: { ...hands, clock },
    holdClock: steady.hold,
    monotonicMs: hands.clock.realMs,
  });
  const alerts = () => Object.values(after.app.service.kitchen().alerts).map(({ kind }) => kind);
  const { status } = after.app.service.kitchen().trays["t1"] ?? {};
  if (status?.stage !== "heat-set") throw new Error("no heat-set");
  const stopMs = 1000 * status.heat.limits.stopByS;
  for (let ms = 0; ms < stopMs + 1000; ms += 250) {
    after.advance(250);
    await new Promise(setImmediate);
    // Whose heat it is has 10 s to come back, by a clock that no one sets.
    if (ms < 9000) expect(alerts()).not.toContain("heat-unwatched");
  }
  expect(alerts()).toContain("heat-running-long");
  const ended = await after.command(token, {
    commandId: "end",
    type: "end-heat-set",
    trayId: "t1",
    result: "set",
  });
  expect(ended.status).toBe(200);
  const off = await after.command(token, { commandId: "off", type: "tool-off", toolId: HOT_AIR.id });
  expect(off.status).toBe(200);
  expect(after.clock.nowMs()).toBeGreaterThan(START_MS);
  await after.close();
});
