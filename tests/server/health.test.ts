import { afterEach, describe, expect, test } from "vitest";
import type { Kitchen } from "#shared/kitchen/model/state.ts";
import { steadyClock } from "#server/live/steady-clock.ts";
import { HOT_AIR } from "../support/furnishings.ts";
import { aKitchen, MIN } from "../support/scene.ts";
import { startServer, type TestServer } from "../support/server-app.ts";
import { setUp } from "../support/server-kitchen.ts";
import { connect } from "../support/server-socket.ts";
import { handDriven } from "../support/server-timers.ts";

let server: TestServer;
afterEach(() => server.close());

const health = async (): Promise<Record<string, unknown>> => (await server.call("GET", "/api/health")).json();

/** Lets time pass, and what the timers started come to an end. */
async function pass(ms: number): Promise<void> {
  for (let gone = 0; gone < ms; gone += 250) {
    server.advance(250);
    for (let turn = 0; turn < 5; turn += 1) await new Promise(setImmediate);
  }
}

describe("A27 what the server cannot check is said", () => {
  test("an alert loop that stopped, within 3 s, by health and to every screen, and no more once it runs", async () => {
    const hands = handDriven();
    let isStuck = false;
    const every: typeof hands.timers.every = (ms, act) =>
      hands.timers.every(ms, () => (isStuck && ms === 250 ? undefined : act()));
    server = await startServer({ hands: { ...hands, timers: { ...hands.timers, every } } });
    const { token } = await server.join("Ida");
    await setUp(server, token);
    const screen = await connect(server.port, token);
    await pass(1000);
    expect(await health()).toMatchObject({ status: "ok" });

    isStuck = true;
    await pass(3000);
    expect(await health()).toMatchObject({
      status: "degraded",
      problems: [expect.stringContaining("stopped checking for alarms")],
    });
    await screen.until(({ changes }) => changes.at(-1)?.problems?.[0]?.code === "alerts-stopped");

    isStuck = false;
    // The next look at the alarms, and the heartbeat after it.
    await pass(250 + 1000);
    expect(await health()).toMatchObject({ status: "ok" });
    await screen.until(({ changes }) => changes.at(-1)?.problems === undefined);
    screen.close();
  });

  test("a rule that fails stops no other, is reported once, and is said", async () => {
    const scene = aKitchen().as("ida", "lead");
    scene.act("put-tool", { tool: HOT_AIR });
    scene.act("tool-on", { toolId: "hot-1" });
    const { t1, ...others } = scene.kitchen.trays;
    const kitchen = {
      ...scene.kitchen,
      // As no log of ours comes to, but a rule must not count on that.
      trays: {
        ...others,
        t1: { ...t1, status: { stage: "heat-set", heat: { toolId: "none", laps: [] } } },
      },
    } as unknown as Kitchen;
    server = await startServer({
      hands: handDriven(scene.nowMs + 4 * MIN),
      log: (log) => ({ ...log, loadSnapshot: async () => ({ snapshot: { seq: 0, kitchen }, damaged: [] }) }),
    });
    await pass(2000);
    const kinds = Object.values(server.app.service.kitchen().alerts).map(({ kind }) => kind);
    expect(kinds).toContain("tool-left-on");
    const { status, problems } = await health();
    expect(status).toBe("degraded");
    expect(problems).toContain("Traytide cannot check heat alarms: watch the tools yourselves.");
    expect(server.reports.filter((line) => line.includes('the group "heat"'))).toHaveLength(1);
  });

  test("a clock that was set back: time goes on, acts are taken, and it is said", async () => {
    const hands = handDriven();
    let setByMs = 0;
    const steady = steadyClock(
      () => hands.clock.realMs() + setByMs,
      hands.clock.realMs,
      () => undefined,
    );
    const clock = { ...hands.clock, realMs: steady.realMs, nowMs: steady.realMs };
    server = await startServer({
      hands: { ...hands, clock },
      holdClock: steady.hold,
      clockProblem: steady.problem,
    });
    const { token } = await server.join("Ida");
    await setUp(server, token);
    const flooded = { commandId: "f1", type: "flooded", trayId: "t1" };
    expect((await server.command(token, flooded)).status).toBe(200);
    setByMs = -60 * MIN;
    await pass(1000);
    const touched = { commandId: "f2", type: "touch-test", trayId: "t1", layer: 0, finding: "still wet" };
    expect((await server.command(token, touched)).status).toBe(200);
    expect(await health()).toMatchObject({
      status: "degraded",
      problems: [expect.stringMatching(/60 min behind the kitchen's time/)],
    });
  });
});
