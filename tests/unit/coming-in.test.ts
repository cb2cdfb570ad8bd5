import { describe, expect, it } from "vitest";
import { asId, type DesignId } from "#shared/ids.ts";
import { comingIn } from "#display/model/coming-in.ts";
import { packLane } from "#display/model/pill-packing.ts";
import { watchShifts, type Shifts } from "#display/model/shift-words.ts";
import { bareKitchen, heating, MIN, normalKitchen, NOW, withTrays } from "#tests/screens/display-kitchens.ts";

const numbersOf = (pills: readonly { numbers: readonly number[] }[]): number[] =>
  pills.flatMap(({ numbers }) => numbers).toSorted((a, b) => a - b);

describe("coming in", () => {
  it("each tray on its way stands in the lane of its stage; what wants hands does not", () => {
    const { kitchen, forecasts } = normalKitchen();
    const lanes = comingIn(kitchen, forecasts, NOW);
    expect(numbersOf(lanes.flooding)).toEqual([41, 42]);
    expect(numbersOf(lanes["heat-set"])).toEqual([14, 26]);
    expect(numbersOf(lanes.crusting)).toEqual([5, 6, 27, 28, 33, 34]);
    expect(numbersOf(lanes["full-dry"])).toEqual([1, 2, 10, 11, 15, 17, 19]);
  });

  it("a pill runs from the earliest to the latest its forecast gives", () => {
    const { kitchen, forecasts } = normalKitchen();
    const pill = comingIn(kitchen, forecasts, NOW).crusting.find(({ label }) => label === "27");
    expect(pill).toMatchObject({
      earliestMs: NOW + 18 * MIN,
      likelyMs: NOW + 26 * MIN,
      latestMs: NOW + 38 * MIN,
    });
  });

  it("under heat it counts up, and runs over the time to check by touch", () => {
    const made = withTrays(bareKitchen(), [
      { number: 26, design: "lantern", films: 1, status: heating(1, 50) },
    ]);
    const [pill] = comingIn(made.kitchen, made.forecasts, NOW)["heat-set"];
    expect(pill).toMatchObject({
      countFromMs: NOW - 50_000,
      earliestMs: NOW + 40_000,
      latestMs: NOW + 100_000,
    });
    expect(pill?.group).toBeUndefined();
  });

  it("A3 a tray past its stop-by stays in the lane and is marked; where room is short all such trays are one pill", () => {
    const { kitchen, forecasts } = normalKitchen();
    const [past, other] = comingIn(kitchen, forecasts, NOW)["heat-set"];
    expect(past).toMatchObject({ label: "14", isOverdue: true, countFromMs: NOW - 168_000 });
    expect([other?.label, other?.isOverdue, other?.group]).toEqual(["26", undefined, undefined]);
    const many = [3, 4, 8].map((number) => ({ ...past!, key: `t${number}`, keys: [`t${number}`] }));
    const pills = many.map((pill, k) => ({ ...pill, numbers: [[3, 4, 8][k]!] }));
    const packed = packLane(pills, NOW, { axisPx: 900, rows: 1, gapPx: 8, leastPx: () => 120 });
    expect(packed.left).toEqual([]);
    expect(packed.pills).toMatchObject([{ numbers: [3, 4, 8], note: "stop", isOverdue: true }]);
    expect(packed.pills[0]).not.toHaveProperty("countFromMs");
  });

  it("what will not dry, or has no forecast yet, says so and gives no time", () => {
    const made = withTrays(bareKitchen(), [
      { number: 1, design: "moon", films: 1, wait: "never" },
      { number: 2, design: "moon", films: 1, wait: "unknown" },
    ]);
    expect(comingIn(made.kitchen, made.forecasts, NOW)["full-dry"]).toMatchObject([
      { label: "1", is: "never", note: "never" },
      { label: "2", is: "unknown", note: "unknown" },
    ]);
  });

  it("trays of one design at one layer are of one group, others are not", () => {
    const made = withTrays(bareKitchen(), [
      { number: 1, design: "puffin", films: 1, wait: [20, 30, 45] },
      { number: 2, design: "puffin", films: 1, wait: [20, 30, 45] },
      { number: 3, design: "lantern", films: 1, wait: [20, 30, 45] },
      { number: 4, design: "lantern", films: 2, wait: [20, 30, 45] },
    ]);
    const groups = comingIn(made.kitchen, made.forecasts, NOW).crusting.map(({ group }) => group);
    expect(groups[0]).toBe(groups[1]);
    expect(new Set(groups).size).toBe(3);
  });
});

describe("a forecast that moves says so", () => {
  const at = (likelyMin: number, nowMin = 0, before: Shifts = new Map()): Shifts => {
    const cookie = { designId: asId<DesignId>("moon"), laid: 1 };
    const pill = { key: "t1", keys: ["t1"], trayIds: ["t1"], numbers: [1], label: "1", ...cookie };
    const likelyMs = NOW + likelyMin * MIN;
    return watchShifts(
      before,
      [{ ...pill, earliestMs: likelyMs, likelyMs, latestMs: likelyMs }],
      NOW + nowMin * MIN,
    );
  };
  const wordOf = (shifts: Shifts): string | undefined => shifts.get("t1")?.moved?.note;

  it("later or sooner, by more than a tenth of the time it spoke of", () => {
    const first = at(60);
    expect(wordOf(first)).toBeUndefined();
    expect(wordOf(at(65, 1, first))).toBeUndefined();
    expect(wordOf(at(70, 1, first))).toBe("later");
    expect(wordOf(at(50, 1, first))).toBe("sooner");
  });

  it("small steps in one direction add up", () => {
    let shifts = at(60);
    for (const likely of [62, 64, 66, 67]) shifts = at(likely, 1, shifts);
    expect(wordOf(shifts)).toBe("later");
  });

  it("drifting towards now is no change, and the word goes after a while", () => {
    const moved = at(80, 1, at(60));
    expect(wordOf(at(80, 10, moved))).toBe("later");
    expect(wordOf(at(80, 22, moved))).toBeUndefined();
  });

  it("a first forecast is no change", () => {
    const bare = withTrays(bareKitchen(), [{ number: 1, design: "moon", films: 1, wait: "unknown" }]);
    const [unknown] = comingIn(bare.kitchen, bare.forecasts, NOW)["full-dry"];
    const foretold = { ...unknown!, likelyMs: NOW + 60 * MIN };
    delete foretold.is;
    const shifts = watchShifts(watchShifts(new Map(), [unknown!], NOW), [foretold], NOW);
    expect(shifts.get(unknown!.key)).toMatchObject({ likelyMs: NOW + 60 * MIN });
    expect(shifts.get(unknown!.key)?.moved).toBeUndefined();
  });

  it("a tray that waits on something new starts afresh", () => {
    const other = watchShifts(at(60), [], NOW);
    expect(other.size).toBe(0);
  });
});

it("a tray whose design is gone breaks nothing", () => {
  const { kitchen, forecasts } = normalKitchen();
  const { lantern: _, ...designs } = kitchen.designs;
  const lanes = comingIn({ ...kitchen, designs }, forecasts, NOW);
  expect(numbersOf(lanes.flooding)).toEqual([41, 42]);
});
