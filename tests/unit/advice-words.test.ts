import { describe, expect, it } from "vitest";
import type { Help } from "#shared/kitchen/advice/advice.ts";
import { timeLeftOf } from "#shared/kitchen/orders/time-left.ts";
import { english } from "#shared/words/en/index.ts";
import { spanish } from "#shared/words/es/index.ts";

const { advice } = english("metric", "UTC");
const { advice: consejos } = spanish("metric", "UTC");
const finish = { earliestMs: 0, likelyMs: 0, latestMs: 0 };

/** So many hours won, from the least to the most. */
const won = (leastH: number, mostH: number): Help["gain"] => ({
  leastMin: 60 * leastH,
  likelyMin: 30 * (leastH + mostH),
  mostMin: 60 * mostH,
});
/** So many hours spare at the likeliest, and at the latest. */
const left = (likelyH: number, worstH: number) =>
  timeLeftOf({ finish, spareMin: 60 * likelyH, spareWorstMin: 60 * worstH });

describe("what would help, in words", () => {
  it("D33 what it wins is told from least to most", () => {
    expect(advice.gain(won(4, 5))).toBe("4–5 h sooner");
    expect(advice.gain(won(0, 0.75))).toBe("under 45 min sooner");
    expect(consejos.gain(won(4, 5))).toBe("4–5 h antes");
  });

  it("D33 a gain that may be a loss says so", () => {
    expect(advice.gain(won(-35 / 60, 0.75))).toBe("up to 45 min sooner, at worst 35 min later");
    expect(consejos.gain(won(-35 / 60, 0.75))).toBe("hasta 45 min antes, en el peor caso 35 min después");
  });

  it("D33 met, met likely but not surely, and still missed, are told apart", () => {
    expect(advice.pickUp(left(2, 1))).toBe("pick-up met, 1–2 h spare");
    expect(advice.pickUp(left(1, -1))).toBe("pick-up likely met, at worst 1 h late");
    expect(advice.pickUp(left(-2, -3))).toBe("pick-up likely still missed, 2–3 h late");
    expect(consejos.pickUp(left(2, 1))).toBe("llega al retiro, 1–2 h de margen");
  });

  it("D43 how likely it is then in time is said beside how likely it is now", () => {
    expect(advice.chance({ before: 0.31, after: 0.82 })).toBe("in time on 8 of 10 days like this, now 3");
    expect(consejos.chance({ before: 0.31, after: 0.82 })).toBe("a tiempo en 8 de cada 10 días así, ahora 3");
  });

  it("D33 where nothing dries as it is, an end at all is the gain", () => {
    expect(advice.gain(undefined)).toBe("it dries at all");
  });

  it.each([
    [
      { kind: "move", trayIds: ["t3", "t2"], trayNumbers: [7, 8], placeId: "fan", placeName: "Fan rack" },
      "Move trays 7 and 8 to Fan rack",
      "Mover las bandejas 7 y 8 a Fan rack",
    ],
    [
      { kind: "heat-set", toolName: "Deck oven" },
      "Heat-set each wet layer: Deck oven",
      "Fijar con calor cada capa húmeda: Deck oven",
    ],
    [
      { kind: "drier air", fromPct: 58, toPct: 45 },
      "Dry the room's air from 58\u00A0% to 45\u00A0%",
      "Secar el aire de la sala del 58\u00A0% al 45\u00A0%",
    ],
    [
      { kind: "thinner", byPct: 20 },
      "Lay the poured layers still to come 20\u00A0% thinner",
      "Poner las capas de relleno que faltan un 20\u00A0% más finas",
    ],
    [{ kind: "more hands", hands: 4 }, "One more pair of hands, 4 in all", "Una persona más, 4 en total"],
    [
      { kind: "later closing", closesMs: Date.UTC(2026, 4, 9, 20), atMs: Date.UTC(2026, 4, 9, 21) },
      "Close at 21:00 instead of Sat 20:00",
      "Cerrar a las 21:00 en vez de sáb 20:00",
    ],
  ] as const)("%o is said", (act, english, spanish) => {
    expect(advice.act(act)).toBe(english);
    expect(consejos.act(act)).toBe(spanish);
  });
});
