// Builds what is stale, then runs the server in this very process, so that signals reach it.
import { spawnSync } from "node:child_process";
import { fileURLToPath } from "node:url";
import { isStale } from "./built.mjs";

const root = fileURLToPath(new URL("..", import.meta.url));
const { env } = process;
process.chdir(root);
if (isStale(root)) {
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
