import * as v from "valibot";
import { afterEach, beforeEach, describe, expect, it } from "vitest";
import { PlanAnswer } from "#shared/protocol/plan.ts";
import { startServer, type TestServer } from "../support/server-app.ts";
import { setUp } from "../support/server-kitchen.ts";

let server: TestServer;
let lead: string;
beforeEach(async () => {
  server = await startServer();
  lead = (await server.join("Ida")).token;
  await setUp(server, lead, 4);
});
afterEach(() => server.close());

const plan = async (): Promise<v.InferOutput<typeof PlanAnswer>> => {
  const { status, text } = await server.call("GET", "/api/plan", { token: lead });
  expect(status).toBe(200);
  return v.parse(PlanAnswer, JSON.parse(text));
};

/** Until the plan is one of what was done last, as long as that may take; how long it took, ms. */
async function planned(holds: (answer: Awaited<ReturnType<typeof plan>>) => boolean): Promise<number> {
  const fromMs = performance.now();
  while (!holds(await plan())) {
    if (performance.now() - fromMs > 20_000) throw new Error("no such plan");
    await new Promise((resolve) => setTimeout(resolve, 5));
  }
  return performance.now() - fromMs;
}

describe("GET /api/plan", () => {
  it("P27 gives every act with its times and hands, and each order's times and chance, as its schema says", async () => {
    await planned(({ tasks }) => new Set(tasks.map(({ trayId }) => trayId)).size === 4);
    const { tasks, orders } = await plan();
    expect(tasks.filter(({ act }) => act === "pack")).toHaveLength(4);
    for (const { startMs, endMs } of tasks) expect(endMs).toBeGreaterThanOrEqual(startMs);
    expect(orders).toHaveLength(1);
    expect(orders[0]?.chance).toBeGreaterThanOrEqual(0);
    expect(orders[0]?.earliestMs).toBeLessThanOrEqual(orders[0]!.latestMs!);
  });

  it("P27 is made again after a tap", async () => {
    await planned(({ tasks }) => tasks.some(({ trayId, act }) => trayId === "t1" && act === "flood"));
    const { status } = await server.command(lead, { commandId: "c1", type: "flooded", trayId: "t1" });
    expect(status).toBe(200);
    const tookMs = await planned(
      ({ tasks }) =>
        !tasks.some(({ trayId, act, layer }) => trayId === "t1" && act === "flood" && layer === 0),
    );
    expect(tookMs).toBeLessThan(1000);
  });

  it("K54 says why of an order whose pick-up has passed, and of one whose icing never dries", async () => {
    await planned(({ orders }) => orders.length === 1);
    const send = async (type: string, fields: object): Promise<void> => {
      const { status, text } = await server.command(lead, { commandId: type, type, ...fields });
      expect(status, text).toBe(200);
    };
    const order = { id: "party", name: "Harvest", cookies: 48, pickUpAtMs: (await plan()).madeAtMs - 60_000 };
    await send("put-order", { order });
    await planned(({ orders }) => orders[0]?.why?.is === "pick-up past");
    expect((await plan()).orders[0]).toMatchObject({ chance: 0, likelyMs: expect.any(Number) });
    await send("enter-reading", {
      reading: { placeId: "rack-a", tempC: 22, rhPct: 95, source: "typed" },
    });
    await planned(({ orders }) => orders[0]?.why?.is === "never dry");
    const [never] = (await plan()).orders;
    expect(never).toMatchObject({ chance: 0, why: { never: { code: "no-drying", rhPct: 95 } } });
    expect(never?.likelyMs).toBeUndefined();
  });

  it("P27 is for those who joined", async () => {
    expect((await server.call("GET", "/api/plan", {})).status).toBe(401);
  });
});
