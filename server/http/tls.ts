import { X509Certificate } from "node:crypto";
import { existsSync, mkdirSync, readFileSync, writeFileSync } from "node:fs";
import { isIP } from "node:net";
import { join } from "node:path";
import { generate } from "selfsigned";
import { DAY_MS } from "#shared/time.ts";

/** What an https server needs (PEM), and the certificate phones are to trust. */
export interface Tls {
  key: string;
  cert: string;
  ca: string;
}

/** Phones refuse a leaf that is valid for longer than 825 days. */
const LEAF_DAYS = 800;
const CA_DAYS = 3650;
const RENEW_BEFORE_DAYS = 30;

/**
 * A certificate for `names` (host names and addresses) signed by a CA made on this machine for this kitchen alone.
 * Both are kept in `folder`; the leaf is made anew when a name is missing or its end is near. The CA's key never leaves.
 */
export async function localTls(folder: string, names: readonly string[], nowMs: number): Promise<Tls> {
  mkdirSync(folder, { recursive: true, mode: 0o700 });
  const ca = await keptPair(
    folder,
    "ca",
    () => true,
    () => makeCa(nowMs),
  );
  const leaf = await keptPair(
    folder,
    "server",
    (cert) =>
      Date.parse(cert.validTo) - nowMs > RENEW_BEFORE_DAYS * DAY_MS &&
      cert.checkIssued(new X509Certificate(ca.cert)) &&
      names.every((name) => (isIP(name) === 0 ? cert.checkHost(name) : cert.checkIP(name)) !== undefined),
    () => makeLeaf(ca, names, nowMs),
  );
  return { ...leaf, ca: ca.cert };
}

interface Pair {
  key: string;
  cert: string;
}

async function keptPair(
  folder: string,
  name: string,
  isGood: (cert: X509Certificate) => boolean,
  make: () => Promise<Pair>,
): Promise<Pair> {
  const keyFile = join(folder, `${name}.key`);
  const certFile = join(folder, `${name}.crt`);
  if (existsSync(keyFile) && existsSync(certFile)) {
    const pair = { key: readFileSync(keyFile, "utf8"), cert: readFileSync(certFile, "utf8") };
    if (isGood(new X509Certificate(pair.cert))) return pair;
  }
  const pair = await make();
  writeFileSync(keyFile, pair.key, { mode: 0o600 });
  writeFileSync(certFile, pair.cert);
  return pair;
}

async function makeCa(nowMs: number): Promise<Pair> {
  const made = await generate([{ name: "commonName", value: "Traytide kitchen CA" }], {
    keyType: "ec",
    algorithm: "sha256",
    ...validFor(nowMs, CA_DAYS),
    extensions: [
      { name: "basicConstraints", cA: true, pathLenConstraint: 0, critical: true },
      { name: "keyUsage", keyCertSign: true, cRLSign: true, critical: true },
    ],
  });
  return { key: made.private, cert: made.cert };
}

async function makeLeaf(ca: Pair, names: readonly string[], nowMs: number): Promise<Pair> {
  const made = await generate([{ name: "commonName", value: "Traytide" }], {
    keyType: "ec",
    algorithm: "sha256",
    ...validFor(nowMs, LEAF_DAYS),
    ca,
    extensions: [
      { name: "basicConstraints", cA: false, critical: true },
      { name: "keyUsage", digitalSignature: true, critical: true },
      { name: "extKeyUsage", serverAuth: true },
      {
        name: "subjectAltName",
        altNames: names.map((name) => (isIP(name) === 0 ? { type: 2, value: name } : { type: 7, ip: name })),
      },
    ],
  });
  return { key: made.private, cert: made.cert };
}

/** A day's grace backwards, for phones whose clock is behind. */
const validFor = (nowMs: number, days: number) => ({
  notBeforeDate: new Date(nowMs - DAY_MS),
  notAfterDate: new Date(nowMs + days * DAY_MS),
});
