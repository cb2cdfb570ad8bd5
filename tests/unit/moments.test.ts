import { describe, expect, it } from "vitest";
import { makeMoments } from "#shared/words/moments.ts";

// Intl writes U+202F before AM and PM.
const plain = (text: string): string => text.replaceAll(/\s/gu, " ");
const NOW = Date.UTC(2026, 11, 4, 14, 2);
const HOUR = 3_600_000;

describe("a moment is said with its day where that is not today", () => {
  const { when, whenWithDay, bandTimes } = makeMoments("en-GB", "metric", "UTC");

  it("today, on another day, farther off", () => {
    expect(when(NOW, NOW)).toBe("14:02");
    expect(when(NOW + 19 * HOUR, NOW)).toBe("Sat 09:02");
    expect(when(NOW + 8 * 24 * HOUR, NOW)).toBe("12 Dec 14:02");
    expect(whenWithDay(NOW, NOW)).toBe("Fri 14:02");
  });

  it("a band over midnight", () => {
    expect(bandTimes({ earliestMs: NOW, latestMs: NOW + HOUR }, NOW)).toBe("14:02–15:02");
    expect(bandTimes({ earliestMs: NOW + 8 * HOUR, latestMs: NOW + 12 * HOUR }, NOW)).toBe("22:02–Sat 02:02");
    expect(bandTimes({ earliestMs: NOW + 12 * HOUR, latestMs: NOW + 14 * HOUR }, NOW)).toBe(
      "Sat 02:02–04:02",
    );
  });

  it("the day is the kitchen's, in its own language and clock", () => {
    const us = makeMoments("en-US", "us", "America/New_York");
    expect(plain(us.when(NOW, NOW))).toBe("9:02 AM");
    const spanish = makeMoments("es-ES", "metric", "Asia/Tokyo");
    expect(spanish.when(NOW + 2 * HOUR, NOW)).toBe("sáb 01:02");
  });
});
