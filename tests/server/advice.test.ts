import { afterEach, describe, expect, it } from "vitest";
import { makeAdvice } from "#server/http/advice.ts";
import type { AdviceAnswer } from "#shared/protocol/advice.ts";
import type { Answer, TestServer } from "../support/server-app.ts";
import { startServer } from "../support/server-app.ts";
import { setUp } from "../support/server-kitchen.ts";
import { START_MS } from "../support/server-timers.ts";

const HOUR = 3_600_000;
let server: TestServer | undefined;
afterEach(async () => {
  await server?.close();
  server = undefined;
});

/** A damp kitchen whose order of so many flooded trays is picked up in 9 h; its cabinet holds three. */
async function late(
  trays: number,
): Promise<{ ask: (query: string, token?: string) => Promise<Answer>; lead: string }> {
  server = await startServer();
  const { token: lead } = await server.join("Ida");
  await setUp(server, lead, trays);
  let ids = 0;
  const act = async (command: object): Promise<void> => {
    const answer = await server!.command(lead, { commandId: `c${(ids += 1)}`, ...command });
    if (answer.status !== 200) throw new Error(answer.text);
  };
  await act({
    type: "put-place",
    place: {
      id: "cabinet",
      name: "Warm cabinet",
      kind: "warm-cabinet",
      airSpeedMs: 2,
      capacity: 3,
      setTempC: 38,
    },
  });
  await act({
    type: "put-order",
    order: { id: "party", name: "Tidepool party", pickUpAtMs: START_MS + 9 * HOUR, cookies: 24 },
  });
  await act({ type: "enter-reading", reading: { placeId: "rack-a", tempC: 21, rhPct: 64, source: "typed" } });
  for (let k = 1; k <= trays; k += 1) await act({ type: "flooded", trayId: `t${k}` });
  await forecast();
  return { ask: (query, token = lead) => server!.call("GET", `/api/advice${query}`, { token }), lead };
}

/** Until every film has its forecast. */
async function forecast(): Promise<void> {
  const missing = (): boolean => {
    const { films } = server!.app.forecasts();
    return Object.values(server!.app.service.kitchen().trays).some(
      ({ id, status, films: laid }) =>
        status.stage !== "packed" && laid.some(({ layer }) => films[`${id}/${layer}`] === undefined),
    );
  };
  for (let k = 0; k < 2000 && missing(); k += 1) await new Promise((resolve) => setTimeout(resolve, 5));
}

const adviceOf = (answer: Answer) => {
  const body = answer.json() as unknown as AdviceAnswer;
  if (!("advice" in body)) throw new Error(answer.text);
  return body.advice;
};

describe("GET /api/advice", () => {
  it("D33 a late order: a move that fits the room left, with what it wins and whether pick-up is met", async () => {
    const { ask } = await late(3);
    const answer = await ask("?order=party");
    expect(answer.status).toBe(200);
    const advice = adviceOf(answer);
    expect(advice.isLate).toBe(true);
    expect(advice.help[0]).toMatchObject({ placeId: "cabinet", trayNumbers: [1, 2, 3] });
    expect(advice.help.map(({ kind, meetsPickUp }) => [kind, meetsPickUp])).toEqual([
      ["move", true],
      ["drier air", false],
    ]);
    for (const { gain, finish } of advice.help) {
      expect(gain?.likelyMin).toBeGreaterThanOrEqual(5);
      expect(finish).toMatchObject({ earliestMs: expect.any(Number), latestMs: expect.any(Number) });
    }
  });

  it("D32 once the place is full it is offered no more", async () => {
    const { ask, lead } = await late(5);
    for (const trayId of ["t1", "t2", "t3"])
      await server!.command(lead, {
        commandId: `m-${trayId}`,
        type: "move-tray",
        trayId,
        placeId: "cabinet",
      });
    const { help } = adviceOf(await ask("?tray=4"));
    expect(help.map(({ kind }) => kind)).not.toContain("move");
    expect(help.map(({ kind }) => kind)).toContain("drier air");
  });

  it("D32 a tray by its number; a wall may ask too", async () => {
    const { ask } = await late(2);
    const { token } = await server!.join("Wall", "wall");
    expect(adviceOf(await ask("?tray=2", token)).help[0]).toMatchObject({
      kind: "move",
      placeName: "Warm cabinet",
      message: expect.stringMatching(/^Move tray 2 to Warm cabinet: .+ sooner, pick-up /),
    });
  });

  it("D33 each help, why there is none, and a refusal are said in the language that is asked for", async () => {
    const { ask, lead } = await late(2);
    const inSpanish = async (query: string) =>
      await server!.call("GET", `/api/advice${query}`, {
        token: lead,
        headers: { "accept-language": "es-MX, en;q=0.5" },
      });
    const spanish = await inSpanish("?tray=2");
    expect(adviceOf(spanish).help[0]).toMatchObject({
      message: expect.stringMatching(/^Mover la bandeja 2 a Warm cabinet: .+ antes, /),
    });
    expect(adviceOf(spanish).help.map(({ kind }) => kind)).toEqual(
      adviceOf(await ask("?tray=2")).help.map(({ kind }) => kind),
    );
    expect((await inSpanish("?tray=77")).json()["message"]).toBe(
      "tray debe ser el número de una bandeja: no hay 77.",
    );
  });

  it("P8 whoever has no token, and a sensor, is refused; every other refusal names the field", async () => {
    const { ask } = await late(1);
    const { token: sensor } = await server!.join("Rack A hygrometer", "sensor");
    expect((await server!.call("GET", "/api/advice?tray=1")).status).toBe(401);
    expect((await ask("?tray=1", sensor)).status).toBe(403);
    const refusals = {
      "": [400, "tray"],
      "?tray=1&order=party": [400, "tray"],
      "?tray=0": [400, "tray"],
      "?tray=ten": [400, "tray"],
      "?tray=10000": [400, "tray"],
      "?tray=1&tray=2": [400, "tray"],
      "?order=": [400, "order"],
      "?order=a%20b": [400, "order"],
      "?tray=77": [404, "tray"],
      "?order=nobody": [404, "order"],
      "?order=constructor": [400, "order"],
    };
    for (const [query, [status, field]] of Object.entries(refusals)) {
      const answer = await ask(query);
      expect([query, answer.status, answer.json()["field"]]).toEqual([query, status, field]);
      expect(answer.json()["message"]).toMatch(/tray|order/);
    }
    expect((await ask("?tray=0")).json()["message"]).toBe("tray must be a whole number from 1 to 9999");
  });

  it("where there is nothing to say, it says why", async () => {
    const { ask, lead } = await late(1);
    await server!.command(lead, { commandId: "p1", type: "pack", trayId: "t1", acceptRisk: true });
    for (const query of ["?tray=1", "?order=party"])
      expect((await ask(query)).json()).toMatchObject({ why: "packed", message: "It is packed." });
    await server!.command(lead, {
      commandId: "o2",
      type: "put-order",
      order: { id: "empty", name: "Empty", pickUpAtMs: START_MS + 9 * HOUR, cookies: 12 },
    });
    expect((await ask("?order=empty")).json()).toMatchObject({
      why: "no-trays",
      message: "It has no trays yet.",
    });
  });

  it("the same question asked again meanwhile is worked out once, afterwards anew", async () => {
    const { ask, lead } = await late(1);
    const { kitchen } = server!.app.service;
    const waiting: ((advice: undefined) => void)[] = [];
    const answer = makeAdvice({
      kitchen,
      nowMs: () => START_MS,
      advise: () => new Promise((resolve) => void waiting.push(resolve)),
    });
    const asked = [answer({ tray: "1" }), answer({ tray: "1" }), answer({ order: "party" })];
    expect(waiting).toHaveLength(2);
    for (const resolve of waiting.splice(0)) resolve(undefined);
    const [one, two] = await Promise.all(asked);
    expect(two).toBe(one);
    expect(one).toEqual({ atMs: START_MS, why: "no-forecast" });
    void answer({ tray: "1" });
    expect(waiting).toHaveLength(1);
    // What was begun before an act does not answer who asks after it.
    await server!.command(lead, { commandId: "m1", type: "move-tray", trayId: "t1", placeId: "cabinet" });
    void answer({ tray: "1" });
    expect(waiting).toHaveLength(2);
    expect((await ask("?tray=1")).status).toBe(200);
  });
});
