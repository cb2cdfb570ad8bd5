// Builds what is stale, then runs the server in this very process, so that signals reach it.
import { spawnSync } from "node:child_process";
import { existsSync } from "node:fs";
import { fileURLToPath } from "node:url";
import { isBuilt } from "./built.mjs";

const root = fileURLToPath(new URL("..", import.meta.url));
const { env } = process;
// The dictionaries are not built yet.
const isSpanish = /^es/i.test([env.LC_ALL, env.LC_MESSAGES, env.LANG].find((one) => one) ?? "");
const say = (english, spanish) => console.log(isSpanish ? spanish : english);

/** In a process of its own: the builder takes some 300 MB, which a server that runs for weeks should not keep. */
function run(command, args, more = {}) {
  const { status } = spawnSync(command, args, { stdio: "inherit", env: { ...env, ...more } });
  if (status !== 0) process.exit(status ?? 1);
}

process.chdir(root);
if (!isBuilt(root)) {
  const vite = "node_modules/vite/bin/vite.js";
  if (!existsSync(vite)) {
    say("Installing what builds the screens…", "Instalando lo que prepara las pantallas…");
    const npm = process.platform === "win32" ? "npm.cmd" : "npm";
    run(npm, ["ci", "--include=dev", "--no-audit", "--no-fund"]);
  }
  say("Building the screens and the server…", "Preparando las pantallas y el servidor…");
  const build = [vite, "build", "-c", "server/vite.config.ts", "--app", "-l", "warn"];
  run(process.execPath, build, { NODE_ENV: "production" });
}
process.env.NODE_ENV ??= "production";
await import("../dist/server/main.js");
