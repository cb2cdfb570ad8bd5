import { PRIOR_BELIEF, LEARNING_PRIOR } from "#shared/drying/uncertainty/belief.ts";
import { describe, expect, test } from "vitest";

import { beliefFor, type Evidence, learn } from "#shared/drying/uncertainty/learning.ts";
import { drawsFrom, simulateKitchen } from "#tests/support/simulated-kitchen.ts";

const { kitchenSd, icingSd, oddShare, oddSd, placeSd, daySd } = LEARNING_PRIOR;
/** From one film to the next, each out of a bowl of its own. */
const filmSd = Math.hypot(LEARNING_PRIOR.filmSd, LEARNING_PRIOR.bowlSd);
/** Spread and freaks' share known, no odd icings: what can be worked out by hand. */
const PLAIN = { oddShare: 0, filmSdFilms: Infinity, bowlSdBowls: Infinity, freakShareFindings: Infinity };
/** Nor is any item taken for a freak. */
const TRUSTING = { ...PLAIN, freakShare: 0 };

const exact = (ln: number, icing = "white", place = "rack"): Evidence => ({
  quantity: "skin",
  icing,
  place,
  lnLow: ln,
  lnHigh: ln,
});

const skinOf = (
  evidence: readonly Evidence[],
  prior: Partial<typeof LEARNING_PRIOR> = PLAIN,
  icing = "white",
  place = "rack",
) => beliefFor(learn(evidence, prior), { icing, place }).skin;

/** Solves a·x = b by elimination; `a` positive definite. */
function solve(a: readonly (readonly number[])[], b: readonly number[]): number[] {
  const rows = a.map((row, i) => [...row, b[i]!]);
  for (let k = 0; k < rows.length; k += 1)
    for (let i = k + 1; i < rows.length; i += 1) {
      const factor = rows[i]![k]! / rows[k]![k]!;
      rows[i] = rows[i]!.map((value, j) => value - factor * rows[k]![j]!);
    }
  const x: number[] = [];
  for (let k = rows.length - 1; k >= 0; k -= 1) {
    const known = x.reduce((sum, value, j) => sum + value * rows[k]![k + 1 + j]!, 0);
    x.unshift((rows[k]![rows.length]! - known) / rows[k]![k]!);
  }
  return x;
}

/**
 * The normal with known variances, by the other road: a new film and the seen ones are jointly normal, and the new one is
 * conditioned on the seen (Gelman et al., Bayesian Data Analysis, 3rd ed., §2.5 and app. A; formulas from memory).
 */
function conjugate(seen: readonly Evidence[], icing: string, place: string) {
  const shared = (a: { icing: string; place: string }, b: { icing: string; place: string }): number =>
    kitchenSd ** 2 + (a.icing === b.icing ? icingSd ** 2 : 0) + (a.place === b.place ? placeSd ** 2 : 0);
  const among = seen.map((a, i) => seen.map((b, j) => shared(a, b) + (i === j ? filmSd ** 2 : 0)));
  const withNew = seen.map((a) => shared(a, { icing, place }));
  const isNew = seen.every((one) => one.icing !== icing);
  const newIcing = (1 - oddShare) * icingSd ** 2 + oddShare * oddSd ** 2;
  const total = kitchenSd ** 2 + (isNew ? newIcing : icingSd ** 2) + placeSd ** 2 + filmSd ** 2 + daySd ** 2;
  const dot = (a: readonly number[], b: readonly number[]): number =>
    a.reduce((sum, value, i) => sum + value * b[i]!, 0);
  return {
    meanLn: dot(
      withNew,
      solve(
        among,
        seen.map((a) => a.lnLow),
      ),
    ),
    sdLn: Math.sqrt(total - dot(withNew, solve(among, withNew))),
  };
}

describe("learning from exact times is the conjugate normal update", () => {
  test("before any evidence the belief is the prior's", () => {
    const { skin } = beliefFor(learn([]), { icing: "white", place: "rack" });
    expect(skin.meanLn).toBe(0);
    expect(skin.sdLn).toBeCloseTo(PRIOR_BELIEF.skin.sdLn, 3);
  });

  test("one icing and place: precisions add up (BDA §2.5, from memory)", () => {
    const times = [0.3, 0.1, 0.25, 0.4];
    const priorVariance = kitchenSd ** 2 + icingSd ** 2 + placeSd ** 2;
    const precision = 1 / priorVariance + times.length / filmSd ** 2;
    const { meanLn, sdLn } = skinOf(
      times.map((ln) => exact(ln)),
      TRUSTING,
    );
    // Nothing is approximated here: only rounding is left.
    expect(meanLn).toBeCloseTo(times.reduce((sum, ln) => sum + ln, 0) / filmSd ** 2 / precision, 10);
    expect(sdLn).toBeCloseTo(Math.sqrt(1 / precision + filmSd ** 2 + daySd ** 2), 10);
  });

  test("icings and places that share a kitchen: conditioning the joint normal", () => {
    const draws = drawsFrom(11);
    const seen = Array.from({ length: 25 }, (_, k) =>
      exact(0.3 + 0.2 * draws.normal(), ["white", "navy", "red"][k % 3], ["rack", "cabinet"][k % 2]),
    );
    for (const icing of ["white", "navy", "red", "never used"])
      for (const place of ["rack", "cabinet", "new place"]) {
        const believed = skinOf(seen, TRUSTING, icing, place);
        const reference = conjugate(seen, icing, place);
        expect(believed.meanLn).toBeCloseTo(reference.meanLn, 10);
        expect(believed.sdLn).toBeCloseTo(reference.sdLn, 10);
      }
  });

  test("with freaks allowed for, times that agree give the same within 2 % of the spread", () => {
    // Each fair time keeps a chance of about 2 % of being a freak, so it counts that much less.
    const seen = [0.15, 0.3, 0.05, 0.2, 0.35, 0.1].map((ln) => exact(ln));
    const reference = conjugate(seen, "white", "rack");
    const believed = skinOf(seen);
    expect(Math.abs(believed.meanLn - reference.meanLn)).toBeLessThan(0.02 * reference.sdLn);
    expect(Math.abs(believed.sdLn / reference.sdLn - 1)).toBeLessThan(0.02);
  });
});

/** Tail of the standard normal by Simpson's rule over the density: independent of the series under test. */
function below(z: number): number {
  const reach = Math.min(Math.abs(z), 12);
  const steps = 400;
  let sum = 0;
  for (let i = 0; i <= steps; i += 1) {
    const weight = i === 0 || i === steps ? 1 : 2 + 2 * (i % 2);
    sum += weight * Math.exp(-0.5 * ((reach * i) / steps) ** 2);
  }
  return 0.5 + (Math.sign(z) * sum * reach) / steps / 3 / Math.sqrt(2 * Math.PI);
}

/** Posterior of one icing in one place on a fine grid: Bayes' rule summed, nothing assumed of its shape. */
function onGrid(likelihood: (meanLn: number) => number) {
  const priorVariance = kitchenSd ** 2 + icingSd ** 2 + placeSd ** 2;
  let mass = 0;
  let first = 0;
  let second = 0;
  for (let at = -2.5; at <= 2.5; at += 0.01) {
    const weight = Math.exp((-at * at) / 2 / priorVariance) * likelihood(at);
    mass += weight;
    first += weight * at;
    second += weight * at * at;
  }
  const meanLn = first / mass;
  return { meanLn, sdLn: Math.sqrt(second / mass - meanLn ** 2 + filmSd ** 2 + daySd ** 2) };
}

describe("learning from intervals agrees with Bayes' rule summed on a grid", () => {
  const { freakShare, freakSd } = LEARNING_PRIOR;
  const within = (lnLow: number, lnHigh: number): Evidence => ({ ...exact(0), lnLow, lnHigh });
  const chance = (item: Evidence, mean: number, sd: number): number =>
    below((item.lnHigh - mean) / sd) - below((item.lnLow - mean) / sd);

  test.each<[string, Evidence[]]>([
    ["one interval", [within(0.1, 0.5)]],
    ["still wet, nothing else", [within(0.2, Infinity), within(0.3, Infinity), within(0, Infinity)]],
    ["skinned at the first touch", [within(-Infinity, -0.1), within(-Infinity, 0.1)]],
    [
      "a day of both",
      [within(-0.2, 0.3), within(0, Infinity), within(-Infinity, 0.5), within(0.2, 0.4), within(0.1, 0.6)],
    ],
    [
      "a freak among them",
      [within(-0.2, 0.1), within(-0.1, 0.2), within(-0.3, 0.1), within(-0.1, 0.1), within(1.5, 2)],
    ],
  ])("%s", (_, seen) => {
    const reference = onGrid((mean) =>
      seen.reduce(
        (product, item) =>
          product * ((1 - freakShare) * chance(item, mean, filmSd) + freakShare * chance(item, 0, freakSd)),
        1,
      ),
    );
    const believed = skinOf(seen);
    // A cut normal is a little skew; the normal that stands in for it may miss a few hundredths of the spread.
    expect(Math.abs(believed.meanLn - reference.meanLn)).toBeLessThan(0.03 * reference.sdLn);
    expect(Math.abs(believed.sdLn / reference.sdLn - 1)).toBeLessThan(0.04);
  });
});

describe("D13 Learning does not depend on the order of evidence; taking a finding back unlearns it", () => {
  const { evidence } = simulateKitchen(drawsFrom(5), "skin", {
    films: 60,
    testedShare: 0.4,
    wetRecordedShare: 0.9,
    actShare: 0.5,
    waitMean: 0.4,
    freakShare: 0.05,
  });

  test("without one item the answer is to the last digit what it was before that item", () => {
    const odd = [...evidence, exact(2.1, "navy", "cabinet")];
    expect(learn(odd)).not.toEqual(learn(evidence));
    expect(learn(odd.filter((item) => item.lnLow !== 2.1))).toEqual(learn(evidence));
    expect(learn(evidence.filter(() => false))).toEqual(learn([]));
  });

  test("backwards and sorted by bound give the same to the last digit", () => {
    expect(learn(evidence.toReversed())).toEqual(learn(evidence));
    expect(learn(evidence.toSorted((a, b) => a.lnHigh - b.lnHigh))).toEqual(learn(evidence));
  });
});

describe("D14 One freak finding moves a factor by less than three ordinary ones", () => {
  const steady = [0.12, -0.15, 0.05, -0.2, 0.18].map((ln) => exact(ln));
  const moved = (known: readonly Evidence[], more: readonly Evidence[]): number =>
    Math.abs(skinOf([...known, ...more]).meanLn - skinOf(known).meanLn);
  /** An ordinary film lies one spread off the belief's middle. */
  const threeOrdinary = (known: readonly Evidence[]): number => {
    const { meanLn, sdLn } = skinOf(known);
    return moved(known, [exact(meanLn + sdLn), exact(meanLn + sdLn), exact(meanLn + sdLn)]);
  };
  const late = (ln: number): Evidence => exact(ln);
  const soon = (ln: number): Evidence => ({ ...exact(0), lnLow: -Infinity, lnHigh: -ln });
  const wet = (ln: number): Evidence => ({ ...exact(0), lnLow: ln, lnHigh: Infinity });
  const act = (ln: number): Evidence => ({ ...soon(ln), byAct: true });

  test.each([
    ["an exact time", late],
    ["skinned far too soon", soon],
    ["still wet far too late", wet],
    ["an act far too soon", act],
  ])("after five tests, however odd it is: %s", (_, freak) => {
    for (let ln = 0; ln < 4; ln += 0.05)
      expect(moved(steady, [freak(ln)])).toBeLessThan(threeOrdinary(steady));
  });

  test("with all there is to learn left open, whatever the kitchen's scatter and share of wrong taps come to", () => {
    const meanOf = (evidence: readonly Evidence[]) => skinOf(evidence, {}).meanLn;
    const { meanLn, sdLn } = skinOf(steady, {});
    const ordinary = exact(meanLn + sdLn);
    const three = Math.abs(meanOf([...steady, ordinary, ordinary, ordinary]) - meanLn);
    for (const freak of [late, soon, wet, act])
      for (let ln = 0; ln < 4; ln += 0.05)
        expect(Math.abs(meanOf([...steady, freak(ln)]) - meanLn)).toBeLessThan(three);
  });

  test("a kitchen of many wrong taps learns it: the next freak moves it less, and films scatter no more for them", () => {
    const draws = drawsFrom(21);
    const fair = Array.from({ length: 40 }, () => exact(0.25 * draws.normal()));
    const odd = [1.6, -1.7, 2.1, -1.4, 1.9, -2.2, 1.5].map((ln) => exact(ln));
    const told = (prior: Partial<typeof LEARNING_PRIOR>) =>
      learn([...fair, ...odd], prior).posterior.skin.filmSd;
    expect(told({})).toBeLessThan(told({ freakShareFindings: Infinity }));
    const moved = (known: readonly Evidence[]): number =>
      Math.abs(skinOf([...known, exact(1.1)], {}).meanLn - skinOf(known, {}).meanLn);
    expect(moved([...fair, ...odd])).toBeLessThan(moved(fair));
  });

  test("as the very first test, when the belief gives it less than one chance in a thousand", () => {
    const oddest = 3.3 * PRIOR_BELIEF.skin.sdLn;
    for (let ln = oddest; ln < 4; ln += 0.05) expect(moved([], [exact(ln)])).toBeLessThan(threeOrdinary([]));
  });

  test("yet what several films agree on is believed, however far off the book", () => {
    for (const ln of [-1.6, 1.2, 1.6]) {
      const seen = [-0.1, 0, 0.1, 0.05, -0.05, 0.1, 0, -0.1, 0.05, -0.05, 0.1, 0].map((offset) =>
        exact(ln + offset),
      );
      expect(Math.abs(skinOf(seen).meanLn - ln)).toBeLessThan(0.15);
    }
  });
});

describe("D37 a film's own finding counts once", () => {
  const others = [0.2, 0.35, -0.05].map((ln) => exact(ln));
  const own: Evidence = { quantity: "skin", icing: "white", place: "rack", lnLow: 0.4, lnHigh: Infinity };
  const named = { icing: "white", place: "rack", bowl: "b1", film: "t1/0" };

  // What is believed of it without its own finding is what was believed before that: the others' times are exact, so nothing
  // but its own message changes.
  test.each([undefined, "b1"])("out of %s bowl, asked about where it stands or elsewhere", (bowl) => {
    const ofBowl = bowl === undefined ? {} : { bowl };
    const before = others.map((one) => ({ ...one, ...ofBowl }));
    const all = [...before, { ...own, ...ofBowl, film: "t1/0" }];
    for (const place of ["rack", "cabinet"]) {
      const asked = { ...named, bowl, place };
      const { skin } = beliefFor(learn(all, TRUSTING), asked);
      const without = beliefFor(learn(before, TRUSTING), asked).skin;
      expect(skin.meanLn).toBeCloseTo(without.meanLn, 6);
      expect(skin.sdLn).toBeCloseTo(without.sdLn, 6);
      // Another film goes by it.
      expect(beliefFor(learn(all, TRUSTING), { ...asked, film: "t2/0" }).skin.meanLn).toBeGreaterThan(
        skin.meanLn + 0.01,
      );
    }
  });
});

test("D38 findings under heat move the icing's offset and that heat's, never the kitchen's", () => {
  const heated = [0.5, 0.6, 0.4].map((ln): Evidence => ({ ...exact(ln, "navy"), heat: "oven" }));
  const learned = learn([...heated, exact(0), exact(0.05)], TRUSTING);
  const air = learn([exact(0), exact(0.05)], TRUSTING);
  const asked = { icing: "red", place: "rack" };
  expect(beliefFor(learned, asked).skin.meanLn).toBeCloseTo(beliefFor(air, asked).skin.meanLn, 9);
  expect(beliefFor(learned, { ...asked, icing: "navy", heat: "oven" }).skin.meanLn).toBeGreaterThan(0.3);
  expect(beliefFor(learned, { ...asked, icing: "navy" }).skin.meanLn).toBeGreaterThan(
    beliefFor(air, asked).skin.meanLn,
  );
});

describe("I14 an icing that is said to dry slowly", () => {
  const slow = { icing: "ruby", place: "rack", isSlow: true };

  // Median e^0.3 = 1.35 times, 10th to 90th percentile 0.86 to 2.1 times as long as usual: judgement, no source.
  test("is expected to, by how much is left open, and its own films tell soon", () => {
    const before = beliefFor(learn([]), slow).skin;
    const usual = beliefFor(learn([]), { icing: "ruby", place: "rack" }).skin;
    expect(before.meanLn - usual.meanLn).toBeCloseTo(LEARNING_PRIOR.slowLn, 9);
    expect(before.sdLn).toBeGreaterThan(usual.sdLn);
    const found = (ln: number): Evidence[] =>
      [1, 2, 3, 4, 5, 6].map((k) => ({ ...exact(ln + 0.02 * k, "ruby"), isSlow: true, bowl: `b${k}` }));
    const whites = [1, 2, 3, 4, 5, 6, 7, 8].map((k) => ({ ...exact(0.02 * (k - 4)), bowl: `w${k}` }));
    for (const ln of [0.1, 0.7]) {
      const { skin } = beliefFor(learn([...found(ln), ...whites]), slow);
      expect(Math.abs(skin.meanLn - (ln + 0.07))).toBeLessThan(0.1);
      expect(skin.sdLn).toBeLessThan(before.sdLn);
    }
  });

  test("with exact times it is the conjugate update from that prior", () => {
    const variance = kitchenSd ** 2 + LEARNING_PRIOR.slowSd ** 2 + placeSd ** 2;
    const { meanLn } = beliefFor(learn([{ ...exact(0.8, "ruby"), isSlow: true }], TRUSTING), slow).skin;
    const pull = variance / (variance + filmSd ** 2);
    expect(meanLn).toBeCloseTo(LEARNING_PRIOR.slowLn + pull * (0.8 - LEARNING_PRIOR.slowLn), 6);
  });
});

describe("I15 a bowl's seconds test", () => {
  const seconds = (k: number, closesLn: number, ln: number): Evidence => ({
    ...exact(ln),
    bowl: `b${k}`,
    secondsLn: closesLn,
  });
  // A line through stiffer icing takes longer to close, and stiffer icing skins sooner: a slope of −0.4 to begin with.
  test("stiffer icing is expected to skin sooner, and how much sooner is learned", () => {
    const fresh = (learned: ReturnType<typeof learn>, secondsLn: number) =>
      beliefFor(learned, { icing: "white", place: "rack", bowl: "new", secondsLn }).skin;
    const nothing = learn([]);
    expect(fresh(nothing, 0.5).meanLn).toBeCloseTo(0.5 * LEARNING_PRIOR.secondsLn, 9);
    expect(fresh(nothing, 0.5).sdLn).toBeGreaterThan(fresh(nothing, 0).sdLn);
    const steep = Array.from({ length: 40 }, (_, k) =>
      seconds(k, (k % 5) / 4 - 0.5, -0.9 * ((k % 5) / 4 - 0.5)),
    );
    const slope = fresh(learn(steep), 0.5).meanLn - fresh(learn(steep), -0.5).meanLn;
    expect(slope).toBeLessThan(-0.75);
    expect(slope).toBeGreaterThan(-1.05);
  });
});
