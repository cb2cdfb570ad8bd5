import type { FileTimes } from "./durations.ts";

/** What of Vitest's JSON report is counted and timed. */
export interface Report {
  success: boolean;
  testResults: readonly (FileTimes & {
    status: string;
    message?: string;
    assertionResults: readonly { fullName: string; status: string }[];
  })[];
}

/** How many checks passed and failed, and a line on each failure that Vitest itself does not count as one. */
export interface Tally {
  passed: number;
  failed: number;
  remarks: readonly string[];
}

/**
 * Counts a run strictly: what was skipped, a file that did not load, a run that ended badly without a failed test, and a
 * run without any test, are failures.
 */
export function tally(suite: string, report: Report | undefined): Tally {
  if (report === undefined)
    return { passed: 0, failed: 1, remarks: [`${suite}: it crashed and left no report`] };
  const all = report.testResults.flatMap(({ assertionResults }) => assertionResults);
  const passed = all.filter(({ status }) => status === "passed").length;
  const failed = all.filter(({ status }) => status === "failed").length;
  const skipped = all.filter(({ status }) => status !== "passed" && status !== "failed");
  const unread = report.testResults.filter(
    ({ status, assertionResults }) =>
      assertionResults.length === 0 || (status === "failed" && !hasFailed(assertionResults)),
  );
  const remarks = [
    ...skipped.map(({ fullName }) => `${suite}: skipped, which counts as failed: ${fullName}`),
    ...unread.map(
      ({ name, message }) => `${suite}: ${name} failed outside its tests: ${message ?? "it has none"}`,
    ),
  ];
  if (all.length === 0 && unread.length === 0) remarks.push(`${suite}: no test ran`);
  if (!report.success && failed === 0 && remarks.length === 0)
    remarks.push(`${suite}: an error outside the tests`);
  return { passed, failed: failed + remarks.length, remarks };
}

const hasFailed = (results: readonly { status: string }[]): boolean =>
  results.some(({ status }) => status === "failed");
