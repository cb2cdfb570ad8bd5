import type { ChildProcess } from "node:child_process";
import { afterAll, beforeAll, expect, test } from "vitest";
import { type CrashKitchen, crashKitchen } from "../support/crash/crash-kitchen.ts";
import { processLife, simulatedLife } from "../support/crash/lives.ts";
import { playChain, PROCESS_POINTS } from "../support/crash/rounds.ts";
import { steppingClock } from "../support/crash/stepping-clock.ts";
import { randomFrom } from "../support/random.ts";

/** 200 rounds, ten to a seed. One seed alone: `TRAYTIDE_SEED=7 npx vitest run … tests/server/crash-matrix.test.ts`. */
const ROUNDS = 10;
const SEEDS = 20;
/** Up to this seed servers are processes that kill themselves; from there the same server falls silent inside this one. */
const PROCESS_SEEDS = 4;

const alone = process.env["TRAYTIDE_SEED"];
const seeds = alone === undefined ? Array.from({ length: SEEDS }, (_, k) => k + 1) : [Number(alone)];

let kitchen: CrashKitchen;
const running = new Set<ChildProcess>();
beforeAll(async () => {
  kitchen = await crashKitchen();
});
afterAll(() => {
  for (const child of running) child.kill("SIGKILL");
  kitchen.remove();
});

test.concurrent.each(seeds)(
  "P36 whenever the server dies, nothing acknowledged is missing and nothing is there twice: seed %i",
  async (seed) => {
    const counts =
      seed <= PROCESS_SEEDS
        ? await playChain(seed, ROUNDS, kitchen, processLife(running), PROCESS_POINTS)
        : await playChain(seed, ROUNDS, kitchen, simulatedLife(steppingClock(randomFrom(seed)).wallMs));
    console.log(`seed ${seed}: ${JSON.stringify(counts)}`);
    expect(counts.rounds).toBe(ROUNDS);
    expect(counts.acknowledged).toBeGreaterThan(ROUNDS);
  },
  600_000,
);
