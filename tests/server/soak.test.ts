import { spawnSync } from "node:child_process";
import { fileURLToPath } from "node:url";
import { expect, test } from "vitest";

const root = fileURLToPath(new URL("../..", import.meta.url));
const soak = (...args: string[]) =>
  spawnSync("node_modules/.bin/tsx", ["tests/soak.ts", ...args], { cwd: root, encoding: "utf8" });

test("the soak names its seed, counts, and ends once its time is over; a time that is none is refused", () => {
  const short = soak("--minutes", "0.001", "--seed", "6");
  expect(short.stdout).toMatch(/^seed 6 \(clock stepping\): so far 10 rounds, \d+ commands acknowledged/);
  expect(short.stdout).toMatch(/Nothing lost, nothing twice\.\n$/);
  expect(short.status).toBe(0);
  expect(soak("--minutes", "none").stderr).toContain('--minutes must be more than 0: it is "none"');
}, 120_000);
