import { expect, it } from "vitest";
import { openKitchenDb } from "#server/kitchen-db.ts";
import { steadyClock } from "#server/steady-clock.ts";
import { HOT_AIR } from "../support/scene.ts";
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
    (line) => void reports.push(line),
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

it("C3 it is the machine's own time, however that is set, while no heat is on", () => {
  const { clock, pass, set, reports, isNeeded } = aMachine();
  clock.hold(START_MS + HOUR, isNeeded);
  expect(clock.realMs()).toBe(START_MS);
  pass(1000);
  expect(clock.realMs()).toBe(START_MS + 1000);
  set(-HOUR);
  expect(clock.realMs()).toBe(START_MS + 1000 - HOUR);
  expect(reports).toEqual([]);
});

it("A5 under heat it goes on though the machine's clock is set back, and says so once; after the heat it falls in again", () => {
  const { clock, pass, set, heat, reports, isNeeded } = aMachine();
  clock.hold(0, isNeeded);
  heat(true);
  set(-1500);
  expect(clock.realMs()).toBe(START_MS - 1500);
  pass(1500);
  clock.realMs();
  set(-HOUR);
  pass(60_000);
  expect(clock.realMs()).toBe(START_MS + 60_000);
  pass(60_000);
  expect(clock.realMs()).toBe(START_MS + 120_000);
  expect(reports).toHaveLength(1);
  expect(reports[0]).toContain("3600 s behind");
  set(2 * HOUR);
  expect(clock.realMs()).toBe(START_MS + 120_000 + HOUR);
  heat(false);
  set(-2 * HOUR);
  expect(clock.realMs()).toBe(START_MS + 120_000 - HOUR);
});

it("A1 A5 a server back from a power cut with its clock an hour behind keeps a heat-set's clock, alarm and end", async () => {
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
  const after = await startServer({ db, hands: { ...hands, clock }, holdClock: steady.hold });
  const alerts = () => Object.values(after.app.service.kitchen().alerts).map(({ kind }) => kind);
  const { standing } = after.app.service.kitchen().trays["t1"] ?? {};
  if (standing?.stage !== "heat-set") throw new Error("no heat-set");
  const stopMs = 1000 * standing.heat.limits.stopByS;
  for (let ms = 0; ms < stopMs + 1000; ms += 250) {
    after.advance(250);
    await new Promise(setImmediate);
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
  expect(after.clock.nowMs()).toBeLessThan(START_MS);
  await after.close();
});
