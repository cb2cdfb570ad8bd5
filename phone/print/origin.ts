import type { Accessor } from "solid-js";
import type { AddressAnswer } from "#shared/protocol/address.ts";
import { createAnswer } from "#phone/ui/answer.ts";

const ASK_EVERY_MS = 60_000;

/** Whether an address leads only to the machine it is opened on. */
export const isLoopback = (hostname: string): boolean =>
  hostname === "" ||
  /^(localhost|127(\.\d+){3}|\[?::1\]?)$/i.test(hostname) ||
  hostname.endsWith(".localhost");

/**
 * Where phones in the kitchen open this server. Where this page was opened on the server's own machine its address is no other
 * device's: the server is asked. Undefined until it answers.
 */
export function createOrigin({ origin, hostname }: Location): Accessor<string | undefined> {
  if (!isLoopback(hostname)) return () => origin;
  const answer = createAnswer<AddressAnswer>(() => "address", ASK_EVERY_MS);
  return () => {
    const given = answer();
    return given?.ok === true ? given.value.origins[0] : undefined;
  };
}
