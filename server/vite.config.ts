import { fileURLToPath } from "node:url";
import { defineConfig, type Plugin } from "vite";
import solid from "vite-plugin-solid";
import { markBuilt } from "./built.mjs";
import { codeSplitting } from "./chunks.ts";

const root = fileURLToPath(new URL("..", import.meta.url));
const at = (path: string): string => fileURLToPath(new URL(`../${path}`, import.meta.url));

/** Screens talk over web sockets alone: what the library would poll with is left out. */
const webSocketsOnly: Plugin = {
  name: "web-sockets-only",
  apply: "build",
  enforce: "pre",
  async resolveId(source, importer) {
    if (!source.startsWith("./transports/") || importer?.includes("/engine.io-client/") !== true) return null;
    if (source === "./transports/index.js") return at("shared/client/sync/transports.ts");
    const resolved = await this.resolve(source, importer, { skipSelf: true });
    return resolved && { ...resolved, moduleSideEffects: false };
  },
};

/** The phone's page names all that its small first script asks for, so that it comes at once. */
const firstAtOnce: Plugin = {
  name: "first-at-once",
  apply: "build",
  transformIndexHtml: {
    order: "post",
    handler(html, { path, bundle = {} }) {
      if (path !== "/phone/index.html") return [];
      const chunks = Object.values(bundle).filter((part) => part.type === "chunk");
      const start = chunks.find(({ facadeModuleId }) => facadeModuleId === at("phone/app/start.tsx"));
      const files = new Set(start === undefined ? [] : [start.fileName]);
      for (const file of files)
        for (const next of chunks.find(({ fileName }) => fileName === file)?.imports ?? []) files.add(next);
      const unnamed = [...files].filter((file) => !html.includes(file));
      return unnamed.map((file) => ({
        tag: "link",
        attrs: { rel: "modulepreload", crossorigin: true, href: `/${file}` },
      }));
    },
  },
};

/** Builds the two screens to dist/client and the server to dist/server, in one go. */
export default defineConfig({
  root,
  plugins: [webSocketsOnly, firstAtOnce, solid()],
  server: { watch: { ignored: ["**/data/**", "**/dist/**", "**/tests/**"] } },
  build: {
    assetsInlineLimit: 0,
    modulePreload: {
      polyfill: false,
      resolveDependencies: (_, deps, { hostType }) => (hostType === "html" ? deps : []),
    },
  },
  environments: {
    client: {
      build: {
        // Said here and not for both: what this Safari needs rewritten (private fields) would slow the server down.
        target: ["es2022", "safari15.4"],
        outDir: "dist/client",
        emptyOutDir: true,
        manifest: true,
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
            codeSplitting,
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
            "forecast-worker": at("server/forecast/forecast-worker.ts"),
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
