// Whether what was built is older than what it is built from.
import { readdirSync, statSync } from "node:fs";

const SOURCES = ["shared", "server", "display", "phone", "package.json", "package-lock.json"];
const BUILT = [
  "dist/server/main.js",
  "dist/server/plan-worker.js",
  "dist/server/backup-child.js",
  "dist/client/display/index.html",
  "dist/client/phone/index.html",
];

/** The latest change under a path, ms; folders count, so that a removed file is a change too. */
function changedMs(path) {
  const facts = statSync(path, { throwIfNoEntry: false });
  if (facts === undefined) return 0;
  if (!facts.isDirectory()) return facts.mtimeMs;
  return Math.max(facts.mtimeMs, ...readdirSync(path).map((name) => changedMs(`${path}/${name}`)));
}

export function isStale(root) {
  const built = BUILT.map((path) => statSync(root + path, { throwIfNoEntry: false })?.mtimeMs ?? 0);
  return Math.min(...built) < Math.max(...SOURCES.map((path) => changedMs(root + path)));
}
