import type { ChildProcess } from "node:child_process";
import { existsSync } from "node:fs";
import { parseArgs } from "node:util";
import { crashKitchen } from "./support/crash/crash-kitchen.ts";
import { processLife, simulatedLife } from "./support/crash/lives.ts";
import { playChain, PROCESS_POINTS } from "./support/crash/rounds.ts";
import { steppingClock } from "./support/crash/stepping-clock.ts";
import { randomFrom } from "./support/random.ts";

/**
 * `npm run soak -- --minutes N --seed S`: rounds of acts and deaths on one seed after another, every fourth with servers that are processes,
 * the others with a machine's clock that steps ahead and back. Ends at the first thing that is wrong, naming its seed.
 */

const ROUNDS_A_CHAIN = 10;
const { values } = parseArgs({
  options: { minutes: { type: "string", default: "10" }, seed: { type: "string" } },
});
const minutes = Number(values.minutes);
if (!(minutes > 0)) throw new Error(`--minutes must be more than 0: it is "${values.minutes}"`);
if (!existsSync("dist/server/main.js")) throw new Error("Build the server first: npm run build");

const running = new Set<ChildProcess>();
process.on("exit", () => {
  for (const child of running) child.kill("SIGKILL");
});
const kitchen = await crashKitchen();
const untilMs = Date.now() + minutes * 60_000;
const total = { rounds: 0, acknowledged: 0, events: 0, resent: 0, steps: 0 };
for (let seed = Number(values.seed ?? Date.now() % 1e9); Date.now() < untilMs; seed += 1) {
  const clock = steppingClock(randomFrom(seed));
  const isProcess = seed % 4 === 0;
  const counts = isProcess
    ? await playChain(seed, ROUNDS_A_CHAIN, kitchen, processLife(running), PROCESS_POINTS)
    : await playChain(seed, ROUNDS_A_CHAIN, kitchen, simulatedLife(clock.wallMs));
  total.rounds += counts.rounds;
  total.acknowledged += counts.acknowledged;
  total.events += counts.events;
  total.resent += counts.resent;
  total.steps += clock.steps();
  const how = isProcess ? "processes" : "clock stepping";
  console.log(
    `seed ${seed} (${how}): so far ${total.rounds} rounds, ${total.acknowledged} commands acknowledged, ${total.events} events, ` +
      `${total.resent} sent again, ${total.steps} clock steps`,
  );
}
kitchen.remove();
console.log("Nothing lost, nothing twice.");
process.exit(0);
