import { HOUR_MS } from "#shared/time.ts";
import { nanoid } from "nanoid";
import { afterEach, beforeEach, describe, expect, test } from "vitest";
import { type Answer, JOIN_CODE, LEAD_CODE, startServer, type TestServer } from "../support/server-app.ts";
import { setUp } from "../support/server-kitchen.ts";
import { connect } from "../support/server-socket.ts";

let server: TestServer;

beforeEach(async () => {
  server = await startServer();
});
afterEach(() => server.close());

const post = (body: object): Promise<Answer> => server.call("POST", "/api/join", { body });
const people = () =>
  Object.values(server.app.service.kitchen().people).map(({ name, role }) => `${name}: ${role}`);
const letIn = (token: string, joiningId: string): Promise<Answer> =>
  server.command(token, { commandId: nanoid(), type: "let-in", joiningId });
const settings = (token: string): Promise<Answer> =>
  server.command(token, { commandId: nanoid(), type: "set-kitchen", settings: { name: "X" } });

describe("who leads", () => {
  test("the first phone does, the next are decorators", async () => {
    expect(await server.join("Ida")).toMatchObject({ role: "lead" });
    expect(await server.join("Wren")).toMatchObject({ role: "decorator" });
    expect(people()).toEqual(["Ida: lead", "Wren: decorator"]);
  });

  test("a wall, a bench screen or a sensor that comes first does not", async () => {
    expect(await server.join("Main wall", "wall")).toMatchObject({ role: "wall" });
    expect(await server.join("Bench 2", "bench")).toMatchObject({ role: "decorator" });
    expect(await server.join("Rack A air", "sensor")).toMatchObject({ role: "sensor" });
    expect(await server.join("Ida")).toMatchObject({ role: "lead" });
  });

  test("K33 a bench screen is marked as one, and is not where it joins under a person's name", async () => {
    await server.join("Ida");
    await server.join("Bench 2", "bench");
    await server.join("Ida", "bench");
    const joined = Object.values(server.app.service.kitchen().people);
    expect(joined.map(({ name, isBench }) => [name, isBench])).toEqual([
      ["Ida", undefined],
      ["Bench 2", true],
    ]);
  });

  test("two first phones at once are one lead and one decorator", async () => {
    const roles = (await Promise.all([server.join("Ida"), server.join("Sol")])).map(({ role }) => role);
    expect(roles.toSorted()).toEqual(["decorator", "lead"]);
  });

  test("P11 typing the lead's name gives the name and no lead's rights", async () => {
    const ida = await server.join("Ida");
    const other = await server.join("ida");
    expect(other).toMatchObject({ role: "decorator", personId: ida.personId });
    expect(people()).toEqual(["Ida: lead"]);
    expect((await settings(other.token)).status).toBe(403);
    expect((await settings(ida.token)).status).toBe(200);
  });

  test("P35 a lead who lets in a phone under a lead's name gives it their rights, and a bench never", async () => {
    const ida = await server.join("Ida");
    const [phone, bench] = [await server.join("Ida"), await server.join("Ida", "bench")];
    for (const { deviceId } of [phone, bench]) expect((await letIn(ida.token, deviceId)).status).toBe(200);
    expect((await settings(phone.token)).status).toBe(200);
    expect((await settings(bench.token)).status).toBe(403);
  });

  test("the lead code gives a lead's second phone its rights, and makes a decorator a lead", async () => {
    const ida = await server.join("Ida");
    expect(await server.join("Ida", undefined, LEAD_CODE)).toMatchObject({
      role: "lead",
      personId: ida.personId,
    });
    await server.join("Wren");
    expect(await server.join("Wren", undefined, LEAD_CODE)).toMatchObject({ role: "lead" });
    expect(await server.join("Sol", undefined, LEAD_CODE)).toMatchObject({ role: "lead" });
    expect(await server.join("Side wall", "wall", LEAD_CODE)).toMatchObject({ role: "wall" });
    expect(people()).toEqual(["Ida: lead", "Wren: lead", "Sol: lead", "Side wall: wall"]);
  });

  test("a bench screen under a lead's name acts as a decorator", async () => {
    await server.join("Ida");
    expect(await server.join("Ida", "bench")).toMatchObject({ role: "decorator" });
  });

  test("people, walls and sensors do not share names", async () => {
    await server.join("Main", "wall");
    const answer = await post({ code: JOIN_CODE, name: "main" });
    expect(answer.status).toBe(400);
    expect(answer.json()).toMatchObject({
      ok: false,
      field: "name",
      taken: { name: "Main", of: "wall" },
      message: expect.stringMatching(/Main is a wall/),
    });
  });
});

describe("what is typed", () => {
  test.each(["test42", " te-st 42 "])(
    "the code %j is read without regard to case, spaces and hyphens",
    async (code) => {
      expect((await post({ code, name: "Ida" })).status).toBe(200);
    },
  );

  test.each([
    [{ name: "Ida" }, "code"],
    [{ code: JOIN_CODE }, "name"],
    [{ code: JOIN_CODE, name: "   " }, "name"],
    [{ code: JOIN_CODE, name: "x".repeat(41) }, "name"],
    [{ code: JOIN_CODE, name: 7 }, "name"],
    [{ code: JOIN_CODE, name: "Ida", as: "fridge" }, "as"],
  ])("%j is 400 and names %s", async (body, field) => {
    const answer = await post(body);
    expect(answer.status).toBe(400);
    expect(answer.json()).toMatchObject({ ok: false, reason: "malformed", field });
    expect(people()).toEqual([]);
  });

  test("P8 a wrong code is 403; after ten in a minute, 429, even for the right one", async () => {
    await server.join("Ida");
    for (let k = 0; k < 10; k += 1) {
      const answer = await post({ code: `WRONG${k}`, name: "Mal" });
      expect(answer.status).toBe(403);
      expect(answer.json()).toMatchObject({ ok: false, reason: "wrong-code", field: "code" });
    }
    const answer = await post({ code: JOIN_CODE, name: "Mal" });
    expect(answer.status).toBe(429);
    expect(answer.json()).toMatchObject({ ok: false, reason: "too-many" });
    expect(people()).toEqual(["Ida: lead"]);
  });

  test("right codes are not counted", async () => {
    for (let k = 0; k < 15; k += 1) expect((await post({ code: JOIN_CODE, name: `P${k}` })).status).toBe(200);
  });
});

describe("P34 a phone or bench under a name that is another's waits for a lead", () => {
  test("it sees nothing and does nothing until it is let in, and is then that person's own", async () => {
    const ida = await server.join("Ida");
    const wren = await server.join("Wren");
    await setUp(server, ida.token, 3);
    const again = await server.join("wren");
    expect(again.personId).toBe(wren.personId);
    const board = await server.call("GET", "/api/board", { token: again.token });
    expect(board.status).toBe(403);
    expect(board.json()).toMatchObject({
      reason: "waits",
      message: expect.stringMatching(/a lead is asked/),
    });
    await expect(connect(server.port, again.token)).rejects.toThrow("waits");
    const flooded = (trayId: string) => ({ commandId: nanoid(), type: "flooded", trayId });
    expect((await server.command(again.token, flooded("t1"))).status).toBe(403);

    expect((await letIn(wren.token, again.deviceId)).status).toBe(403);
    expect((await letIn(ida.token, again.deviceId)).status).toBe(200);
    expect((await letIn(ida.token, again.deviceId)).json()).toMatchObject({ ok: false, reason: "taken" });
    expect((await server.command(again.token, flooded("t1"))).status).toBe(200);
    const screen = await connect(server.port, again.token);
    screen.socket.close();
  });

  test("turned away, its token is worthless; a day later it is forgotten by itself", async () => {
    const ida = await server.join("Ida");
    const [mal, late] = [await server.join("Ida"), await server.join("Ida", "bench")];
    const turnAway = { commandId: "f1", type: "forget-device", joiningId: mal.deviceId };
    expect((await server.command(ida.token, turnAway)).status).toBe(200);
    expect((await server.call("GET", "/api/board", { token: mal.token })).status).toBe(401);
    expect((await letIn(ida.token, mal.deviceId)).status).toBe(409);
    expect((await server.call("GET", "/api/board", { token: late.token })).status).toBe(403);
    server.jump(25 * HOUR_MS);
    await expect
      .poll(async () => (await server.call("GET", "/api/board", { token: late.token })).status)
      .toBe(401);
  });

  test("the leads are alerted with whose name it is, until one has answered", async () => {
    const ida = await server.join("Ida");
    const again = await server.join("Ida");
    server.advance(300);
    const alerts = () => Object.values(server.app.service.kitchen().alerts);
    await expect.poll(alerts).toMatchObject([
      {
        kind: "device-waits",
        deviceId: again.deviceId,
        holderId: ida.personId,
        isLead: true,
        recipients: { leads: true, wall: false, everyone: false },
      },
    ]);
    await letIn(ida.token, again.deviceId);
    server.advance(300);
    await expect.poll(alerts).toEqual([]);
  });

  test("the lead code lets it in at once; walls and sensors under their own names do not wait", async () => {
    await server.join("Ida");
    await server.join("Main wall", "wall");
    await server.join("Rack air", "sensor");
    const tokens = [
      await server.join("Ida", undefined, LEAD_CODE),
      await server.join("Main wall", "wall"),
      await server.join("Rack air", "sensor"),
    ];
    for (const { token } of tokens)
      expect((await server.call("GET", "/api/board", { token })).status).toBe(200);
  });

  test("twenty wait at most, and that is said", async () => {
    await server.join("Ida");
    for (let k = 0; k < 20; k += 1) await server.join("Ida");
    const refused = await post({ code: JOIN_CODE, name: "Ida" });
    expect(refused.status).toBe(403);
    expect(refused.json()["message"]).toMatch(/At most 20 devices wait/);
  });

  test("what it held waits with it over a restart of the server", async () => {
    const ida = await server.join("Ida");
    const again = await server.join("Ida");
    await server.close();
    server = await startServer({ db: server.db });
    expect((await server.call("GET", "/api/board", { token: again.token })).status).toBe(403);
    expect((await letIn(ida.token, again.deviceId)).status).toBe(200);
    expect((await server.call("GET", "/api/board", { token: again.token })).status).toBe(200);
  });
});

describe("tokens", () => {
  test("P11 are not in the database, only their SHA-256 is", async () => {
    const { token } = await server.join("Ida");
    const rows = JSON.stringify(server.db.prepare("SELECT * FROM devices").all());
    expect(rows).not.toContain(token);
  });

  test("a lead may forget a device: its token is worthless and its socket is cut", async () => {
    const ida = await server.join("Ida");
    const wren = await server.join("Wren");
    const screen = await connect(server.port, wren.token);
    const forget = (token: string, deviceId: string) =>
      server.call("POST", "/api/forget", { token, body: { deviceId } });

    expect((await forget(wren.token, ida.deviceId)).status).toBe(403);
    expect((await forget(ida.token, "no-such")).status).toBe(404);
    const list = (await server.call("GET", "/api/devices", { token: ida.token })).json()["devices"];
    expect(list).toMatchObject([
      { name: "Ida", kind: "phone" },
      { name: "Wren", deviceId: wren.deviceId },
    ]);

    expect((await forget(ida.token, ida.deviceId)).json()).toMatchObject({ ok: false, reason: "in-use" });
    expect((await forget(ida.token, wren.deviceId)).json()).toMatchObject({ ok: true });
    await screen.until(({ socket }) => !socket.connected);
    expect((await server.call("GET", "/api/board", { token: wren.token })).status).toBe(401);
    await expect(connect(server.port, wren.token)).rejects.toThrow("not-joined");
  });
});

describe("K40 a lead removes people", () => {
  const remove = (token: string, ...personIds: string[]): Promise<Answer> =>
    server.command(token, { commandId: nanoid(), type: "remove-people", personIds });

  test("their tokens are worthless and their sockets cut at once; the same name joins as somebody new", async () => {
    const ida = await server.join("Ida");
    const wren = await server.join("Wren");
    const phone = await connect(server.port, wren.token);
    const isCut = new Promise((resolve) => phone.socket.on("disconnect", resolve));
    expect((await remove(wren.token, ida.personId)).status).toBe(403);
    expect((await remove(ida.token, wren.personId)).json()).toMatchObject({ ok: true });
    await isCut;
    expect((await server.call("GET", "/api/board", { token: wren.token })).status).toBe(401);
    await expect(connect(server.port, wren.token)).rejects.toThrow("not-joined");
    const again = await server.join("Wren");
    expect(again).toMatchObject({ role: "decorator" });
    expect(again.personId).not.toBe(wren.personId);
    expect((await server.call("GET", "/api/board", { token: again.token })).status).toBe(200);
  });

  test("a removed lead who joins again by name is no lead", async () => {
    const ida = await server.join("Ida");
    const sol = await server.join("Sol", "phone", LEAD_CODE);
    expect((await remove(ida.token, ida.personId, sol.personId)).status).toBe(409);
    expect((await remove(sol.token, ida.personId)).status).toBe(200);
    expect(await server.join("Ida")).toMatchObject({ role: "decorator" });
  });

  test("a device that was not forgotten in time is, when the server opens again", async () => {
    const ida = await server.join("Ida");
    const wren = await server.join("Wren");
    await remove(ida.token, wren.personId);
    server.db.prepare("UPDATE devices SET forgotten_ms = NULL").run();
    expect((await server.call("GET", "/api/board", { token: wren.token })).status).toBe(401);
    await server.close();
    server = await startServer({ db: server.db });
    const kept = server.db.prepare<[], { person_id: string }>(
      "SELECT person_id FROM devices WHERE forgotten_ms IS NULL",
    );
    expect(kept.all().map(({ person_id }) => person_id)).toEqual([ida.personId]);
  });
});

describe("K41 taking back another's act", () => {
  test("takes the lead's role: not the same name typed on another phone, until a lead let that in", async () => {
    const ida = await server.join("Ida");
    const wren = await server.join("Wren");
    await setUp(server, ida.token, 3);
    const typed = await server.join("Wren");
    expect(typed.personId).toBe(wren.personId);
    const act = async ({ token }: { token: string }, tray: number): Promise<string> => {
      const commandId = nanoid();
      expect((await server.command(token, { commandId, type: "flooded", trayId: `t${tray}` })).status).toBe(
        200,
      );
      return commandId;
    };
    const takeBack = async ({ token }: { token: string }, tray: number, actId: string): Promise<number> =>
      (await server.command(token, { commandId: nanoid(), type: "take-back", trayId: `t${tray}`, actId }))
        .status;
    const [hers, another, third] = [await act(wren, 1), await act(wren, 2), await act(wren, 3)];
    expect(await takeBack(typed, 1, hers)).toBe(403);
    expect(await takeBack(wren, 1, hers)).toBe(200);
    expect((await letIn(ida.token, typed.deviceId)).status).toBe(200);
    expect(await takeBack(typed, 2, another)).toBe(200);
    expect(await takeBack(ida, 3, third)).toBe(200);
  });
});

test("C34 the join code and the network's address are for leads, walls and benches alone", async () => {
  const tokens = {
    lead: (await server.join("Ida")).token,
    decorator: (await server.join("Wren")).token,
    wall: (await server.join("Main wall", "wall")).token,
    bench: (await server.join("Bench 2", "bench")).token,
    sensor: (await server.join("Rack A air", "sensor")).token,
    nobody: "no-such-token",
  };
  const asked = await Promise.all(
    Object.entries(tokens).map(async ([who, token]) => {
      const { status, json } = await server.call("GET", "/api/invite", { token });
      return [who, status, json()["joinCode"]];
    }),
  );
  expect(asked).toEqual([
    ["lead", 200, JOIN_CODE],
    ["decorator", 403, undefined],
    ["wall", 200, JOIN_CODE],
    ["bench", 200, JOIN_CODE],
    ["sensor", 403, undefined],
    ["nobody", 401, undefined],
  ]);
  const { origin } = (await server.call("GET", "/api/invite", { token: tokens.lead })).json();
  expect(origin).toMatch(new RegExp(`^http://.+:${server.port}$`));
});
