import { setTimeout as wait } from "node:timers/promises";
import multicastDns from "multicast-dns";
import { afterEach, expect, test } from "vitest";
import { type LocalName, type Mdns, publishName } from "#server/http/local-name.ts";
import { inLog } from "#server/words.ts";

/** A port of the test's own: no name of it reaches the network's other machines, and none of theirs the test. */
const port = 20_000 + Math.floor(Math.random() * 10_000);
const HOST = "bakery.local";
const names: LocalName[] = [];
const others: Mdns[] = [];
afterEach(async () => {
  await Promise.all(names.splice(0).map((name) => name.stop()));
  for (const other of others.splice(0)) other.destroy();
});

interface Machine {
  name: LocalName;
  said: string[];
}

function machine(address: string, open: () => Mdns = () => multicastDns({ port })): Machine {
  const said: string[] = [];
  const name = publishName({
    host: HOST,
    addresses: () => [address],
    open,
    wait,
    report: (say) => void said.push(inLog(say)),
  });
  names.push(name);
  return { name, said };
}

interface Heard {
  data: unknown;
  ttl: number;
}

/** What is answered for the name, from now on. */
function listen(): { ask: () => void; heard: Heard[] } {
  const heard: Heard[] = [];
  const mdns = multicastDns({ port });
  others.push(mdns);
  mdns.on("response", ({ answers = [] }) => {
    for (const answer of answers)
      if (answer.type === "A" && answer.name === HOST)
        heard.push({ data: answer.data, ttl: answer.ttl ?? 0 });
  });
  return { ask: () => mdns.query("BAKERY.local", "A"), heard };
}

test("P38 a kitchen's name is answered with its address, and taken back as the server stops", async () => {
  const { name, said } = machine("192.0.2.7");
  expect(await name.isOurs).toBe(true);
  const { ask, heard } = listen();
  ask();
  await expect.poll(() => heard).toContainEqual({ data: "192.0.2.7", ttl: 120 });
  await name.stop();
  await expect.poll(() => heard.at(-1)).toEqual({ data: "192.0.2.7", ttl: 0 });
  expect(said).toEqual([]);
});

test("P39 where another machine answers to the name, that is said and the server goes on without it", async () => {
  const first = machine("192.0.2.7");
  expect(await first.name.isOurs).toBe(true);
  const second = machine("192.0.2.9");
  expect(await second.name.isOurs).toBe(false);
  expect(second.said).toEqual([
    expect.stringMatching(
      /^Another machine, 192\.0\.2\.7, answers to bakery\.local: two kitchens cannot have one name/,
    ),
  ]);
  const { ask, heard } = listen();
  ask();
  await expect.poll(() => heard).not.toEqual([]);
  expect(new Set(heard.map(({ data }) => data))).toEqual(new Set(["192.0.2.7"]));
  expect(first.said).toEqual([]);

  // The spare machine, once the other is off.
  await first.name.stop();
  expect(await machine("192.0.2.9").name.isOurs).toBe(true);
});

test("P39 of two that ask for one name at the same moment one gets it", async () => {
  const both = [machine("192.0.2.7"), machine("192.0.2.9")];
  const ours = await Promise.all(both.map(({ name }) => name.isOurs));
  expect(ours).toEqual([false, true]);
  expect(both.map(({ said }) => said.length)).toEqual([1, 0]);
});

test("P39 a network that lets no name be published is said, and stops nothing", async () => {
  const refused = machine("192.0.2.7", () => {
    throw Object.assign(new Error("bind EACCES"), { code: "EACCES" });
  });
  expect(await refused.name.isOurs).toBe(false);
  expect(refused.said).toEqual([
    expect.stringMatching(/^This network does not let the server answer to bakery/),
  ]);
  await refused.name.stop();
});
