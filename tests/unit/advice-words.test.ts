import { describe, expect, it } from "vitest";
import type { Help } from "#shared/kitchen/advice/advice.ts";
import { helpWords } from "#shared/words/advice.ts";
import type { Band } from "#shared/kitchen/model/forecast.ts";
import { aKitchen, HOUR, MIN, T0 } from "../support/scene.ts";

const { kitchen } = aKitchen();
/** Picked up 30 h from now; packing takes as long as the kitchen says. */
const order = kitchen.orders["walk"]!;
const packedH = kitchen.settings.packingMin / 60;

/** Dry through so many hours before packing would just make it; the earliest to the latest. */
const finish = (earliestH: number, likelyH: number, latestH: number): Band => {
  const at = (hours: number): number => T0 + (30 - packedH - hours) * HOUR;
  return { earliestMs: at(earliestH), likelyMs: at(likelyH), latestMs: at(latestH) };
};
const help = (band: Band, more: Partial<Help> = {}): Help => ({
  kind: "drier air",
  what: "Dry the room’s air from 58 % to 45 %",
  finish: band,
  meetsPickUp: true,
  ...more,
});
const said = (before: Band, after: Band) => helpWords(kitchen, order, before, help(after), T0);

describe("what would help, in words", () => {
  it("D33 what it wins is told from least to most, and the pick-up with its spare time", () => {
    expect(said(finish(-1, -2, -3), finish(4, 2, 1))).toMatchObject({
      gain: "4–5 h sooner",
      pickUp: "pick-up met, 1–2 h spare",
      isMet: true,
    });
  });

  it("D32 a gain that may be a loss says so", () => {
    expect(said(finish(3, 2, 1), finish(3.75, 2.5, 1 - 35 / 60)).gain).toBe(
      "up to 45 min sooner, at worst 35 min later",
    );
    expect(said(finish(3, 2, 1), finish(3.75, 2.5, 1)).gain).toBe("under 45 min sooner");
  });

  it("D32 met likely but not surely, and missed all the same, are told apart", () => {
    expect(said(finish(-1, -2, -3), finish(2, 1, -1))).toMatchObject({
      pickUp: "pick-up likely met, at worst 1 h late",
      isMet: true,
    });
    expect(said(finish(-3, -4, -6), finish(-1, -2, -3))).toMatchObject({
      pickUp: "pick-up missed all the same, 2–3 h short",
      isMet: false,
    });
  });

  it("D32 where nothing dries as it is, an end at all is the gain", () => {
    expect(said({ never: "the air is too damp" }, finish(3, 2, 1)).gain).toBe("it dries at all");
  });

  it("a time gone by counts as now: packing starts no sooner", () => {
    const past = { earliestMs: T0 - 3 * HOUR, likelyMs: T0 - 2 * HOUR, latestMs: T0 - HOUR };
    const late = { ...order, pickUpAtMs: T0 + kitchen.settings.packingMin * MIN - 10 * MIN };
    expect(helpWords(kitchen, late, finish(-1, -2, -3), help(past), T0).isMet).toBe(false);
  });
});
