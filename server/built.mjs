// Tells whether what is built is what the sources say now. By their contents: a tree that was copied or checked out again has
// other times, and may have no builder installed.
import { createHash } from "node:crypto";
import { readdirSync, readFileSync, statSync, writeFileSync } from "node:fs";

const SOURCES = ["shared", "server", "display", "phone", "package.json", "package-lock.json"];
const BUILT = [
  "dist/server/main.js",
  "dist/server/forecast-worker.js",
  "dist/server/plan-worker.js",
  "dist/server/backup-child.js",
  "dist/client/display/index.html",
  "dist/client/phone/index.html",
];
const MARK = "dist/sources.sha256";

function filesIn(path) {
  if (!statSync(path).isDirectory()) return [path];
  return readdirSync(path)
    .toSorted()
    .flatMap((name) => filesIn(`${path}/${name}`));
}

/** The sources' names and contents in 64 characters. `root` ends with "/". */
function sourcesSha256(root) {
  const hash = createHash("sha256");
  for (const file of SOURCES.flatMap((path) => filesIn(root + path))) {
    const text = readFileSync(file);
    hash.update(`${file.slice(root.length)} ${text.length}\n`).update(text);
  }
  return hash.digest("hex");
}

export function isBuilt(root) {
  if (BUILT.some((path) => statSync(root + path, { throwIfNoEntry: false }) === undefined)) return false;
  // A tree without its sources can only run what was built.
  if (statSync(`${root}shared`, { throwIfNoEntry: false }) === undefined) return true;
  try {
    return readFileSync(root + MARK, "utf8") === sourcesSha256(root);
  } catch {
    return false;
  }
}

/** Notes down what was built from which sources. */
export function markBuilt(root) {
  writeFileSync(root + MARK, sourcesSha256(root));
}
