import { describe, expect, test } from "vitest";
import { type FileTimes, fileTimeLines, timeLine } from "../support/durations.ts";

const file = (name: string, startTime: number, endTime: number): FileTimes => ({
  name: `/house/tests/${name}`,
  startTime,
  endTime,
});

describe("how long tests took", () => {
  test("folders are summed, the longest first, then the slowest files", () => {
    const files = [
      file("unit/a.test.ts", 1000, 1500),
      file("unit/b.test.ts", 1000, 2500),
      file("server/c.test.ts", 2000, 14_000),
    ];
    expect(fileTimeLines("/house", files)).toEqual([
      "   12.0 s    all files of tests/server",
      "    2.0 s    all files of tests/unit",
      "   12.0 s    tests/server/c.test.ts",
      "    1.5 s    tests/unit/b.test.ts",
      "    0.5 s    tests/unit/a.test.ts",
    ]);
  });

  test("no more than five files are named", () => {
    const files = Array.from({ length: 8 }, (_, k) => file(`unit/${k}.test.ts`, 0, k * 1000));
    const named = fileTimeLines("/house", files).slice(1);
    expect(named).toHaveLength(5);
    expect(named[0]).toBe("    7.0 s    tests/unit/7.test.ts");
  });

  test("a clock set back is no negative time", () => {
    expect(timeLine("Lint", -40)).toBe("    0.0 s  Lint");
  });
});
