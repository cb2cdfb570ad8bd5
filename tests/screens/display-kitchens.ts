import { design, HOT_AIR, icing, layer, rack } from "#tests/support/furnishings.ts";
import { TOO_DAMP } from "#tests/support/too-damp.ts";
import { EMPTY_KITCHEN } from "#shared/kitchen/events/empty-kitchen.ts";
import { NO_FORECASTS, type Forecasts, type PlaceForecast } from "#shared/kitchen/model/forecast.ts";
import type { ActiveAlert, AlertAbout } from "#shared/kitchen/model/alert.ts";
import { filmKey } from "#shared/kitchen/model/lookups.ts";
import type { Film, Kitchen, TrayStatus, Tray } from "#shared/kitchen/model/state.ts";
import type { Design, Tool } from "#shared/kitchen/model/vocabulary.ts";
import type { Settings } from "#shared/kitchen/model/settings.ts";
import { asId } from "#shared/ids.ts";

/** Invented kitchens for the wall, built without commands: a moment on a Thursday afternoon, 14:12. */
export const NOW = Date.UTC(2026, 4, 7, 14, 12);
export const MIN = 60_000;

export interface Made {
  kitchen: Kitchen;
  forecasts: Forecasts;
}

const wide = { thicknessMm: 2.5, narrowestMm: 30 };
const outline = layer("storm outline", "outline", "storm", { narrowestMm: 30 });

const DESIGNS: readonly Design[] = [
  design("lantern", "Lantern", 80, [
    outline,
    layer("sea-glass flood", "flood", "sea-glass", wide),
    layer("butter flood", "flood", "butter", wide),
    outline,
  ]),
  design("puffin", "Puffin", 75, [
    layer("storm flood", "flood", "storm", wide),
    layer("milk flood", "flood", "milk", wide),
    layer("coral detail", "detail", "coral", {
      ...wide,
      touches: [0],
      waits: [{ layer: 0, need: "dry through" }],
    }),
  ]),
  design("moon", "Moon", 65, [layer("butter flood", "flood", "butter", wide)]),
  design("shell", "Shell", 70, [
    layer("coral flood", "flood", "coral", wide),
    layer("milk flood", "flood", "milk", wide),
  ]),
];

const ICINGS = (["sea-glass", "storm", "butter", "milk", "coral"] as const).map((id) => icing(id));

const PLACES = [
  rack("rack", "drying rack", { capacity: 60 }),
  rack("rack-a", "Rack A"),
  rack("rack-b", "Rack B"),
  rack("rack-c", "Rack C"),
  rack("rack-d", "Rack D", { kind: "fan-rack", airSpeedMs: 2 }),
  rack("oven", "Low oven", { kind: "oven", airSpeedMs: 0.5, capacity: 2 }),
];

const byId = <Thing extends { id: string }>(things: readonly Thing[]): Record<string, Thing> =>
  Object.fromEntries(things.map((thing) => [thing.id, thing]));

/** An empty kitchen that has been set up, with people, places, icings and designs. */
export function bareKitchen(wall: Settings["wall"] = { diagonalCm: 140, farthestM: 2.2 }): Kitchen {
  return {
    ...EMPTY_KITCHEN,
    isSetUp: true,
    settings: { ...EMPTY_KITCHEN.settings, name: "Harbour Biscuits", timeZone: "UTC", wall },
    people: {
      wren: { id: asId("wren"), name: "Wren", role: "decorator" },
      ida: { id: asId("ida"), name: "Ida", role: "lead" },
    },
    places: byId(PLACES),
    icings: byId(ICINGS),
    designs: byId(DESIGNS),
    tools: {
      "hot-1": {
        ...(HOT_AIR as Tool),
        name: "hot-air bench 1",
        use: { status: "on", onAtMs: NOW - 10 * MIN, holder: asId("wren") },
      },
    },
  };
}

/** Where a tray is, and when its wait ends: earliest, likeliest, latest, in minutes from now. */
export interface Spot {
  number: number;
  design: string;
  order?: string;
  films: number;
  place?: string;
  slot?: string;
  count?: number;
  wait?: readonly [number, number, number] | "never" | "unknown";
  status?: TrayStatus;
  hotMin?: number;
}

/** A kitchen with these trays, and the forecasts that go with them. */
export function withTrays(kitchen: Kitchen, spots: readonly Spot[]): Made {
  const trays: Record<string, Tray> = {};
  const films: Record<string, Forecasts["films"][string]> = {};
  for (const spot of spots) {
    const id = `t${spot.number}`;
    const design = kitchen.designs[spot.design]!;
    trays[id] = trayAt(spot, design);
    const band =
      spot.wait === "never"
        ? { never: TOO_DAMP }
        : Array.isArray(spot.wait)
          ? {
              earliestMs: NOW + spot.wait[0] * MIN,
              likelyMs: NOW + spot.wait[1] * MIN,
              latestMs: NOW + spot.wait[2] * MIN,
            }
          : undefined;
    if (band === undefined) continue;
    const inHand = spot.status?.stage === "flooding" ? 1 : 0;
    for (let k = 0; k < spot.films + inHand; k += 1)
      films[filmKey(asId(id), k)] = { skin: band, dryThrough: band, basis: "measured" };
  }
  return {
    kitchen: { ...kitchen, trays },
    forecasts: { ...NO_FORECASTS, atMs: NOW, films, places: { rack: RACK_AIR } },
  };
}

const RACK_AIR: PlaceForecast = {
  placeId: "rack",
  air: { tempC: 22.4, rhPct: 58, atMs: NOW - 2 * MIN, ageMin: 2 },
  basis: "measured",
  films: [
    {
      consistency: "flood",
      thicknessMm: 2.5,
      skin: { earliestMs: 60 * MIN, likelyMs: 80 * MIN, latestMs: 105 * MIN },
      dryThrough: { earliestMs: 750 * MIN, likelyMs: 900 * MIN, latestMs: 1080 * MIN },
    },
  ],
};

function trayAt(spot: Spot, design: Design): Tray {
  const id = asId<Tray["id"]>(`t${spot.number}`);
  const placeId = asId<Tray["placeId"]>(spot.place ?? "rack");
  const films: Film[] = Array.from({ length: spot.films }, (_, index) => ({
    layer: index,
    actId: `${id}-${index}`,
    floodingFromMs: NOW - 300 * MIN,
    clockStartMs: NOW - (290 - index * 10) * MIN,
    by: asId("wren"),
    findings: [],
  }));
  return {
    id,
    number: spot.number,
    designId: design.id,
    orderId: asId(spot.order ?? "walk"),
    count: spot.count ?? 12,
    placeId,
    addedAtMs: NOW - 400 * MIN,
    history: [],
    status: spot.status ?? restOf(spot.films, design),
    films,
    placements: [
      { placeId, fromMs: NOW - 400 * MIN, ...(spot.slot === undefined ? {} : { slot: spot.slot }) },
    ],
    heats: [],
    problems: [],
    ...(spot.hotMin === undefined ? {} : { hotUntilMs: NOW + spot.hotMin * MIN }),
  };
}

function restOf(films: number, design: Design): TrayStatus {
  if (films === 0) return { stage: "queued" };
  if (films >= design.layers.length) return { stage: "full-dry" };
  const waitsDry = design.layers[films]?.waits?.some(({ need }) => need === "dry through") ?? false;
  return waitsDry ? { stage: "full-dry", nextLayer: films } : { stage: "crusting", nextLayer: films };
}

const flooding = (layer: number, minAgo: number): TrayStatus => ({
  stage: "flooding",
  layer,
  startedAtMs: NOW - minAgo * MIN,
  by: asId("wren"),
});

function packed(): TrayStatus {
  return { stage: "packed", atMs: NOW - 30 * MIN, by: asId("ida") };
}

export const heating = (layer: number, secondsAgo: number): TrayStatus => ({
  stage: "heat-set",
  returnTo: { placeId: asId("rack-a"), fromMs: NOW - 60 * MIN },
  before: { stage: "crusting", nextLayer: layer + 1 },
  heat: {
    actId: "heat",
    toolId: asId("hot-1"),
    toolKind: "hot-air",
    layer,
    holder: asId("wren"),
    startedAtMs: NOW - secondsAgo * 1000,
    limits: { checkFromS: 90, checkToS: 150, stopByS: 165, capS: 180, settles: true, why: "set time" },
    laps: [],
    lapFromMs: NOW - secondsAgo * 1000,
  },
});

export const urgent = (
  kind: ActiveAlert["kind"],
  secondsAgo: number,
  more: Partial<AlertAbout> & Partial<Omit<ActiveAlert, keyof AlertAbout>> = {},
): ActiveAlert =>
  ({
    key: `${kind}:${secondsAgo}`,
    kind,
    class: "urgent",
    holderId: asId("wren"),
    toolKind: "hot-air",
    stopByS: 165,
    isPhoneLost: false,
    recipients: { wall: true, everyone: true, leads: false, people: [] },
    raisedAtMs: NOW - secondsAgo * 1000,
    sinceMs: NOW - secondsAgo * 1000,
    ...more,
  }) as ActiveAlert;

/** Each has waited so many minutes; its latest is still to come. */
const waited = (minutes: number): [number, number, number] => [-minutes - 20, -minutes, 15];

const NORMAL: readonly Spot[] = [
  { number: 7, design: "lantern", films: 1, place: "rack-a", slot: "3", wait: waited(12) },
  { number: 22, design: "lantern", films: 1, place: "rack-a", slot: "4", wait: waited(9) },
  { number: 31, design: "lantern", films: 3, place: "rack-c", slot: "1", wait: waited(5) },
  { number: 9, design: "moon", films: 1, place: "rack-d", slot: "2", wait: waited(3.5), order: "tide" },
  { number: 12, design: "moon", films: 1, place: "rack-d", slot: "3", wait: waited(3), order: "tide" },
  { number: 16, design: "lantern", films: 2, place: "rack-b", slot: "6", wait: [-40, -20, -7] },
  { number: 18, design: "lantern", films: 2, place: "rack-b", slot: "7", wait: waited(0.8) },
  { number: 23, design: "lantern", films: 2, place: "rack-b", slot: "8", wait: waited(0.5) },
  { number: 40, design: "shell", films: 1, place: "rack-c", slot: "8", wait: waited(0.2) },
  { number: 14, design: "lantern", films: 1, status: heating(1, 168) },
  { number: 26, design: "lantern", films: 1, status: heating(1, 50) },
  { number: 41, design: "shell", films: 0, order: "market", status: flooding(0, 6), wait: [3, 5, 7] },
  { number: 42, design: "shell", films: 0, order: "market", status: flooding(0, 2), wait: [8, 11.5, 16] },
  { number: 5, design: "lantern", films: 1, wait: [4, 6, 10] },
  { number: 6, design: "lantern", films: 1, wait: [6.5, 10, 16] },
  { number: 27, design: "puffin", films: 1, order: "puffin", wait: [18, 26, 38] },
  { number: 28, design: "puffin", films: 1, order: "puffin", wait: [24, 35, 50] },
  { number: 33, design: "puffin", films: 1, order: "puffin", wait: [62, 80, 108] },
  { number: 34, design: "puffin", films: 1, order: "puffin", wait: [70, 92, 124] },
  { number: 1, design: "puffin", films: 2, order: "puffin", wait: [27, 45, 74] },
  { number: 2, design: "puffin", films: 2, order: "puffin", wait: [40, 63, 98] },
  { number: 10, design: "moon", films: 1, order: "market", wait: [150, 205, 270] },
  { number: 11, design: "moon", films: 1, order: "market", wait: [170, 230, 300] },
  { number: 15, design: "moon", films: 1, order: "market", wait: [420, 520, 640] },
  { number: 17, design: "moon", films: 1, order: "market", wait: [700, 860, 1020] },
  { number: 19, design: "moon", films: 1, order: "market", wait: [720, 880, 1050] },
  ...[70, 71].map((number) => ({ number, design: "lantern", films: 0 }) as const),
  ...[72, 73].map(
    (number) => ({ number, design: "puffin", films: 3, order: "puffin", status: packed() }) as const,
  ),
  ...[74, 75, 76].map((number) => ({ number, design: "lantern", films: 4, status: packed() }) as const),
  { number: 50, design: "shell", films: 0, order: "market", place: "rack-c" },
  { number: 51, design: "shell", films: 0, order: "market", place: "rack-c" },
];

const ORDERS = [
  ["walk", "Lantern Walk", 156, [5, 8, 9, 0], { spareMin: -40, spareWorstMin: -95 }],
  ["puffin", "Puffin Club", 120, [5, 8, 16, 0], { spareMin: 190, spareWorstMin: 110 }],
  ["market", "Market table", 132, [5, 9, 7, 30], { spareMin: 560, spareWorstMin: 420 }],
  ["tide", "Tidepool party", 24, [5, 8, 12, 0], { spareMin: 900, spareWorstMin: 700 }],
] as const;

function withOrders({ kitchen, forecasts }: Made): Made {
  return {
    kitchen: {
      ...kitchen,
      orders: Object.fromEntries(
        ORDERS.map(([id, name, cookies, [month, day, hour, minute]]) => [
          id,
          { id: asId(id), name, cookies, pickUpAtMs: Date.UTC(2026, month - 1, day, hour, minute) },
        ]),
      ),
    },
    forecasts: {
      ...forecasts,
      orders: Object.fromEntries(
        ORDERS.map(([id, , , , spare]) => [
          id,
          { finish: { earliestMs: NOW, likelyMs: NOW + 60 * MIN, latestMs: NOW + 120 * MIN }, ...spare },
        ]),
      ),
      change: {
        atMs: NOW - 20 * MIN,
        sinceMs: NOW - 102 * MIN,
        placeId: "rack",
        rhPctBy: 9,
        later: 11,
        sooner: 0,
      },
    },
  };
}

/** An afternoon like any other: one heat-set too long, nine trays ready, some of every lane. */
export function normalKitchen(wall?: Settings["wall"]): Made {
  const made = withOrders(withTrays(bareKitchen(wall), NORMAL));
  const alert = urgent("heat-running-long", 168, {
    trayNumber: 14,
    trayId: asId("t14"),
    toolId: asId("hot-1"),
  });
  return { ...made, kitchen: { ...made.kitchen, alerts: { [alert.key]: alert } } };
}

/** Three urgent alerts at once, a prompt, a hot tray, an order whose trays wait too long, and one that will not dry. */
export function urgentKitchen(wall?: Settings["wall"]): Made {
  const hot = NORMAL.map((spot) => (spot.number === 22 ? { ...spot, hotMin: 20 } : spot));
  const made = withOrders(
    withTrays(bareKitchen(wall), [
      ...hot,
      { number: 60, design: "moon", films: 1, order: "market", wait: "never" },
      { number: 61, design: "moon", films: 1, order: "market", wait: "unknown" },
    ]),
  );
  const alerts = [
    urgent("heat-running-long", 168, { trayNumber: 14, trayId: asId("t14"), toolId: asId("hot-1") }),
    urgent("tool-left-on", 252, {
      toolId: asId("hot-1"),
    }),
    urgent("oven-too-hot", 70, {
      toolId: asId("oven-1"),
      toolKind: "oven",
      acknowledged: { by: asId("ida"), atMs: NOW },
    }),
    urgent("waiting-long", 720, { class: "prompt", orderId: asId("walk") }),
  ];
  return {
    ...made,
    kitchen: { ...made.kitchen, alerts: Object.fromEntries(alerts.map((alert) => [alert.key, alert])) },
  };
}

/** Three hundred trays: sixty ready, sixty to start, the rest on their way. Spread by a fixed rule, not by chance. */
export function fullKitchen(wall?: Settings["wall"]): Made {
  const designs = ["lantern", "puffin", "moon", "shell"] as const;
  const orders = ["walk", "puffin", "market", "tide"] as const;
  const spots = Array.from({ length: 300 }, (_, index): Spot => {
    const number = index + 1;
    const batch = Math.floor(index / 6);
    const kind = batch % 4;
    const base = {
      number,
      design: designs[kind]!,
      order: orders[kind]!,
      place: `rack-${"abcd"[batch % 4]}`,
      slot: String((index % 20) + 1),
    };
    if (batch % 5 === 0) return { ...base, films: 0 };
    if (batch % 5 === 1)
      return { ...base, films: 1, wait: waited(2 + ((batch * 7) % 40) + (index % 6) * 0.2) };
    const likely = 4 * 1.135 ** batch + (index % 6);
    return { ...base, films: 1, wait: [likely * 0.75, likely, likely * 1.32] };
  });
  return withOrders(withTrays(bareKitchen(wall), spots));
}
