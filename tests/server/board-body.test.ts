import { afterEach, beforeEach, describe, expect, test } from "vitest";
import type { JoinAnswer } from "#shared/protocol/join.ts";
import type { Snapshot } from "#shared/protocol/snapshot.ts";
import { startServer, type TestServer } from "../support/server-app.ts";
import { setUp } from "../support/server-kitchen.ts";
import { connect } from "../support/server-socket.ts";

const TRAY = { designId: "moon", orderId: "party", count: 12, placeId: "rack-a" };

let server: TestServer;
let ida: JoinAnswer;
let wren: JoinAnswer;
beforeEach(async () => {
  // Slices are cut by the real clock, as in a kitchen.
  server = await startServer({ monotonicMs: () => performance.now() });
  ida = await server.join("Ida");
  wren = await server.join("Wren");
  await setUp(server, ida.token, 100);
  for (const first of [101, 201]) {
    const trays = Array.from({ length: 100 }, (_, k) => ({
      ...TRAY,
      id: `t${first + k}`,
      number: first + k,
    }));
    await server.command(ida.token, { commandId: `more-${first}`, type: "add-trays", trays });
  }
});
afterEach(() => server.close());

const board = async (headers: Record<string, string> = {}): Promise<Snapshot> => {
  const answer = await server.call("GET", "/api/board", { token: wren.token, headers });
  expect(answer.status).toBe(200);
  return answer.json() as unknown as Snapshot;
};

describe("P18 GET /api/board", () => {
  test("is the board as it stands, after each command and as time goes by", async () => {
    expect(await board()).toMatchObject({ seq: server.app.service.seq(), serverNowMs: server.clock.nowMs() });
    await server.command(wren.token, { commandId: "f1", type: "flooded", trayId: "t1" });
    const after = await board();
    expect(after.seq).toBe(server.app.service.seq());
    expect(after.kitchen.trays["t1"]?.films).toHaveLength(1);
    server.advance(2000);
    expect((await board()).serverNowMs).toBe(server.clock.nowMs());
  });

  test("is the same gzipped", async () => {
    const plain = await board();
    const response = await fetch(`http://127.0.0.1:${server.port}/api/board`, {
      headers: { authorization: `Bearer ${wren.token}`, "accept-encoding": "gzip" },
    });
    expect(response.headers.get("content-encoding")).toBe("gzip");
    expect(await response.json()).toEqual(plain);
  });

  test("asked eight times at once, over and over, leaves others' taps under 50 ms at the median", async () => {
    const screen = await connect(server.port, wren.token);
    const over = new AbortController();
    const asking = Array.from({ length: 8 }, async () => {
      while (!over.signal.aborted) await board({ "accept-encoding": "gzip" }).catch(() => undefined);
    });
    const tookMs: number[] = [];
    for (let tray = 1; tray <= 40; tray += 1) {
      const fromMs = performance.now();
      await screen.command({ commandId: `f${tray}`, type: "flooded", trayId: `t${tray}` });
      tookMs.push(performance.now() - fromMs);
    }
    over.abort();
    await Promise.all(asking);
    screen.close();
    expect(tookMs.toSorted((a, b) => a - b)[20]).toBeLessThan(50);
  });
});
