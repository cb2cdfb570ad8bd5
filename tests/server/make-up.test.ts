import { afterEach, beforeEach, describe, expect, it } from "vitest";
import type { MakeUpAnswer } from "#shared/protocol/make-up.ts";
import { startServer, type TestServer } from "../support/server-app.ts";
import { setUp } from "../support/server-kitchen.ts";
import { START_MS } from "../support/server-timers.ts";

let server: TestServer;
let lead: string;
beforeEach(async () => {
  server = await startServer();
  lead = (await server.join("Ida")).token;
  await setUp(server, lead, 2);
});
afterEach(() => server.close());

const HOUR = 3_600_000;
const act = async (commandId: string, command: object): Promise<void> => {
  const answer = await server.command(lead, { commandId, ...command });
  if (answer.status !== 200) throw new Error(answer.text);
};
const ask = (query: string, token = lead) => server.call("GET", `/api/make-up${query}`, { token });

describe("GET /api/make-up", () => {
  it("K72 says by when what an order lacks must be begun, sooner for an earlier pick-up", async () => {
    await act("air", {
      type: "enter-reading",
      reading: { placeId: "rack-a", tempC: 21, rhPct: 45, source: "typed" },
    });
    expect((await ask("?order=party")).json()).toEqual({ atMs: START_MS, why: "nothing-to-make-up" });
    await act("lost", { type: "report-problem", trayId: "t1", problem: "broken", count: 5 });
    const first = (await ask("?order=party")).json() as unknown as MakeUpAnswer & { startByMs: number };
    expect(first.startByMs).toBeGreaterThan(START_MS);
    expect(first.startByMs).toBeLessThan(START_MS + 96 * HOUR);
    await act("sooner", {
      type: "put-order",
      order: { id: "party", name: "Tidepool party", pickUpAtMs: START_MS + 88 * HOUR, cookies: 24 },
    });
    const next = (await ask("?order=party")).json() as unknown as { startByMs: number };
    expect(first.startByMs - next.startByMs).toBe(8 * HOUR);
  });

  it("K72 refuses an order that is not there, and whoever has not joined", async () => {
    const answer = await ask("?order=nobody");
    expect([answer.status, answer.json()["field"]]).toEqual([404, "order"]);
    expect((await ask("")).json()).toMatchObject({ reason: "malformed", field: "order" });
    expect((await ask("?order=party", "nonsense")).status).toBe(401);
  });
});

it("C28 the kitchen's network address is told to whoever joined", async () => {
  const answer = await server.call("GET", "/api/address", { token: lead });
  expect(answer.json()).toEqual({ origins: [`http://192.0.2.7:${server.port}`] });
  expect((await server.call("GET", "/api/address")).status).toBe(401);
});
