import { fileURLToPath } from "node:url";
import { defineConfig } from "vite";
import solid from "vite-plugin-solid";
import { markBuilt } from "./built.mjs";

const root = fileURLToPath(new URL("..", import.meta.url));
const at = (path: string): string => fileURLToPath(new URL(`../${path}`, import.meta.url));

/** Builds the two screens to dist/client and the server to dist/server, in one go. */
export default defineConfig({
  root,
  plugins: [solid()],
  server: { watch: { ignored: ["**/data/**", "**/dist/**", "**/tests/**"] } },
  build: { assetsInlineLimit: 0 },
  environments: {
    client: {
      build: {
        // Said here and not for both: what this Safari needs rewritten (private fields) would slow the server down.
        target: ["es2022", "safari15.4"],
        outDir: "dist/client",
        emptyOutDir: true,
        rolldownOptions: {
          checks: { pluginTimings: false },
          input: {
            display: at("display/index.html"),
            phone: at("phone/index.html"),
            sw: at("phone/sw.ts"),
            "welcome-en": at("server/welcome/en.html"),
            "welcome-es": at("server/welcome/es.html"),
          },
          output: {
            // A service worker keeps its name: its address is what a phone asks for again.
            entryFileNames: (chunk) => (chunk.name === "sw" ? "phone/sw.js" : "assets/[name]-[hash].js"),
          },
        },
      },
    },
    server: {
      consumer: "server",
      resolve: { noExternal: [], external: true },
      build: {
        ssr: true,
        target: "node20",
        outDir: "dist/server",
        emptyOutDir: true,
        copyPublicDir: false,
        rolldownOptions: {
          input: {
            main: at("server/main.ts"),
            "plan-worker": at("server/forecast/plan-worker.ts"),
            "backup-child": at("server/backup/backup-child.ts"),
            backup: at("server/cli/backup.ts"),
            restore: at("server/cli/restore.ts"),
            verify: at("server/cli/verify.ts"),
            forecast: at("server/cli/forecast.ts"),
            move: at("server/cli/move.ts"),
          },
        },
      },
    },
  },
  builder: {
    buildApp: async (builder) => {
      for (const name of ["client", "server"]) {
        const environment = builder.environments[name];
        if (environment !== undefined) await builder.build(environment);
      }
      markBuilt(root);
    },
  },
});
