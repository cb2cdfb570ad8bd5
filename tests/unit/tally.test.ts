import { describe, expect, test } from "vitest";
import { type Report, tally } from "../support/tally.ts";

const file = (statuses: string[], status = "passed"): Report["testResults"][number] => ({
  name: "a.test.ts",
  startTime: 0,
  endTime: 0,
  status,
  assertionResults: statuses.map((each, k) => ({ fullName: `test ${k}`, status: each })),
});
const report = (success: boolean, ...testResults: Report["testResults"]): Report => ({
  success,
  testResults,
});

describe("counting a run", () => {
  test.each<[string, Report | undefined, number, number]>([
    [
      "passes and failures",
      report(false, file(["passed", "failed", "passed"], "failed"), file(["passed"])),
      3,
      1,
    ],
    ["a skipped test as failed", report(true, file(["passed", "skipped"])), 1, 1],
    ["a test still to be written as failed", report(true, file(["passed", "todo"])), 1, 1],
    ["a file that did not load as failed", report(false, file([], "failed"), file(["passed"])), 1, 1],
    ["a file whose clean-up failed as failed", report(false, file(["passed"], "failed")), 1, 1],
    ["a run without tests as failed", report(true), 0, 1],
    ["an error outside the tests as failed", report(false, file(["passed"])), 1, 1],
    ["a crash as failed", undefined, 0, 1],
    ["a good run as good", report(true, file(["passed"]), file(["passed"])), 2, 0],
  ])("counts %s", (_what, given, passed, failed) => {
    expect(tally("suite", given)).toMatchObject({ passed, failed });
  });
});
