import type { Server } from "node:http";
import type { RequestHandler } from "express";
import { createServer, mergeConfig } from "vite";
import config from "./vite.config.ts";

/** The two screens straight from their sources, replaced while they run (on the very port of the server). */
export async function devScreens(http: Server, hosts: readonly string[]): Promise<RequestHandler> {
  const vite = await createServer(
    mergeConfig(config, {
      configFile: false,
      appType: "mpa",
      server: { middlewareMode: true, ws: { server: http }, allowedHosts: [...hosts] },
    }),
  );
  http.on("close", () => void vite.close());
  return vite.middlewares;
}
