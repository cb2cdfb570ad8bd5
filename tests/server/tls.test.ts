import { X509Certificate } from "node:crypto";
import { mkdtempSync, rmSync, statSync } from "node:fs";
import { request } from "node:https";
import { createServer } from "node:https";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterEach, beforeEach, describe, expect, test } from "vitest";
import { localTls } from "#server/http/tls.ts";

const DAY_MS = 86_400_000;
const NAMES = ["localhost", "127.0.0.1", "::1", "fd00::2", "kitchen.local"];

let folder: string;
beforeEach(() => {
  folder = mkdtempSync(join(tmpdir(), "traytide-test-"));
});
afterEach(() => rmSync(folder, { recursive: true }));

describe("the kitchen's own certificate", () => {
  test("is trusted by whoever trusts the CA, for each of the names, and by nobody else", async () => {
    const tls = await localTls(join(folder, "tls"), NAMES, Date.now());
    const server = createServer({ key: tls.key, cert: tls.cert }, (_request, response) =>
      response.end("hello"),
    );
    await new Promise<void>((resolve) => void server.listen(0, "127.0.0.1", resolve));
    const address = server.address();
    const port = typeof address === "object" && address !== null ? address.port : 0;
    const get = (ca?: string): Promise<number | undefined> =>
      new Promise((resolve, reject) => {
        request(
          { host: "127.0.0.1", port, servername: "kitchen.local", ...(ca !== undefined && { ca }) },
          (response) => resolve(response.resume().statusCode),
        )
          .on("error", reject)
          .end();
      });
    expect(await get(tls.ca)).toBe(200);
    await expect(get()).rejects.toThrow(/self.signed|unable to verify|unable to get/i);
    server.closeAllConnections();
    server.close();
  });

  test("is for servers, short enough for phones (825 days), and its keys are the owner's only", async () => {
    const nowMs = Date.now();
    const tls = await localTls(join(folder, "tls"), NAMES, nowMs);
    const [leaf, ca] = [new X509Certificate(tls.cert), new X509Certificate(tls.ca)];
    expect(leaf.ca).toBe(false);
    expect(ca.ca).toBe(true);
    expect(leaf.verify(ca.publicKey)).toBe(true);
    expect(leaf.keyUsage).toEqual(["1.3.6.1.5.5.7.3.1"]); // id-kp-serverAuth, RFC 5280 section 4.2.1.12
    // Apple's limit for TLS server certificates of a CA added by hand.
    expect((Date.parse(leaf.validTo) - Date.parse(leaf.validFrom)) / DAY_MS).toBeLessThanOrEqual(825);
    for (const name of ["localhost", "kitchen.local"]) expect(leaf.checkHost(name)).toBeDefined();
    for (const ip of ["127.0.0.1", "::1", "fd00::2"]) expect(leaf.checkIP(ip)).toBeDefined();
    expect(leaf.checkHost("elsewhere.example")).toBeUndefined();
    for (const key of ["ca.key", "server.key"])
      expect(statSync(join(folder, "tls", key)).mode & 0o077).toBe(0);
  });

  test("is kept, made anew for a new name or near its end, and always under the same CA", async () => {
    const at = join(folder, "tls");
    const first = await localTls(at, NAMES, Date.now());
    expect(await localTls(at, NAMES, Date.now())).toEqual(first);
    const renamed = await localTls(at, [...NAMES, "10.0.0.7"], Date.now());
    expect(renamed.ca).toBe(first.ca);
    expect(new X509Certificate(renamed.cert).checkIP("10.0.0.7")).toBeDefined();
    const later = await localTls(at, NAMES, Date.now() + 790 * DAY_MS);
    expect(later.ca).toBe(first.ca);
    expect(later.cert).not.toBe(renamed.cert);
  });
});
