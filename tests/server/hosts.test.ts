import { afterEach, beforeEach, describe, expect, test } from "vitest";
import { JOIN_CODE, startServer, type TestServer } from "../support/server-app.ts";
import { connect } from "../support/server-socket.ts";

let server: TestServer;
let token: string;

beforeEach(async () => {
  server = await startServer();
  token = (await server.join("Ida")).token;
});
afterEach(() => server.close());

const here = (): string => `127.0.0.1:${server.port}`;

/** A page elsewhere, and a name elsewhere pointed at this machine (DNS rebinding). */
const FOREIGN: readonly [string, () => Record<string, string>, string][] = [
  ["a rebound Host", () => ({ host: `kitchen.evil.example:${server.port}` }), "foreign-host"],
  ["a Host that begins with ours", () => ({ host: `localhost.evil.example:${server.port}` }), "foreign-host"],
  ["a Host with a name before ours", () => ({ host: `evil@${here()}.evil.example` }), "foreign-host"],
  ["a Host with a user's name in it", () => ({ host: `evil@${here()}` }), "foreign-host"],
  ["a foreign Origin", () => ({ origin: "http://evil.example" }), "foreign-origin"],
  ["an Origin of another port", () => ({ origin: `http://127.0.0.1:${server.port + 1}` }), "foreign-origin"],
  [
    "an Origin by another of our names",
    () => ({ origin: `http://localhost:${server.port}` }),
    "foreign-origin",
  ],
  ["an Origin that is hidden", () => ({ origin: "null" }), "foreign-origin"],
];

describe("HTTP", () => {
  test.each(FOREIGN)("P7 %s is refused on every path", async (_what, headers, reason) => {
    for (const path of ["/", "/api/health", "/api/board", "/phone/", "/welcome.css"]) {
      const answer = await server.call("GET", path, { token, headers: headers() });
      expect(answer.status).toBe(403);
      expect(answer.json()).toMatchObject({ ok: false, reason });
    }
    const join = await server.call("POST", "/api/join", {
      body: { code: JOIN_CODE, name: "Mal" },
      headers: headers(),
    });
    expect(join.status).toBe(403);
    expect(Object.values(server.app.service.kitchen().people).map(({ name }) => name)).toEqual(["Ida"]);
  });

  test.each([
    ["its address", () => ({ host: here(), origin: `http://${here()}` })],
    [
      "its name, in capitals",
      () => ({ host: `LOCALHOST:${server.port}`, origin: `http://localhost:${server.port}` }),
    ],
    [
      "its name without a port, behind something that has one",
      () => ({ host: "localhost", origin: "http://localhost" }),
    ],
    ["https in front of it", () => ({ host: "localhost", origin: "https://localhost" })],
  ])("by %s it answers", async (_what, headers) => {
    expect((await server.call("GET", "/api/health", { headers: headers() })).status).toBe(200);
  });

  test("sends strict headers", async () => {
    const { headers } = await server.call("GET", "/");
    const policy = String(headers["content-security-policy"]);
    expect(policy).toContain("default-src 'none'");
    expect(policy).toContain("script-src 'self';");
    expect(policy).toContain(`connect-src 'self' ws://${here()} wss://${here()};`);
    expect(policy).toContain("worker-src 'self'");
    expect(policy).toContain("frame-ancestors 'none'");
    expect(policy).not.toMatch(/unsafe-eval|script-src[^;]*unsafe|\*/);
    expect(headers).toMatchObject({
      "x-content-type-options": "nosniff",
      "referrer-policy": "no-referrer",
      "x-frame-options": "DENY",
    });
    expect(headers["x-powered-by"]).toBeUndefined();
  });
});

describe("the socket", () => {
  test.each(FOREIGN)(
    "P7 %s is refused, and whoever asks rightly is let in after it",
    async (_what, headers) => {
      await expect(connect(server.port, token, headers())).rejects.toThrow();
      (await connect(server.port, token, { origin: `http://${here()}` })).close();
    },
  );

  test("its own Origin, or none, is let in", async () => {
    for (const headers of [{ origin: `http://${here()}` }, {}] as Record<string, string>[]) {
      (await connect(server.port, token, headers)).close();
    }
  });

  test.each([["nonsense"], [undefined], [{ $ne: "" }], [17]])(
    "the token %j is refused in words",
    async (bad) => {
      await expect(connect(server.port, bad)).rejects.toThrow("not-joined");
    },
  );
});

test("P41 a screen opened by the kitchen's name is given codes with the name, every other one codes with the address", async () => {
  const named = await startServer({ localHost: "bakery.local" });
  try {
    const { token } = await named.join("Ida");
    const asked = async (path: string, host?: string) =>
      (await named.call("GET", path, { token, ...(host !== undefined && { headers: { host } }) })).json();
    const address = `http://192.0.2.7:${named.port}`;
    expect(await asked("/api/invite")).toMatchObject({ origin: address });
    expect(await asked("/api/address")).toEqual({ origins: [address] });
    expect(await asked("/api/invite", `Bakery.local:${named.port}`)).toMatchObject({
      origin: `http://bakery.local:${named.port}`,
    });
    expect(await asked("/api/address", "bakery.local")).toEqual({
      origins: ["http://bakery.local", address],
    });
    expect((await named.call("GET", "/api/health", { headers: { host: "other.local" } })).status).toBe(403);
  } finally {
    await named.close();
  }
});
