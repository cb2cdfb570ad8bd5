// Runs one of the commands beside the server: as it was built where that is current, else from its source.
import { existsSync } from "node:fs";
import { fileURLToPath } from "node:url";
import { isBuilt } from "./built.mjs";

const root = fileURLToPath(new URL("..", import.meta.url));
process.chdir(root);
const [command] = process.argv.splice(2, 1);
const isCurrent = existsSync(`dist/server/${command}.js`) && isBuilt(root);
const compiler = isCurrent ? undefined : await import("tsx/esm/api").catch(() => undefined);
if (compiler === undefined) {
  process.env.NODE_ENV ??= "production";
  await import(`../dist/server/${command}.js`);
} else {
  compiler.register();
  await import(`./cli/${command}.ts`);
}
