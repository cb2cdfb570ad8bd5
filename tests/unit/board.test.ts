import { TOO_DAMP } from "#tests/support/too-damp.ts";
import { english } from "#shared/words/en/index.ts";
import { spanish } from "#shared/words/es/index.ts";
import { describe, expect, it } from "vitest";
import { asId, type PersonId } from "#shared/ids.ts";
import { airLine, changeLine } from "#display/model/air-line.ts";
import { boardView } from "#display/model/board.ts";
import { nextClosingMs } from "#shared/kitchen/model/opening-hours.ts";
import { orderCard, orderStrip } from "#shared/kitchen/orders/progress.ts";
import { timeLeftOf } from "#shared/kitchen/orders/time-left.ts";
import { fitTiles, readyTiles } from "#shared/kitchen/tray/ready.ts";
import { runsOf } from "#shared/collections.ts";
import { sayNumbers } from "#shared/words/tray-numbers.ts";
import { moreAlertsWays, wallAlerts } from "#display/model/wall-alerts.ts";
import {
  bareKitchen,
  fullKitchen,
  MIN,
  normalKitchen,
  NOW,
  urgent,
  urgentKitchen,
  withTrays,
  type Spot,
} from "#tests/screens/display-kitchens.ts";

const ENGLISH = english("metric", "UTC");
const SPANISH = spanish("metric", "UTC");

const HOUR = 60 * MIN;

const tilesOf = (spots: readonly Spot[]) => {
  const made = withTrays(bareKitchen(), spots);
  return { made, tiles: readyTiles(made.kitchen, made.forecasts, NOW) };
};

/** Ready since so many minutes, its latest still to come. */
const ready = (number: number, minutes: number, more: Partial<Spot> = {}): Spot => ({
  number,
  design: "lantern",
  films: 1,
  wait: [-minutes - 10, -minutes, 30],
  ...more,
});

describe("tray numbers", () => {
  it("neighbours are said as runs", () => {
    expect(sayNumbers([30, 27, 29, 28])).toBe("27–30");
    expect(sayNumbers([40, 18, 23])).toBe("18, 23, 40");
    expect(sayNumbers([1, 2, 5, 8, 9, 9], 2)).toBe("1–2, 5 +2");
    expect(runsOf([])).toEqual([]);
  });
});

describe("ready for hands", () => {
  it("longest wait first; what has not begun comes after, by pick-up", () => {
    const { tiles } = tilesOf([
      { number: 50, design: "moon", films: 0, order: "tide" },
      ready(22, 9),
      ready(7, 12),
      { number: 16, design: "lantern", films: 2, wait: [-40, -20, -10.5] },
    ]);
    expect(tiles.map(({ numbers, is }) => [sayNumbers(numbers), is])).toEqual([
      ["7", "ready"],
      ["16", "check by touch"],
      ["22", "ready"],
      ["50", "to start"],
    ]);
  });

  it("K50 the plan's order goes before the longest wait: what it has hands for now, then by when to begin", () => {
    const { made } = tilesOf([ready(22, 9), ready(7, 12), ready(31, 5)]);
    const planned = (startMin: number, byMin: number) => ({
      act: "flood" as const,
      layer: 1,
      startMs: NOW + startMin * MIN,
      startByMs: NOW + byMin * MIN,
    });
    const plans: Record<number, ReturnType<typeof planned>> = {
      22: planned(0, 60),
      7: planned(25, 10),
      31: planned(-3, 30),
    };
    const finish = { earliestMs: NOW, likelyMs: NOW, latestMs: NOW };
    const trays = Object.fromEntries(
      Object.values(made.kitchen.trays).map(({ id, number }) => [id, { finish, plan: plans[number]! }]),
    );
    const tiles = readyTiles(made.kitchen, { ...made.forecasts, trays }, NOW);
    expect(tiles.map(({ numbers }) => sayNumbers(numbers))).toEqual(["31", "22", "7"]);
  });

  it("names act, icing, place and slot", () => {
    const { tiles } = tilesOf([ready(7, 12, { place: "rack-a", slot: "3" })]);
    expect(tiles[0]).toMatchObject({
      act: { kind: "flood", how: "flood", layer: 1 },
      icing: { name: "sea glass" },
      place: { names: ["Rack A"], slots: [3] },
      sinceMs: NOW - 12 * MIN,
      waitsLong: false,
    });
  });

  it("past its latest time without a touch a tray asks to be checked, and says what follows", () => {
    const { tiles } = tilesOf([{ number: 16, design: "lantern", films: 2, wait: [-40, -20, -7] }]);
    expect(tiles[0]).toMatchObject({
      is: "check by touch",
      act: { kind: "touch" },
      afterwards: { kind: "flood", layer: 2 },
    });
  });

  it("a hot tray says so until it has cooled", () => {
    const { made, tiles } = tilesOf([ready(7, 12, { hotMin: 20 })]);
    expect(tiles[0]?.hotUntilMs).toBe(NOW + 20 * MIN);
    expect(readyTiles(made.kitchen, made.forecasts, NOW + 21 * MIN)[0]?.hotUntilMs).toBeUndefined();
  });

  it("merges neighbours of one design at one act when room is short: 27–30, with the longest of their waits", () => {
    const { made, tiles } = tilesOf([...[27, 28, 29, 30].map((n) => ready(n, n - 20)), ready(7, 3)]);
    expect(fitTiles(made.kitchen, tiles, 6).shown).toHaveLength(5);
    const fitted = fitTiles(made.kitchen, tiles, 2);
    expect(fitted.shown.map(({ numbers }) => sayNumbers(numbers))).toEqual(["27–30", "7"]);
    expect(fitted.shown[0]).toMatchObject({ sinceMs: NOW - 10 * MIN, trayIds: ["t27", "t28", "t29", "t30"] });
    expect(fitted.more).toEqual([]);
  });

  it("does not merge other acts, nor numbers with a gap", () => {
    const { made, tiles } = tilesOf([ready(27, 5), ready(28, 4, { films: 2 }), ready(30, 3)]);
    const fitted = fitTiles(made.kitchen, tiles, 2);
    expect(fitted.shown.map(({ numbers }) => sayNumbers(numbers))).toEqual(["27", "28"]);
    expect(fitted.more).toEqual([30]);
  });

  it("says what has no tile: and 3 more", () => {
    const { kitchen, forecasts } = normalKitchen();
    const fitted = fitTiles(kitchen, readyTiles(kitchen, forecasts, NOW), 6);
    expect(fitted.shown).toHaveLength(6);
    expect(fitted.more).toEqual([18, 23, 40]);
    // By pick-up: Lantern Walk's before Market table's.
    expect(fitted.moreToStart).toEqual([70, 71, 50, 51]);
  });

  it("of 300 trays every one that wants hands is shown or named once", () => {
    const { kitchen, forecasts } = fullKitchen();
    const tiles = readyTiles(kitchen, forecasts, NOW);
    const { shown, more, moreToStart } = fitTiles(kitchen, tiles, 8);
    const numbers = [...shown.flatMap((tile) => tile.numbers), ...more, ...moreToStart];
    expect(numbers.toSorted((a, b) => a - b)).toEqual(
      tiles.flatMap((tile) => tile.numbers).toSorted((a, b) => a - b),
    );
    expect(new Set(numbers).size).toBe(numbers.length);
    expect(shown.every((tile) => tile.numbers.length > 1)).toBe(true);
  });

  it("trays of an order that can wait no longer are marked", () => {
    const { kitchen, forecasts } = urgentKitchen();
    const long = readyTiles(kitchen, forecasts, NOW).filter((tile) => tile.waitsLong);
    expect(long.map(({ numbers }) => sayNumbers(numbers))).toEqual(["7"]);
  });
});

describe("orders", () => {
  it("C33 orders at risk first, then the others by pick-up, then those packed", () => {
    const { kitchen, forecasts } = normalKitchen();
    const cards = orderStrip(kitchen, forecasts, NOW);
    expect(cards.map(({ name, is }) => [name, is])).toEqual([
      ["Lantern Walk", "short"],
      ["Tidepool party", "ready to pack"],
      ["Puffin Club", "unknown"],
      ["Market table", "unknown"],
    ]);
    const due = cards.slice(1).map(({ pickUpAtMs }) => pickUpAtMs);
    expect(due).toEqual(due.toSorted((a, b) => a - b));
    // Late by hours, but to be picked up later than one that may be late by minutes.
    const { key } = cards.find(({ name }) => name === "Puffin Club")!;
    const outlook = { ...forecasts.orders[key]!, spareMin: -400, spareWorstMin: -900 };
    const late = { ...forecasts, orders: { ...forecasts.orders, [key]: outlook } };
    expect(
      orderStrip(kitchen, late, NOW)
        .map(({ name }) => name)
        .slice(0, 2),
    ).toEqual(["Lantern Walk", "Puffin Club"]);
  });

  it("the bar's shares are those of the order's cookies", () => {
    const { kitchen, forecasts } = normalKitchen();
    const card = orderStrip(kitchen, forecasts, NOW).find(({ name }) => name === "Market table")!;
    // 132 cookies: five trays of 12 dry, two are being flooded, two are queued, and 24 stand not on trays yet.
    expect(card).toMatchObject({ done: 0, pickUpAtMs: kitchen.orders["market"]!.pickUpAtMs });
    expect(card.inHand).toBeCloseTo(84 / 132, 12);
    expect(card.done + card.inHand + card.toDo).toBeCloseTo(1, 12);
    expect(orderStrip(kitchen, forecasts, NOW).find(({ name }) => name === "Tidepool party")).toMatchObject({
      is: "ready to pack",
      done: 1,
    });
  });

  it("K35 nothing is promised of an order while some of its cookies are on no tray, and what is short is short", () => {
    const { kitchen, forecasts } = normalKitchen();
    const cardOf = (cookies: number, spareMin: number) => {
      const order = { ...kitchen.orders["market"]!, cookies };
      const orders = { ...kitchen.orders, market: order };
      const outlook = { ...forecasts.orders["market"]!, spareMin, spareWorstMin: spareMin - 60 };
      const known = { ...forecasts, orders: { ...forecasts.orders, market: outlook } };
      return orderStrip({ ...kitchen, orders }, known, NOW).find(({ key }) => key === "market");
    };
    expect(cardOf(132, 600)).toMatchObject({ is: "unknown", status: { code: "off-trays", cookies: 24 } });
    expect(cardOf(108, 600)).toMatchObject({
      is: "spare",
      status: { code: "spare", leastMin: 540, mostMin: 600 },
    });
    expect(cardOf(132, -60)).toMatchObject({
      is: "short",
      status: { code: "late", leastMin: 60, mostMin: 120 },
    });
  });

  /** Market table, its 108 cookies on trays, with a pick-up and cookies of its own. */
  const market = (cookies: number, pickUpAtMs: number, spareMin: number) => {
    const { kitchen, forecasts } = normalKitchen();
    const orders = {
      ...kitchen.orders,
      market: { ...kitchen.orders["market"]!, cookies, pickUpAtMs },
    };
    const opening = Array.from({ length: 7 }, () => ({ fromMin: 6 * 60, toMin: 20 * 60 }));
    const finish = { earliestMs: NOW, likelyMs: NOW, latestMs: NOW };
    const outlook = { finish, spareMin, spareWorstMin: spareMin };
    const settings = { ...kitchen.settings, opening };
    const known = { ...forecasts, orders: { ...forecasts.orders, market: outlook } };
    return { kitchen: { ...kitchen, settings, orders }, forecasts: known };
  };
  const marketCard = ({ kitchen, forecasts }: ReturnType<typeof market>) =>
    orderCard(kitchen, forecasts, kitchen.orders.market, NOW);

  it("K36 an order that must be packed before closing says so instead of what is spare", () => {
    const closesMs = nextClosingMs(market(108, NOW, 0).kitchen.settings, NOW);
    expect(marketCard(market(108, closesMs + HOUR, 600))).toMatchObject({
      is: "spare",
      status: { code: "pack-before", beforeMs: closesMs },
    });
    expect(marketCard(market(108, closesMs + 12 * HOUR, 600))).toMatchObject({
      status: { code: "spare", leastMin: 600, mostMin: 600 },
    });
    expect(marketCard(market(108, closesMs + HOUR, -60))).toMatchObject({ is: "short" });
  });

  it("K35 cookies on no tray that can no longer be ready are short, and rank so", () => {
    const { kitchen, forecasts } = market(132, NOW + 10 * MIN, 600);
    const cards = orderStrip(kitchen, forecasts, NOW);
    expect(cards.find(({ key }) => key === "market")).toMatchObject({
      is: "short",
      status: { code: "off-trays", cookies: 24 },
    });
    const rank = (pickUpAtMs: number): number => {
      const late = market(132, pickUpAtMs, 600);
      return orderStrip(late.kitchen, late.forecasts, NOW).findIndex(({ key }) => key === "market");
    };
    expect(rank(NOW - 24 * HOUR)).toBe(0);
    expect(rank(NOW - 72 * HOUR)).toBeGreaterThan(0);
  });

  it("K13 an order whose trays are past their latest, untouched, asks for a finger before it is packed", () => {
    const { kitchen, forecasts } = normalKitchen();
    const latest = NOW + 1000 * 24 * 60 * MIN;
    const codes = (nowMs: number) => orderStrip(kitchen, forecasts, nowMs).map(({ status }) => status.code);
    expect(codes(latest)).toContain("touch-then-pack");
    expect(codes(NOW)).not.toContain("touch-then-pack");
  });

  it("spare and missing time are never said without their range", () => {
    const finish = { earliestMs: 0, likelyMs: 0, latestMs: 0 };
    const said = (spareMin: number, spareWorstMin: number) => {
      const left = timeLeftOf({ finish, spareMin, spareWorstMin });
      return [left.code, ENGLISH.orders.timeLeft(left), SPANISH.orders.timeLeft(left)];
    };
    expect(said(190, 110)).toEqual(["spare", "1½–3½ h spare", "1½–3½ h de margen"]);
    expect(said(-40, -95)).toEqual(["late", "40 min–2 h late", "40 min–2 h tarde"]);
    expect(said(20, -30)).toEqual(["may-be-late", "up to 30 min late", "hasta 30 min tarde"]);
    expect(timeLeftOf({ finish: { never: TOO_DAMP } })).toEqual({ code: "never" });
    expect(timeLeftOf(undefined)).toEqual({ code: "no-forecast" });
  });

  it.each([
    [{ code: "off-trays", cookies: 36 }, "36 not on trays yet", "36 aún sin bandeja"],
    [{ code: "spoiled", cookies: 1 }, "1 cookie short", "falta 1 galleta"],
    [{ code: "spoiled", cookies: 3 }, "3 cookies short", "faltan 3 galletas"],
    [
      { code: "pack-before", beforeMs: NOW + 60 * HOUR },
      /^pack before \p{L}+ \d\d:/u,
      /^empacar antes: \p{L}+ \d/u,
    ],
  ] as const)("%o is said", (status, english, spanish) => {
    expect(ENGLISH.orders.status(status, NOW)).toMatch(english);
    expect(SPANISH.orders.status(status, NOW)).toMatch(spanish);
  });
});

describe("the air", () => {
  it("what it is, where, and what it means, with bands", () => {
    const { kitchen, forecasts } = normalKitchen();
    expect(airLine(ENGLISH, kitchen, forecasts)).toEqual({
      air: "22.4 °C · 58\u00A0% RH",
      place: "drying rack",
      meaning: "A 2.5 mm flood skins in 1–2 h, dries through in 12–18 h",
    });
  });

  it("in US units for a kitchen that reads them", () => {
    const { kitchen, forecasts } = normalKitchen();
    const us = { ...kitchen, settings: { ...kitchen.settings, units: "us" as const } };
    expect(airLine(english("us", "UTC"), us, forecasts)).toMatchObject({
      air: "72 °F · 58\u00A0% RH",
      meaning: expect.stringContaining("3/32 in flood"),
    });
  });

  it("an old reading, or none, is said to be so", () => {
    const { kitchen, forecasts } = normalKitchen();
    const rack = forecasts.places["rack"]!;
    const { air: _, ...unread } = rack;
    expect(
      airLine(ENGLISH, kitchen, { ...forecasts, places: { rack: { ...rack, basis: "last known" } } })?.doubt,
    ).toBe("last read 14:10: times are wider");
    expect(
      airLine(ENGLISH, kitchen, { ...forecasts, places: { rack: { ...unread, basis: "assumed" } } }),
    ).toMatchObject({
      air: "No air reading",
      doubt: "assumed: no hygrometer read",
    });
    expect(airLine(ENGLISH, kitchen, { ...forecasts, places: {} })).toBeUndefined();
  });

  it("a change of the air is told for an hour", () => {
    const { kitchen, forecasts } = normalKitchen();
    expect(changeLine(ENGLISH, kitchen, forecasts, NOW)).toEqual({
      atMs: forecasts.change!.atMs,
      head: "Humidity up 9 points since 12:30",
      body: "11 trays ready later than first shown",
    });
    expect(changeLine(ENGLISH, kitchen, forecasts, NOW + 41 * MIN)).toBeUndefined();
    const headAt = (rhPctBy: number): string | undefined =>
      changeLine(ENGLISH, kitchen, { ...forecasts, change: { ...forecasts.change!, rhPctBy } }, NOW)?.head;
    // A point or two is not the reason by itself, and is not blamed.
    expect([1.2, -2.4, 2.6].map(headAt)).toEqual([
      "The air has changed since 12:30",
      "The air has changed since 12:30",
      "Humidity up 3 points since 12:30",
    ]);
  });
});

describe("alerts on the wall", () => {
  it("urgent ones, unanswered first, then by how long they have stood; what has its own place is not repeated", () => {
    expect(
      wallAlerts(ENGLISH, urgentKitchen().kitchen).map(({ head, acknowledgedBy }) => [head, acknowledgedBy]),
    ).toEqual([
      ["Switch it off", undefined],
      ["Stop the heat", undefined],
      ["Take trays out", "Ida"],
    ]);
  });

  it("A3 heat in a warm cabinet comes after that of hot air, however long it has run", () => {
    const { kitchen } = normalKitchen();
    const tray = kitchen.trays["t26"]!;
    if (tray.status.stage !== "heat-set") throw new Error("no heat");
    const heat = { ...tray.status.heat, toolKind: "warm-cabinet" as const };
    const trays = { ...kitchen.trays, t26: { ...tray, status: { ...tray.status, heat } } };
    const cabinet = urgent("heat-running-long", 15_000, {
      trayId: asId("t26"),
      trayNumber: 26,
      toolKind: "warm-cabinet",
    });
    const alerts = { ...kitchen.alerts, [cabinet.key]: cabinet };
    expect(wallAlerts(ENGLISH, { ...kitchen, trays, alerts }).map(({ trayNumber }) => trayNumber)).toEqual([
      14, 26,
    ]);
  });

  it("A3 what has no box is named by act and tray, by tray where that is too long, and counted where even that is", () => {
    const stop = (trayNumber: number) => ({
      key: `${trayNumber}`,
      class: "urgent" as const,
      trayId: undefined,
      trayNumber,
      acknowledgedBy: undefined,
      head: "Stop the heat",
      body: "",
      countFromMs: NOW,
    });
    const off = { ...stop(0), trayNumber: undefined, head: "Switch it off" };
    const more = [stop(9), stop(3), stop(4), off];
    // Of what is first among the alerts, not of what has the least number.
    expect(moreAlertsWays(ENGLISH, more)).toEqual([
      "and 4 more · Stop the heat 3–4, 9 · Switch it off",
      "and 4 more: 3–4, 9",
      "and 4 more: 3, 9 +1",
      "and 4 more: 9 +2",
      "and 4 more",
    ]);
    expect(moreAlertsWays(ENGLISH, [])).toEqual([]);
  });

  it("A25 hot air that is too hot is no oven: it is switched off, and no tray is in it", () => {
    const { kitchen } = normalKitchen();
    const told = (toolKind: "hot-air" | "oven") => {
      const tool = { ...kitchen.tools["hot-1"]!, kind: toolKind };
      const alert = urgent("oven-too-hot", 70, { toolId: asId("hot-1"), toolKind });
      return wallAlerts(ENGLISH, { ...kitchen, tools: { "hot-1": tool }, alerts: { [alert.key]: alert } });
    };
    expect(told("hot-air")).toMatchObject([
      {
        head: "Switch it off",
        body: "Wren · hot-air bench 1 · Hotter than it may be for iced work · Let it cool and read it again",
      },
    ]);
    expect(told("oven")[0]?.head).toBe("Take trays out");
    expect(told("oven")[0]?.body).toContain("With dry mitts");
  });

  it("says what to do, who and where, and counts from the start", () => {
    const { kitchen } = normalKitchen();
    expect(wallAlerts(ENGLISH, kitchen)).toEqual([
      {
        key: "heat-running-long:168",
        class: "urgent",
        trayId: "t14",
        trayNumber: 14,
        head: "Stop the heat",
        body: "Wren · hot-air bench 1 · Past its stop-by · Take the heat off, look for cracks",
        countFromMs: NOW - 168_000,
      },
    ]);
  });

  it("A8 a heat-set whose holder's phone is lost is shown, though it is only a prompt", () => {
    const { kitchen } = normalKitchen();
    const alert = urgent("heat-near-stop", 130, {
      class: "prompt",
      trayId: asId("t26"),
      trayNumber: 26,
      toolId: asId("hot-1"),
    });
    expect(wallAlerts(ENGLISH, { ...kitchen, alerts: { [alert.key]: alert } })).toMatchObject([
      {
        class: "prompt",
        trayNumber: 26,
        head: "Touch it now",
        body: expect.stringContaining("Wren · hot-air bench 1"),
      },
    ]);
    const elsewhere = { ...alert, recipients: { wall: false, everyone: false, leads: false, people: [] } };
    expect(wallAlerts(ENGLISH, { ...kitchen, alerts: { [alert.key]: elsewhere } })).toEqual([]);
  });

  it("C11 no one is sent with a finger into a hot chamber from across the room", () => {
    const { kitchen } = normalKitchen();
    const tray = kitchen.trays["t26"]!;
    if (tray.status.stage !== "heat-set") throw new Error("no heat");
    const heat = { ...tray.status.heat, toolKind: "oven" as const };
    const trays = { ...kitchen.trays, t26: { ...tray, status: { ...tray.status, heat } } };
    const alert = urgent("heat-near-stop", 130, {
      class: "prompt",
      trayId: asId("t26"),
      toolKind: "oven",
      trayNumber: 26,
      toolId: asId("hot-1"),
    });
    const [shown] = wallAlerts(ENGLISH, { ...kitchen, trays, alerts: { [alert.key]: alert } });
    expect(shown?.head).toBe("Take it out");
    expect(shown?.body).toContain("With dry mitts, then touch");
  });

  it("A4 a bench shows what whoever taps there is told, in its own words; a wall or another bench does not", () => {
    const { kitchen } = normalKitchen();
    const bench = asId<PersonId>("bench-2");
    const recipients = { wall: false, everyone: false, leads: false, people: [bench] };
    const alert = urgent("heat-near-stop", 130, { class: "prompt", trayId: asId("t26"), recipients });
    const seen = (me?: PersonId) => wallAlerts(ENGLISH, { ...kitchen, alerts: { [alert.key]: alert } }, me);
    expect(seen(bench)).toMatchObject([{ class: "prompt", head: "Touch it now" }]);
    expect(seen(bench)[0]?.body).toContain("Heat nearly at its limit");
    expect([seen(), seen(asId("bench-1"))]).toEqual([[], []]);
  });
});

it("a view holds until the next tray comes in, a hot one cools, or a quarter of a minute has passed", () => {
  const { kitchen, forecasts } = withTrays(bareKitchen(), [
    { number: 1, design: "moon", films: 1, wait: [-1, 0.1, 1] },
  ]);
  expect(boardView(ENGLISH, kitchen, forecasts, NOW).holdsUntilMs).toBe(NOW + 6000);
  expect(boardView(ENGLISH, kitchen, forecasts, NOW + 6000).tiles).toHaveLength(1);
  expect(boardView(ENGLISH, bareKitchen(), forecasts, NOW).holdsUntilMs).toBe(NOW + 15_000);
});
