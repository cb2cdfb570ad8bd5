import { spawnSync } from "node:child_process";
import { mkdtempSync, readFileSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { fileURLToPath } from "node:url";
import { fileTimeLines, timeLine } from "./support/durations.ts";
import { installEngines } from "./support/engines/find-engines.ts";
import { findBrowser } from "./support/find-browser.ts";
import { type Report, type Tally, tally } from "./support/tally.ts";

/** `npm test`: everything there is to check, how long each part took; the last line says how many checks passed and failed. */

const root = fileURLToPath(new URL("..", import.meta.url));
const scratch = mkdtempSync(join(tmpdir(), "traytide-run-"));
const NPM = process.platform === "win32" ? "npm.cmd" : "npm";

const run = (command: string, ...args: string[]): number | null =>
  spawnSync(command, args, { cwd: root, stdio: "inherit" }).status;

/** How long each part took, for the end of the run. */
const times: string[] = [];

function timed<Result>(name: string, act: () => Result): Result {
  const fromMs = performance.now();
  try {
    return act();
  } finally {
    times.push(timeLine(name, performance.now() - fromMs));
  }
}

/** One step that counts as one check. */
function step(name: string, act: () => boolean): Tally {
  console.log(`\n${name}`);
  if (timed(name, act)) return { passed: 1, failed: 0, remarks: [] };
  return { passed: 0, failed: 1, remarks: [`${name}: failed`] };
}

function browser(): boolean {
  try {
    process.env["TRAYTIDE_BROWSER"] = findBrowser(process.env["TRAYTIDE_BROWSER"]);
    console.log(process.env["TRAYTIDE_BROWSER"]);
    return true;
  } catch (error) {
    console.error(error instanceof Error ? error.message : error);
    return false;
  }
}

/** The other engines, where they can be had. A missing one is said; it fails its own tests where it was asked for. */
function engines(): Tally {
  const name = "The other browser engines";
  console.log(`\n${name}`);
  const remarks = timed(name, () => installEngines(process.env["TRAYTIDE_ENGINES"]));
  for (const remark of remarks) console.log(remark);
  return { passed: 0, failed: 0, remarks };
}

/** A run of Vitest in a process of its own, so that even its crash is counted; so many files at once. */
function suite(name: string, workers: number, ...projects: string[]): Tally {
  console.log(`\n${name}`);
  const file = join(scratch, `${projects.join("-")}.json`);
  const vitest = [join(root, "node_modules/vitest/vitest.mjs"), "run", "-c", "tests/vitest.config.ts"];
  const which = projects.flatMap((project) => ["--project", project]);
  const reporters = ["--reporter=default", "--reporter=json", `--outputFile.json=${file}`];
  timed(name, () => run(process.execPath, ...vitest, ...which, `--maxWorkers=${workers}`, ...reporters));
  const report = readReport(file);
  times.push(...fileTimeLines(root, report?.testResults ?? []));
  return tally(name, report);
}

function readReport(file: string): Report | undefined {
  try {
    return JSON.parse(readFileSync(file, "utf8")) as Report;
  } catch {
    return undefined;
  }
}

const tallies = [
  step("A browser for the screens", browser),
  engines(),
  step("Types", () => run(NPM, "run", "--silent", "typecheck") === 0),
  step("Lint", () => run(NPM, "run", "--silent", "lint") === 0),
  step("Build", () => run(NPM, "run", "--silent", "build", "--", "-l", "warn") === 0),
  suite("The core, the server and the parts of the screens", 2, "node", "screens"),
  suite("Three servers on one PostgreSQL, killed again and again", 1, "proof"),
  // By itself: a browser on a busy machine makes both of them late.
  suite("The screens in a browser", 1, "e2e"),
  suite("The same stories in each browser engine", 3, "engines"),
  // What mostly waits: a heat that runs long, a server that is silent.
  suite("The screens in a browser, as time goes by", 4, "waits"),
];
rmSync(scratch, { recursive: true });

const passed = tallies.reduce((sum, one) => sum + one.passed, 0);
const failed = tallies.reduce((sum, one) => sum + one.failed, 0);
console.log("\nHow long each part took");
for (const line of times) console.log(line);
console.log(timeLine("in all", performance.now()));
console.log("");
for (const remark of tallies.flatMap(({ remarks }) => remarks)) console.log(remark);
console.log(`${passed} passed, ${failed} failed`);
process.exitCode = failed === 0 && passed > 0 ? 0 : 1;
