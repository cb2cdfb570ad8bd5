// Builds what is stale, then runs the server in this very process, so that signals reach it.
import { spawnSync } from "node:child_process";
import { readdirSync, statSync } from "node:fs";
import { fileURLToPath } from "node:url";

const root = fileURLToPath(new URL("..", import.meta.url));
const SOURCES = ["shared", "server", "display", "phone", "package.json", "package-lock.json"];
const BUILT = [
  "dist/server/main.js",
  "dist/server/plan-worker.js",
  "dist/client/display/index.html",
  "dist/client/phone/index.html",
];

/** The latest change under a path, ms; folders count, so that a removed file is a change too. */
function changedMs(path) {
  const facts = statSync(path);
  if (!facts.isDirectory()) return facts.mtimeMs;
  return Math.max(facts.mtimeMs, ...readdirSync(path).map((name) => changedMs(`${path}/${name}`)));
}

function isStale() {
  const built = BUILT.map((path) => statSync(root + path, { throwIfNoEntry: false })?.mtimeMs ?? 0);
  return Math.min(...built) < Math.max(...SOURCES.map((path) => changedMs(root + path)));
}

const { env } = process;
process.chdir(root);
if (isStale()) {
  // The dictionaries are not built yet.
  const isSpanish = /^es/i.test([env.LC_ALL, env.LC_MESSAGES, env.LANG].find((one) => one) ?? "");
  console.log(isSpanish ? "Preparando las pantallas y el servidor…" : "Building the screens and the server…");
  // In a process of its own: the builder takes some 300 MB, which a server that runs for weeks should not keep.
  const build = [
    "node_modules/vite/bin/vite.js",
    "build",
    "-c",
    "server/vite.config.ts",
    "--app",
    "-l",
    "warn",
  ];
  const buildEnv = { ...env, NODE_ENV: "production" };
  const { status } = spawnSync(process.execPath, build, { stdio: "inherit", env: buildEnv });
  if (status !== 0) process.exit(status ?? 1);
}
process.env.NODE_ENV ??= "production";
await import("../dist/server/main.js");
