import type { Server } from "node:http";
import { join } from "node:path";
import type { RequestHandler } from "express";
import { createServer } from "vite";

/** The two screens straight from their sources, replaced while they run (on the very port of the server). */
export async function devScreens(
  root: string,
  http: Server,
  hosts: readonly string[],
): Promise<RequestHandler> {
  const vite = await createServer({
    configFile: join(root, "server/vite.config.ts"),
    appType: "mpa",
    server: { middlewareMode: true, hmr: { server: http }, allowedHosts: [...hosts] },
  });
  http.on("close", () => void vite.close());
  return vite.middlewares;
}
