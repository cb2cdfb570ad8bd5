import { afterEach, beforeEach, describe, expect, test } from "vitest";
import type { DoneAnswer } from "#shared/protocol/done.ts";
import { LEAD_CODE, startServer, type TestServer } from "../support/server-app.ts";
import { setUp } from "../support/server-kitchen.ts";

let server: TestServer;
let lead: string;

beforeEach(async () => {
  server = await startServer();
  lead = (await server.join("Ida")).token;
  await setUp(server, lead, 3);
});
afterEach(() => server.close());

const done = async (query = "", headers: Record<string, string> = {}): Promise<DoneAnswer> => {
  const answer = await server.call("GET", `/api/done${query}`, { token: lead, headers });
  expect(answer.status).toBe(200);
  return answer.json() as unknown as DoneAnswer;
};
const flooded = (token: string, k: number) =>
  server.command(token, { commandId: `f${k}`, type: "flooded", trayId: `t${k}` });

describe("P42 a lead reads who did what, on which device", () => {
  test("an act has its person, their device and its own words, the latest first", async () => {
    const wren = await server.join("Wren");
    await flooded(wren.token, 1);
    await server.command(wren.token, {
      commandId: "m1",
      type: "report-problem",
      trayId: "t1",
      problem: "bled",
      count: 2,
    });
    const { lines } = await done();
    expect(lines.slice(0, 3)).toMatchObject([
      { what: expect.stringMatching(/^Tray 1: 2 cookies bled/), who: "Wren", device: "phone of Wren" },
      {
        what: expect.stringMatching(/^Tray 1: .+ drying clock started$/),
        who: "Wren",
        device: "phone of Wren",
      },
      { what: "Wren: a phone joined", who: "the kitchen itself" },
    ]);
  });

  test("a name tapped on a bench is the doer, and the bench the device", async () => {
    const wren = await server.join("Wren");
    const bench = await server.join("Bench 2", "bench");
    await server.command(bench.token, {
      commandId: "b1",
      type: "flooded",
      trayId: "t2",
      doneBy: wren.personId,
    });
    expect((await done()).lines[0]).toMatchObject({ who: "Wren", device: "bench of Bench 2" });
  });

  test("who was let in, turned away and forgotten is told, by which lead", async () => {
    const ida = await server.join("Ida", undefined, LEAD_CODE);
    const again = await server.join("Ida");
    await server.command(ida.token, { commandId: "l1", type: "let-in", joiningId: again.deviceId });
    await server.call("POST", "/api/forget", { token: lead, body: { deviceId: again.deviceId } });
    expect((await done()).lines.slice(0, 3)).toMatchObject([
      { what: "Ida: a device was turned away or forgotten", who: "Ida" },
      { what: "Ida: a device was let in", who: "Ida" },
      { what: "Ida: a phone asked to be let in", who: "the kitchen itself" },
    ]);
  });

  test("page by page nothing is missing and nothing comes twice; alerts and sensors' readings are left out", async () => {
    const { token } = await server.join("Rack air", "sensor");
    for (let k = 0; k < 70; k += 1) {
      await server.command(lead, { commandId: `n${k}`, type: "leave-note", text: `Note ${k}` });
      server.advance(30_000);
      await server.call("POST", "/api/readings", {
        token,
        body: { place: "rack a", tempC: 21, rhPct: 40 + (k % 9) },
      });
    }
    const seen: string[] = [];
    for (let before: number | undefined, pages = 0; pages < 5; pages += 1) {
      const page = await done(before === undefined ? "" : `?before=${before}`);
      expect(page.lines.length).toBeLessThanOrEqual(50);
      seen.push(...page.lines.map(({ what }) => what));
      before = page.before;
      if (before === undefined) break;
    }
    const notes = seen.filter((what) => what.startsWith("Note"));
    expect(notes).toEqual(Array.from({ length: 70 }, (_, k) => `Note: Note ${69 - k}`));
    expect(seen.some((what) => /alert|air read/i.test(what))).toBe(false);
  });

  test("of one person, and in Spanish", async () => {
    const wren = await server.join("Wren");
    await flooded(wren.token, 1);
    await server.command(lead, { commandId: "n", type: "leave-note", text: "x" });
    const { lines } = await done(`?by=${wren.personId}`, { "accept-language": "es" });
    expect(lines).toHaveLength(1);
    expect(lines[0]).toMatchObject({
      what: expect.stringMatching(/^Bandeja 1: /),
      device: "teléfono de Wren",
    });
  });

  test("is a lead's alone, and a wrong query names its field", async () => {
    const wren = await server.join("Wren");
    expect((await server.call("GET", "/api/done", { token: wren.token })).status).toBe(403);
    const answer = await server.call("GET", "/api/done?before=x", { token: lead });
    expect(answer.status).toBe(400);
    expect(answer.json()).toMatchObject({ field: "before" });
  });
});
