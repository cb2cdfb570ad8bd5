import { expect, it } from "vitest";
import type { Advice, Help } from "#shared/kitchen/advice/advice.ts";
import { closingLater } from "#shared/kitchen/model/opening-hours.ts";
import { ForecasterBench } from "../support/forecaster-bench.ts";
import { DAY_AND_NIGHT } from "../support/furnishings.ts";
import { aKitchen, HOUR, MIN, T0 } from "../support/scene.ts";

const adviceOn = (bench: ForecasterBench, orderId: string): Advice => {
  const advice = bench.advice({ orderId });
  if (advice === undefined) throw new Error("no advice");
  return advice;
};
const of = ({ help }: Advice, kind: Help["kind"]): Help | undefined => help.find((one) => one.kind === kind);

/** Trays of one dry layer, an order of their own, and no other place or tool to move or heat them in. */
function bench(trays: number, pickUpMs: number, settings: object): ForecasterBench {
  const own = new ForecasterBench(aKitchen());
  own.scene.as("ida", "lead");
  for (const trayId of ["t1", "t2", "t3"]) own.act("remove-tray", { trayId });
  for (const toolId of ["hot-1", "oven-1"]) own.act("tool-out-of-service", { toolId, reason: "away" });
  for (const placeId of ["fan", "cabinet"]) own.act("remove-place", { placeId });
  own.act("set-kitchen", { settings });
  own.read(45);
  own.act("put-order", {
    order: { id: "o", name: "Order", pickUpAtMs: pickUpMs, cookies: 12 * trays },
  });
  own.act("add-trays", {
    trays: Array.from({ length: trays }, (_, k) => ({
      id: `n${k}`,
      number: 100 + k,
      designId: "moon",
      orderId: "o",
      count: 12,
      placeId: "rack-a",
    })),
  });
  own.settle();
  return own;
}

it("D43 where hands are what is short, one more pair is advised, with the chance before and after", () => {
  // Twenty trays of 30 minutes in one pair of hands are ten hours; in two five.
  const own = bench(20, T0 + 20 * HOUR, { hands: 1, floodingMin: 30, opening: DAY_AND_NIGHT });
  const help = of(adviceOn(own, "o"), "more hands");
  expect(help).toMatchObject({ kind: "more hands", hands: 2 });
  expect(help!.gain!.likelyMin).toBeGreaterThan(3 * 60);
  expect(help!.chance!.after).toBeGreaterThan(help!.chance!.before + 0.05);
  const before = own.forecaster.current().orders["o"]!.chance!;
  expect(help!.chance!.before).toBe(before);
  // With two pairs it comes as it was said.
  own.act("set-kitchen", { settings: { hands: 2 } });
  own.settle();
  expect(own.forecaster.current().orders["o"]!.chance).toBeCloseTo(help!.chance!.after, 1);
});

it("D43 where hands are not what is short, none are advised", () => {
  const own = bench(2, T0 + 4 * HOUR, { hands: 2, floodingMin: 5, opening: DAY_AND_NIGHT });
  expect(of(adviceOn(own, "o"), "more hands")).toBeUndefined();
});

it("D43 what is late because the kitchen closes is advised an hour later closing", () => {
  const day = { fromMin: 360, toMin: 1200 };
  const opening = Array.from({ length: 7 }, () => day);
  const own = bench(1, T0 + 2 * HOUR, { hands: 1, opening, timeZone: "UTC" });
  const { finish } = own.forecaster.current().orders["o"]!;
  if ("never" in finish) throw new Error("bands");
  // Closes ten minutes before it is likely dry; picked up four hours after that.
  const closing = new Date(finish.likelyMs - 10 * MIN);
  const toMin = closing.getUTCHours() * 60 + closing.getUTCMinutes();
  own.act("set-kitchen", { settings: { opening: opening.map(() => ({ ...day, toMin })) } });
  own.act("put-order", {
    order: { id: "o", name: "Order", pickUpAtMs: finish.likelyMs + 4 * HOUR, cookies: 12 },
  });
  own.settle();
  const before = own.forecaster.current().orders["o"]!;
  expect(before.closedAtMs).toBeDefined();
  const help = of(adviceOn(own, "o"), "later closing")!;
  expect(help).toMatchObject({ closesMs: before.closedAtMs, meetsPickUp: true });
  expect(help.chance!.after).toBeGreaterThan(help.chance!.before);
});

it("D43 the likelier it makes it, the sooner it is named", () => {
  const { help } = adviceOn(bench(20, T0 + 20 * HOUR, { hands: 1, floodingMin: 30 }), "o");
  const won = help.map(({ chance }) =>
    chance === undefined ? 0 : Math.round((chance.after - chance.before) / 0.05),
  );
  expect(help.length).toBeGreaterThan(1);
  expect(won).toEqual(won.toSorted((a, b) => b - a));
});

it("D43 an hour later closing is of that day, over midnight too, and not where it would meet the next opening", () => {
  const timeZone = "UTC";
  const monday = Date.UTC(2026, 4, 4);
  const week = (toMin: number, fromMin = 360) => Array.from({ length: 7 }, () => ({ fromMin, toMin }));
  expect(closingLater({ timeZone, opening: week(1200) }, monday + 1200 * MIN, 60)).toEqual(
    week(1200).with(0, { fromMin: 360, toMin: 1260 }),
  );
  expect(closingLater({ timeZone, opening: week(1410) }, monday + 1410 * MIN, 60)?.[0]).toEqual({
    fromMin: 360,
    toMin: 30,
  });
  // Sunday's night shift ends on Monday at 02:00.
  expect(closingLater({ timeZone, opening: week(120) }, monday + 120 * MIN, 60)?.[6]).toEqual({
    fromMin: 360,
    toMin: 180,
  });
  expect(closingLater({ timeZone, opening: week(330) }, monday + 330 * MIN, 60)).toBeUndefined();
  expect(closingLater({ timeZone, opening: week(1200) }, monday + 1100 * MIN, 60)).toBeUndefined();
  expect(closingLater({ timeZone, opening: week(1200) }, Infinity, 60)).toBeUndefined();
});
