import { cpSync, mkdirSync, mkdtempSync, readFileSync, rmSync, symlinkSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { dirname, join } from "node:path";
import { fileURLToPath } from "node:url";
import { afterAll, beforeAll, describe, expect, test } from "vitest";
import { startProcess } from "../support/server-process.ts";

const root = fileURLToPath(new URL("../..", import.meta.url));
const read = (path: string): string => readFileSync(join(root, path), "utf8");
const { dependencies } = JSON.parse(read("package.json")) as { dependencies: Record<string, string> };
const { packages } = JSON.parse(read("package-lock.json")) as {
  packages: Record<
    string,
    { dev?: boolean; devOptional?: boolean; hasInstallScript?: boolean; integrity?: string }
  >;
};
const installed = Object.entries(packages).filter(([path]) => path !== "");
const production = installed.filter(([, { dev, devOptional }]) => dev !== true && devOptional !== true);

describe("P44 production dependencies", () => {
  test("each is listed in DEVELOPERS.md with its reason, and nothing else is", () => {
    const [, table = ""] = read("DEVELOPERS.md").split("## Production dependencies");
    const rows = [...table.split("\n## ")[0]!.matchAll(/^\| `([^`]+)` \| (.+) \|$/gm)];
    expect(rows.map(([, name]) => name)).toEqual(Object.keys(dependencies).toSorted());
    for (const [, name, reason] of rows) expect(reason!.length, name).toBeGreaterThan(20);
  });

  test("none runs a script when it is installed, each has its exact version and its hash", () => {
    expect(production.filter(([, { hasInstallScript }]) => hasInstallScript).map(([path]) => path)).toEqual(
      [],
    );
    expect(Object.values(dependencies).filter((version) => !/^\d+\.\d+\.\d+$/.test(version))).toEqual([]);
    expect(installed.filter(([, { integrity }]) => integrity === undefined).map(([path]) => path)).toEqual(
      [],
    );
  });
});

describe("P45 a built tree with production dependencies alone", () => {
  let tree: string;
  let data: string;
  beforeAll(() => {
    tree = `${mkdtempSync(join(tmpdir(), "traytide-production-"))}/`;
    data = mkdtempSync(join(tmpdir(), "traytide-data-"));
    for (const part of ["shared", "server", "display", "phone", "dist", "package.json", "package-lock.json"])
      cpSync(join(root, part), join(tree, part), { recursive: true });
    // What `npm ci --omit=dev` installs, by the lockfile.
    const tops = production.map(([path]) => path).filter((path) => path.split("node_modules/").length === 2);
    for (const path of tops) {
      mkdirSync(dirname(join(tree, path)), { recursive: true });
      symlinkSync(join(root, path), join(tree, path));
    }
  });
  afterAll(() => {
    for (const folder of [tree, data]) rmSync(folder, { recursive: true, force: true });
  });

  test("is not built again, starts, and serves board, phone and health", async () => {
    const server = await startProcess(data, { root: tree });
    try {
      expect(server.said()).not.toMatch(/Building|Installing/);
      for (const path of ["/api/health", "/display/", "/phone/"])
        expect((await server.call("GET", path)).status).toBe(200);
      const { token } = await server.join("Ida");
      expect((await server.call("GET", "/api/board", { token })).status).toBe(200);
    } finally {
      await server.end("SIGTERM");
    }
  });

  test("knows by its contents that it is stale", async () => {
    const { isBuilt } = await import("#server/built.mjs");
    expect(isBuilt(tree)).toBe(true);
    const file = join(tree, "shared/time.ts");
    const before = readFileSync(file, "utf8");
    writeFileSync(file, `${before}\n// changed\n`);
    expect(isBuilt(tree)).toBe(false);
    writeFileSync(file, before);
    expect(isBuilt(tree)).toBe(true);
  });
});
