import type { Server, ServerOptions } from "node:http";
import { BlockList, isIP, type Socket } from "node:net";

/** Open at once from one address: a kitchen has dozens of screens, each with two or three. */
export const CONNECTIONS_AN_ADDRESS = 256;
/** Open at once in all; what is beyond waits for none, so that those who are in keep their memory. */
export const CONNECTIONS_MOST = 1200;

/**
 * A request's head must be here within 10 s of its connection, the whole of it within 30 s: whoever sends a byte now and then
 * holds nothing open. Looked at every second.
 */
export const SLOW_REQUESTS: Pick<
  ServerOptions,
  "headersTimeout" | "requestTimeout" | "connectionsCheckingInterval"
> = { headersTimeout: 10_000, requestTimeout: 30_000, connectionsCheckingInterval: 1000 };
/** A secure connection must be made within this. */
export const HANDSHAKE_MS = 10_000;
/** An answer of which nothing is read for so long is given up. A live screen's socket has its own heartbeat instead. */
const UNREAD_MS = 60_000;

/** The reverse proxies that speak for others: addresses, or networks such as 10.0.0.0/8. */
export interface TrustedProxies {
  has: (address: string | undefined) => boolean;
}

/** Undefined where an entry is neither an address nor a network. */
export function trustedProxies(entries: readonly string[]): TrustedProxies | undefined {
  const known = new BlockList();
  for (const entry of entries) {
    const [address = "", bits] = entry.split("/");
    const family = familyOf(address);
    if (family === undefined) return undefined;
    const most = family === "ipv4" ? 32 : 128;
    const prefix = bits === undefined ? most : Number(bits);
    if (bits === "" || !Number.isInteger(prefix) || prefix < 0 || prefix > most) return undefined;
    known.addSubnet(address, prefix, family);
  }
  return {
    has(address = "") {
      const plain = address.replace(/^::ffff:/, "");
      const family = familyOf(plain);
      return family !== undefined && known.check(plain, family);
    },
  };
}

function familyOf(address: string): "ipv4" | "ipv6" | undefined {
  const version = isIP(address);
  return version === 0 ? undefined : version === 4 ? "ipv4" : "ipv6";
}

/** Closes what one address opens beyond its share, and what is beyond the whole server's. A proxy has as many as it needs. */
export function limitConnections(
  server: Server,
  proxies: TrustedProxies,
  { anAddress = CONNECTIONS_AN_ADDRESS, most = CONNECTIONS_MOST } = {},
): void {
  const open = new Map<string, number>();
  server.maxConnections = most;
  server.setTimeout(UNREAD_MS);
  server.on("connection", (socket: Socket) => {
    const { remoteAddress } = socket;
    if (remoteAddress === undefined || proxies.has(remoteAddress)) return;
    const held = open.get(remoteAddress) ?? 0;
    if (held >= anAddress) {
      socket.destroy();
      return;
    }
    open.set(remoteAddress, held + 1);
    socket.once("close", () => {
      const left = (open.get(remoteAddress) ?? 1) - 1;
      if (left === 0) open.delete(remoteAddress);
      else open.set(remoteAddress, left);
    });
  });
}
