import { connect, type Socket } from "node:net";
import { afterEach, beforeEach, describe, expect, test } from "vitest";
import {
  CONNECTIONS_AN_ADDRESS,
  CONNECTIONS_MOST,
  limitConnections,
  SLOW_REQUESTS,
  trustedProxies,
} from "#server/http/connection-limits.ts";
import { createServer, type Server } from "node:http";
import { JOIN_CODE, startServer, type TestServer } from "../support/server-app.ts";

const PATIENCE_MS = 8000;
let server: TestServer;

beforeEach(async () => {
  server = await startServer({ proxies: trustedProxies(["127.0.0.9"])! });
});
afterEach(() => server.close());

/** A bare connection, and when it was closed on it. */
async function open(
  port = server.port,
  localAddress = "127.0.0.1",
): Promise<{ socket: Socket; closed: Promise<string> }> {
  const socket = connect({ port, host: "127.0.0.1", localAddress });
  let said = "";
  socket.on("data", (chunk) => (said += chunk.toString()));
  socket.on("error", () => undefined);
  const closed = new Promise<string>((resolve) => socket.once("close", () => resolve(said)));
  await new Promise((resolve, reject) => socket.once("connect", resolve).once("error", reject));
  return { socket, closed };
}

/** Sends a character now and then until the connection ends; what was answered. */
async function drip(text: string): Promise<string> {
  const { socket, closed } = await open();
  const rest = text.split("");
  const timer = setInterval(() => socket.writable && socket.write(rest.shift() ?? "x"), 50);
  const gaveUp = new Promise<string>((resolve) => setTimeout(() => resolve("still open"), PATIENCE_MS));
  const said = await Promise.race([closed, gaveUp]);
  clearInterval(timer);
  socket.destroy();
  return said;
}

describe("P31 a request that drips in is closed", () => {
  test("in its head, by the first limit, and in its body, by the second", async () => {
    expect(server.app.http).toMatchObject({
      headersTimeout: SLOW_REQUESTS.headersTimeout,
      requestTimeout: SLOW_REQUESTS.requestTimeout,
    });
    expect(SLOW_REQUESTS.headersTimeout).toBeLessThanOrEqual(10_000);
    expect(SLOW_REQUESTS.requestTimeout).toBeLessThanOrEqual(30_000);
    // The same limits, sooner.
    server.app.http.headersTimeout = 1000;
    server.app.http.requestTimeout = 1500;
    const head = "POST /api/join HTTP/1.1\r\nHost: localhost\r\nContent-Type: application/json\r\n";
    const { socket, closed } = await open();
    socket.write(`${head}Content-Length: 5000\r\n\r\n{"code":`);
    const timer = setInterval(() => socket.writable && socket.write("x"), 100);
    const [headSaid, bodySaid] = await Promise.all([drip(head), closed]);
    clearInterval(timer);
    expect(headSaid).toMatch(/^HTTP\/1\.1 408/);
    expect(bodySaid).toMatch(/^HTTP\/1\.1 408/);
    expect((await server.call("GET", "/api/health")).status).toBe(200);
  });

  test("and a connection that says nothing at all", async () => {
    server.app.http.headersTimeout = 500;
    server.app.http.requestTimeout = 1000;
    const { closed } = await open();
    expect(await closed).toMatch(/408|^$/);
  });
});

describe("P32 an address has its share of connections", () => {
  let small: Server;
  beforeEach(async () => {
    small = createServer((_request, response) => response.end("here"));
    limitConnections(small, trustedProxies(["127.0.0.9"])!, { anAddress: 5, most: 12 });
    await new Promise<void>((resolve) => void small.listen(0, "127.0.0.1", resolve));
  });
  afterEach(() => {
    small.closeAllConnections();
    small.close();
  });
  const port = (): number => (small.address() as { port: number }).port;
  /** How many of so many stay open. */
  async function staying(count: number, from: string): Promise<{ sockets: Socket[]; open: number }> {
    const all = await Promise.all(
      Array.from({ length: count }, () => open(port(), from).catch(() => undefined)),
    );
    await new Promise((resolve) => setTimeout(resolve, 100));
    const sockets = all.flatMap((one) => (one === undefined || one.socket.destroyed ? [] : [one.socket]));
    return { sockets, open: sockets.length };
  }

  test("what is beyond is closed at once, others are served, and a share is free again once given back", async () => {
    const flood = await staying(8, "127.0.0.1");
    expect(flood.open).toBe(5);
    expect((await staying(3, "127.0.0.2")).open).toBe(3);
    flood.sockets[0]!.destroy();
    await new Promise((resolve) => setTimeout(resolve, 50));
    expect((await staying(2, "127.0.0.1")).open).toBe(1);
  });

  test("a trusted proxy has as many as the whole server", async () => {
    expect((await staying(20, "127.0.0.9")).open).toBe(12);
  });

  test("the real limits leave room for others", () => {
    expect(CONNECTIONS_AN_ADDRESS * 4).toBeLessThan(CONNECTIONS_MOST);
    expect(server.app.http.maxConnections).toBe(CONNECTIONS_MOST);
  });
});

describe("P33 wrong codes are counted for the kitchen as a whole", () => {
  test("thirty in a minute from as many addresses, and nobody joins for the rest of it", async () => {
    await server.close();
    server = await startServer({ proxies: trustedProxies(["127.0.0.1"])! });
    const join = (k: number, code: string) =>
      server.call("POST", "/api/join", {
        body: { code, name: "Mallory" },
        headers: { "x-forwarded-for": `198.51.100.${k}` },
      });
    for (let k = 0; k < 30; k += 1) expect((await join(k, "WRONG1")).status).toBe(403);
    const refused = await join(200, JOIN_CODE);
    expect(refused.status).toBe(429);
    expect(refused.json()["message"]).toMatch(/in this kitchen: wait a minute/);
  });

  test("whoever is no trusted proxy is counted by its own address, whatever it says of another", async () => {
    const statuses: number[] = [];
    for (let k = 0; k < 11; k += 1)
      statuses.push(
        (
          await server.call("POST", "/api/join", {
            body: { code: "WRONG1", name: "Mallory" },
            headers: { "x-forwarded-for": `198.51.100.${k}` },
          })
        ).status,
      );
    expect(statuses).toEqual([...Array<number>(10).fill(403), 429]);
  });
});

test("proxies are addresses and networks, and anything else is refused", () => {
  const known = trustedProxies(["10.0.0.0/8", "fd00::/8", "192.168.1.5"])!;
  for (const address of ["10.2.3.4", "::ffff:10.2.3.4", "fd00::1", "192.168.1.5"])
    expect(known.has(address)).toBe(true);
  for (const address of ["11.0.0.1", "192.168.1.6", "fe80::1", "", undefined])
    expect(known.has(address)).toBe(false);
  for (const wrong of ["proxy", "10.0.0.0/33", "10.0.0.0/", "fd00::/129", "300.1.1.1"])
    expect(trustedProxies([wrong])).toBeUndefined();
});
