import { describe, expect, it } from "vitest";
import type { EvidenceFact } from "#shared/kitchen/model/event.ts";
import { evidenceOf } from "#shared/kitchen/forecast/evidence.ts";
import { type Trust, trustOf } from "#shared/kitchen/calibration/trust.ts";
import { english } from "#shared/words/en/index.ts";
import { type Draws, drawsFrom } from "../support/simulated-kitchen.ts";
import { aKitchen, band, HOUR, MIN, T0 } from "../support/scene.ts";

const ENGLISH = english("metric", "UTC");

let films = 0;
/** One film's fact, shown 30 to 120 min with 60 the likeliest unless told. */
function fact(
  low: number | null,
  high: number | null,
  { shown = [30, 60, 120], ...more }: Partial<Omit<EvidenceFact, "shown">> & { shown?: number[] } = {},
): EvidenceFact {
  films += 1;
  const [earliestMin = 0, likelyMin = 0, latestMin = 0] = shown;
  return {
    quantity: "skin",
    icing: "storm",
    place: "rack-a",
    lnLow: null,
    lnHigh: 0,
    atMs: T0 + films * MIN,
    trayNumber: films,
    layer: 0,
    shown: { earliestMin, likelyMin, latestMin },
    foundMin: { low, high },
    ...more,
  };
}

const surprisesOf = (...facts: EvidenceFact[]) => trustOf(facts).surprises;

describe("surprises", () => {
  it("D31 done before the earliest, or not yet after the latest, is one, and says by how much", () => {
    expect(surprisesOf(fact(null, 18))).toMatchObject([{ inside: 0, surprise: { is: "sooner", byMin: 12 } }]);
    expect(surprisesOf(fact(150, null))).toMatchObject([{ inside: 0, surprise: { is: "later", byMin: 30 } }]);
    expect(surprisesOf(fact(130, 400))).toMatchObject([{ surprise: { is: "later", byMin: 10 } }]);
  });

  it("D31 a finding that leaves it open is none", () => {
    expect(surprisesOf(fact(null, 31), fact(119, null), fact(20, 200), fact(null, 300))).toEqual([]);
  });

  it("D31 the last ten are kept, the newest first", () => {
    const facts = Array.from({ length: 14 }, () => fact(null, 10));
    const numbers = surprisesOf(...facts).map(({ trayNumber }) => trayNumber);
    expect(numbers).toEqual(
      facts
        .slice(-10)
        .map(({ trayNumber }) => trayNumber)
        .toReversed(),
    );
  });

  it("is told of in words: which film, where, what was shown and found, how far off", () => {
    const [found] = surprisesOf(fact(205, null, { trayNumber: 18, layer: 1, contradicted: true }));
    expect(ENGLISH.trust.found(found!)).toBe("Skin shown 30 min to 2 h, found not yet at 3 h 25");
    expect(ENGLISH.trust.film(found!)).toBe("Tray 18, layer 2");
    expect(ENGLISH.trust.where("storm", "Rack A", found!.atMs)).toMatch(/^storm · Rack A · Mon \d\d:\d\d$/);
    expect(ENGLISH.trust.where(undefined, "Rack A", found!.atMs)).toMatch(/^an icing since removed/);
    expect(ENGLISH.trust.surprise(found!.surprise!, found!.contradicted)).toBe(
      "at least 1 h 25 later than the latest; its findings disagreed, the later one counts",
    );
  });
});

describe("the share inside", () => {
  it("D30 a bracket in the band counts whole, one across its edge in part", () => {
    const of = (low: number, high: number): number => trustOf([fact(low, high)]).skin.score.inside;
    expect(of(50, 90)).toBe(1);
    expect(of(100, 140)).toBeGreaterThan(0.5);
    expect(of(100, 140)).toBeLessThan(1);
    // Between the 50th and the 90th percentile lies 0.4, beyond the 90th 0.1.
    expect(of(60, 1e9)).toBeCloseTo(0.8, 9);
    expect(of(0, 60)).toBeCloseTo(0.8, 9);
  });

  it("D30 right forecasts come to 80 % whenever hands touch, wrong ones do not", () => {
    const seed = 20260504;
    const draws = drawsFrom(seed);
    const share = (policy: Policy, factor: number): number => {
      let [inside, films] = [0, 0];
      for (let batch = 0; batch < 200; batch += 1) {
        const facts = Array.from({ length: 40 }, () => {
          const reached = 60 * factor * Math.exp((Math.LN2 / Z90) * draws.normal());
          return fact(...policy(reached, draws));
        });
        const { score } = trustOf(facts).skin;
        inside += score.inside;
        films += score.films;
      }
      return inside / films;
    };
    for (const policy of [once, untilDone, pastTheLatest]) {
      // 8000 films: a standard error below 0.0045 (binomial), and up to 0.01 for findings left out as sure.
      expect(Math.abs(share(policy, 1) - 0.8), `seed ${seed}`).toBeLessThan(0.02);
    }
    expect(share(untilDone, 2.2), `seed ${seed}`).toBeLessThan(0.7);
    expect(share(untilDone, 0.45), `seed ${seed}`).toBeLessThan(0.7);
  });

  it("D29 what the forecast took for granted tests nothing", () => {
    const { score } = trustOf([fact(2, null), fact(null, 900)]).skin;
    expect(score.films).toBe(0);
  });

  it("D29 a time that hands knew already was no forecast", () => {
    expect(trustOf([fact(null, 80, { shown: [40, 40, 40] })]).skin.score.films).toBe(0);
    expect(trustOf([fact(null, 80, { quantity: "dryThrough" })]).skin.score.films).toBe(0);
  });
});

/** 90th percentile of the standard normal (from memory; any table of it). */
const Z90 = 1.2815515655446004;

/** When a film that is done at `reached` is touched, and what that leaves: not yet, by. */
type Policy = (reached: number, draws: Draws) => [low: number | null, high: number | null];

const once: Policy = (reached, { uniform }) => {
  const atMin = 15 + 200 * uniform();
  return reached <= atMin ? [null, atMin] : [atMin, null];
};
const untilDone: Policy = (reached, { uniform }) => {
  let [low, atMin] = [0, 20 + 30 * uniform()];
  for (; atMin < reached; atMin += 10 + 20 * uniform()) low = atMin;
  return [low === 0 ? null : low, atMin];
};
const pastTheLatest: Policy = (reached) => (reached <= 125 ? [null, 125] : [125, null]);

describe("the score", () => {
  const of = (...facts: EvidenceFact[]): Trust["skin"]["score"] => trustOf(facts).skin.score;
  const many = (count: number, low: number, high: number): EvidenceFact[] =>
    Array.from({ length: count }, () => fact(low, high));

  it("D29 the last forty films count, and 8 in 10 are expected", () => {
    const score = of(...many(30, 130, 140), ...many(8, 130, 140), ...many(32, 50, 70));
    expect(score).toMatchObject({ films: 40, inside: 32, expected: 32, later: 8, verdict: "as expected" });
    expect(ENGLISH.trust.score(score).head).toBe(
      "Of the last 40 films touched, about 32 count as inside the band shown (32 expected, 8 in 10): as it should be.",
    );
    expect(ENGLISH.trust.score(score).body).toMatch(
      /^8 findings lie wholly outside: 8 later\. A touch says only/,
    );
  });

  it("D29 fewer inside than films, none wholly outside: what is left is open, not a miss", () => {
    const { head, body } = ENGLISH.trust.score({ ...of(...many(40, 50, 70)), inside: 35.2 });
    expect(head).toContain("about 35 count as inside the band shown");
    expect(body).toBe(
      "No finding rules its band out. A touch says only “by now” or “not yet”, so each film counts by the part of that which lies inside its band, and the rest is open.",
    );
  });

  it("D29 too few, and more than bands need, are told apart from chance", () => {
    expect(of(...many(26, 50, 70), ...many(14, 5, 10)).verdict).toBe("too few");
    expect(of(...many(40, 50, 70)).verdict).toBe("more than expected");
    expect(of(...many(5, 50, 70)).verdict).toBe("too early to tell");
  });

  it("says when there is nothing yet, or one film", () => {
    expect(ENGLISH.trust.score(of()).head).toMatch(/^No film was touched yet/);
    expect(ENGLISH.trust.score(of(fact(50, 70))).head).toMatch(
      /^Of the one film touched, about 1 counts as inside .+ too few films/,
    );
  });

  it("draws the newest twenty, the shortest forecast first", () => {
    const facts = Array.from({ length: 25 }, (_, k) =>
      fact(40, 70, { shown: [30, 60 + ((k * 7) % 25), 120] }),
    );
    const { drawn } = trustOf(facts).skin;
    expect(drawn).toHaveLength(20);
    const likely = drawn.map(({ likelyMin }) => likelyMin);
    expect(likely).toEqual(likely.toSorted((a, b) => a - b));
    expect(drawn.map(({ trayNumber }) => trayNumber).toSorted((a, b) => a - b)).toEqual(
      facts.slice(5).map(({ trayNumber }) => trayNumber),
    );
  });
});

describe("a kitchen's own findings", () => {
  /** t2 laid at T0, its skin shown for 60–80 min and its dry-through for 8–10 h. */
  const laid = () => {
    const scene = aKitchen();
    scene.act("flooded", { trayId: "t2" });
    return scene.forecast("t2", 0, {
      skin: band(T0 + 70 * MIN),
      dryThrough: band(T0 + 9 * HOUR, HOUR),
    });
  };

  it("D13 D31 a touch taken back counts no more", () => {
    const scene = laid().later(30 * MIN);
    const touch = scene.act("touch-test", { trayId: "t2", finding: "skinned" });
    expect(trustOf(evidenceOf(scene.kitchen)).surprises).toMatchObject([
      { trayNumber: 7, quantity: "skin", byMin: 30, surprise: { is: "sooner", byMin: 30 } },
    ]);
    scene.act("take-back", { trayId: "t2", actId: touch });
    const after = trustOf(evidenceOf(scene.kitchen));
    expect(after.surprises).toEqual([]);
    expect(after.skin.score.films).toBe(0);
  });

  it("D29 a forecast made before the tray was moved is void: it was of another air", () => {
    const scene = laid().later(100 * MIN);
    scene.act("touch-test", { trayId: "t2", finding: "skinned" });
    scene.act("move-tray", { trayId: "t2", placeId: "cabinet" });
    scene.later(3 * HOUR);
    scene.forecast("t2", 0, { dryThrough: band(scene.nowMs, 30 * MIN) });
    scene.act("touch-test", { trayId: "t2", finding: "firm" });
    const trust = trustOf(evidenceOf(scene.kitchen));
    expect(trust.surprises).toEqual([]);
    expect(trust.dryThrough.drawn).toMatchObject([{ earliestMin: 250, latestMin: 310, byMin: 280 }]);
  });

  it("D29 moved to another slot of the same rack, the forecast stands", () => {
    const scene = laid().later(100 * MIN);
    scene.act("touch-test", { trayId: "t2", finding: "skinned" });
    scene.act("move-tray", { trayId: "t2", placeId: "rack-a", slot: "9" });
    scene.later(3 * HOUR).act("touch-test", { trayId: "t2", finding: "firm" });
    expect(trustOf(evidenceOf(scene.kitchen)).surprises).toMatchObject([
      { quantity: "dryThrough", earliestMin: 480, surprise: { is: "sooner", byMin: 200 } },
    ]);
  });
});
