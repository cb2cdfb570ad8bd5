import { fileURLToPath } from "node:url";
import solid from "vite-plugin-solid";
import { defineConfig } from "vitest/config";

const root = fileURLToPath(new URL("..", import.meta.url));

/** Two projects: everything without a DOM in Node, the screens' components in happy-dom with the Solid plugin. */
export default defineConfig({
  root,
  test: {
    projects: [
      {
        root,
        test: {
          name: "node",
          environment: "node",
          include: ["tests/{unit,property,reference,server}/**/*.test.ts"],
          globalSetup: ["tests/support/postgres-setup.ts"],
          // For a machine that is busy with something else too.
          testTimeout: 20_000,
        },
      },
      {
        root,
        plugins: [solid()],
        test: {
          name: "screens",
          environment: "happy-dom",
          include: ["tests/{unit,screens}/**/*.test.tsx"],
        },
      },
      {
        root,
        test: {
          name: "e2e",
          environment: "node",
          include: ["tests/e2e/*.test.ts"],
          fileParallelism: false,
          testTimeout: 60_000,
          hookTimeout: 120_000,
          // What is waited for comes; on a machine that is busy with something else, later.
          expect: { poll: { timeout: 15_000 } },
        },
      },
      {
        root,
        test: {
          name: "engines",
          environment: "node",
          include: ["tests/e2e/engines/*.test.ts"],
          // Three browsers side by side.
          testTimeout: 120_000,
          hookTimeout: 120_000,
          expect: { poll: { timeout: 15_000 } },
        },
      },
      {
        root,
        test: {
          // Several servers, a database and sixty screens: by itself, as it measures.
          name: "proof",
          environment: "node",
          include: ["tests/proof/*.test.ts"],
        },
      },
      {
        root,
        test: {
          // Tests that mostly wait for time to pass: they wait side by side.
          name: "waits",
          environment: "node",
          include: ["tests/e2e/waits/*.test.ts"],
          testTimeout: 60_000,
          hookTimeout: 120_000,
          expect: { poll: { timeout: 15_000 } },
        },
      },
    ],
  },
});
