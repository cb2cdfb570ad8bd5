import { mkdtempSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterEach, expect, test, vi } from "vitest";
import { crashAt, MAY_CRASH } from "#server/crash-points.ts";

const folder = mkdtempSync(join(tmpdir(), "traytide-crash-points-"));
afterEach(() => {
  rmSync(folder, { recursive: true, force: true });
  vi.restoreAllMocks();
});

test("P37 no data folder but a test's own has crash points, whatever the environment says", async () => {
  expect(crashAt("before-append:1", folder)).toBeUndefined();
  writeFileSync(join(folder, MAY_CRASH), "");
  expect(crashAt(undefined, folder)).toBeUndefined();

  const kill = vi.spyOn(process, "kill").mockReturnValue(true);
  const crash = crashAt("before-append:2", folder)!;
  await crash("before-append");
  await crash("after-append");
  expect(kill).not.toHaveBeenCalled();
  void crash("before-append");
  expect(kill).toHaveBeenCalledWith(process.pid, "SIGKILL");
});
