import { describe, expect, it } from "vitest";
import { HARMONICS, PITCH_HZ, PULSES } from "#shared/client/screen/sound-pattern.ts";

const CLASSES = ["urgent", "prompt", "note"] as const;

describe("sound (IEC 60601-1-8's numbers, from a page that quotes them)", () => {
  it("urgent 10 pulses, prompt 3, note 1 or 2", () => {
    expect(PULSES.urgent).toHaveLength(10);
    expect(PULSES.prompt).toHaveLength(3);
    expect([1, 2]).toContain(PULSES.note.length);
  });

  it.each(CLASSES)("%s: fundamental 150–1000 Hz, at least 4 more tones within 300–4000 Hz", (kind) => {
    const hz = PITCH_HZ[kind];
    expect(hz).toBeGreaterThanOrEqual(150);
    expect(hz).toBeLessThanOrEqual(1000);
    const harmonics = HARMONICS.flatMap((level, n) => (n >= 2 && level > 0 ? [n * hz] : []));
    expect(harmonics.filter((tone) => tone >= 300 && tone <= 4000).length).toBeGreaterThanOrEqual(4);
  });

  it.each(CLASSES)(
    "%s is over within 3 s, so that WCAG 1.4.2 needs no switch, and its pulses do not overlap",
    (kind) => {
      const pulses = PULSES[kind];
      const ends = pulses.map(({ atS, lengthS }) => atS + lengthS);
      expect(Math.max(...ends)).toBeLessThan(3);
      for (const [index, pulse] of pulses.slice(1).entries()) expect(pulse.atS).toBeGreaterThan(ends[index]!);
    },
  );

  it.each(CLASSES)(
    "%s is not the fire signal of ISO 8201: 0.5 s on, 0.5 s off, three times, then 1.5 s off",
    (kind) => {
      const on = PULSES[kind].filter(({ lengthS }) => lengthS >= 0.45 && lengthS <= 0.55);
      expect(on).toEqual([]);
    },
  );
});
