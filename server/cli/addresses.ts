import { hostname, networkInterfaces } from "node:os";

/** The machine's addresses on the kitchen's network, IPv4 first; link-local ones are of no use to a phone. */
export function lanAddresses(): string[] {
  const all = Object.values(networkInterfaces()).flatMap((list) => list ?? []);
  const outside = all.filter(({ internal, address }) => !internal && !/^(169\.254\.|fe80:)/i.test(address));
  return outside.toSorted((a, b) => a.family.localeCompare(b.family)).map(({ address }) => address);
}

/** Every name and address of this machine, as in a certificate; `extra` are those given by hand. */
export function machineNames(extra: readonly string[]): string[] {
  const name = hostname().toLowerCase();
  const names = ["localhost", "127.0.0.1", "::1", name, `${name}.local`, ...lanAddresses(), ...extra];
  return [...new Set(names)];
}

/** The addresses that a screen in the kitchen opens; this machine's own name where it is on no network. */
export const originsOf = (hosts: readonly string[], port: number, isHttps: boolean): string[] =>
  (hosts.length === 0 ? ["localhost"] : hosts).map(
    (host) => `${isHttps ? "https" : "http"}://${urlHost(host)}:${port}`,
  );

/** The same as the host of a URL, where an IPv6 address stands in brackets. */
export const urlHost = (name: string): string => (name.includes(":") ? `[${name}]` : name);

/** The same, the kitchen's own name first where `askedHost`, a Host header, is that name: whoever asks by it can use it. */
export function originsFor(
  askedHost: string | undefined,
  localHost: string | undefined,
  origins: readonly string[],
  isHttps: boolean,
): string[] {
  const asked = `${isHttps ? "https" : "http"}://${askedHost ?? ""}`;
  const isByName = localHost !== undefined && URL.canParse(asked) && new URL(asked).hostname === localHost;
  return isByName ? [asked.toLowerCase(), ...origins] : [...origins];
}
