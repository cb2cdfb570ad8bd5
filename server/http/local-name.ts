import { isIPv6 } from "node:net";
import type multicastDns from "multicast-dns";
import type { Report } from "#server/words.ts";

/** What is used of multicast DNS. */
export type Mdns = Pick<multicastDns.MulticastDNS, "on" | "query" | "respond" | "destroy">;

export interface LocalNameDeps {
  /** Such as "bakery.local". */
  host: string;
  /** Where this machine is reached: what the name stands for. */
  addresses: () => readonly string[];
  open: () => Mdns;
  wait: (ms: number) => Promise<unknown>;
  report: Report;
}

/** A name by which this machine is found on its network, without a name server. */
export interface LocalName {
  /** Whether this machine answers to it. False where another one does, or the network does not let it. Never rejects. */
  readonly isOurs: Promise<boolean>;
  /** Answers to it no more, and says so. */
  stop: () => Promise<void>;
}

/** RFC 6762 §8.1: three probes, a quarter of a second apart; §8.2: whoever loses a tie asks again after a second. */
const PROBES = 3;
const PROBE_EVERY_MS = 250;
const DEFER_MS = 1000;
/** §8.3: said twice, a second apart. */
const ANNOUNCE_AGAIN_MS = 1000;
/** §10: how long others may remember an address, s. */
const TTL_S = 120;
/** §6.7: who asks from another port is a plain resolver, and is answered by itself. */
const MDNS_PORT = 5353;

type Answer = NonNullable<multicastDns.ResponsePacket["answers"]>[number];

/** Asks whether anybody has the name, and if nobody does, answers to it from then on (RFC 6762). */
export function publishName(deps: LocalNameDeps): LocalName {
  const { host, wait, report } = deps;
  let state: "probing" | "ours" | "not ours" = "probing";
  let isDeferred = false;
  let mdns: Mdns | undefined;

  const records = (ttl = TTL_S) =>
    deps.addresses().map((data) => {
      const type = isIPv6(data) ? ("AAAA" as const) : ("A" as const);
      return { name: host, type, ttl, flush: true, data };
    });
  const isProbing = (): boolean => state === "probing";
  const isName = (name: string): boolean => name.toLowerCase() === host;
  /** The addresses that somebody else gives the name; a record that is taken back lives for 0 s. */
  const foreignIn = (answers: readonly Answer[]): string[] =>
    answers.flatMap((answer) => {
      if ((answer.type !== "A" && answer.type !== "AAAA") || !isName(answer.name) || answer.ttl === 0)
        return [];
      return deps.addresses().includes(answer.data) ? [] : [answer.data];
    });
  /** §8.2: of two that ask at once, whose address comes later. */
  const isTheirs = (addresses: readonly string[]): boolean =>
    (addresses.toSorted().at(-1) ?? "") > (deps.addresses().toSorted().at(-1) ?? "");
  /** What is sent into a network that is not there just now is lost: it is sent again when somebody asks. */
  const ignore = (): void => undefined;

  function announce(): void {
    if (state === "ours") mdns?.respond({ answers: records() }, ignore);
  }
  function give(why: Parameters<Report>[0], cause?: unknown): void {
    if (state === "not ours") return;
    state = "not ours";
    report(why, cause);
    close(ignore);
  }
  function close(then: () => void): void {
    try {
      mdns?.destroy(then);
    } catch {
      // It never opened.
      then();
    }
  }

  function open(): void {
    mdns = deps.open();
    mdns.on("error", (error: Error) => give(({ server }) => server.banner.nameNotPublished(host), error));
    // A network that is gone, or somebody's broken packet.
    mdns.on("warning", ignore);
    mdns.on("networkInterface", announce);
    mdns.on("response", ({ answers = [], additionals = [] }) => {
      const foreign = foreignIn([...answers, ...additionals]);
      if (foreign.length === 0) return;
      // §9: of two that have it, as where two networks were joined, one goes on.
      if (state === "ours" && !isTheirs(foreign)) announce();
      else give(({ server }) => server.banner.nameTaken(host, foreign[0] ?? ""));
    });
    mdns.on("query", ({ id = 0, questions = [], authorities = [] }, from) => {
      const foreign = foreignIn(authorities);
      if (state === "probing" && foreign.length > 0 && isTheirs(foreign)) isDeferred = true;
      if (state !== "ours") return;
      const isAsked = questions.some(({ name, type }) => isName(name) && ["A", "AAAA", "ANY"].includes(type));
      if (!isAsked) return;
      announce();
      if (from.port !== MDNS_PORT) mdns?.respond({ id, questions, answers: records(10) }, from, ignore);
    });
  }

  async function claim(): Promise<boolean> {
    try {
      open();
      do {
        isDeferred = false;
        for (let probe = 0; probe < PROBES && isProbing(); probe += 1) {
          const questions = (["A", "AAAA"] as const).map((type) => ({ name: host, type }));
          mdns?.query({ questions, authorities: records() }, ignore);
          await wait(PROBE_EVERY_MS);
        }
        if (isDeferred) await wait(DEFER_MS);
      } while (isDeferred && isProbing());
      if (!isProbing()) return false;
      state = "ours";
      announce();
      void wait(ANNOUNCE_AGAIN_MS).then(announce);
      return true;
    } catch (error) {
      give(({ server }) => server.banner.nameNotPublished(host), error);
      return false;
    }
  }

  return {
    isOurs: claim(),
    stop: () =>
      new Promise((resolve) => {
        if (state === "not ours" || mdns === undefined) return resolve();
        const wasOurs = state === "ours";
        state = "not ours";
        if (wasOurs) mdns.respond({ answers: records(0) }, () => close(resolve));
        else close(resolve);
      }),
  };
}
