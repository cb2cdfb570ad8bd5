import { BASE_WATER_PCT, WATER_PCT } from "#shared/icing/water.ts";
import { insertReading, READINGS_KEPT } from "#shared/drying/air-record/readings.ts";
import { unreachable } from "#shared/outcome.ts";
import { activeAlert, changedTo } from "#shared/kitchen/model/alert.ts";
import { byName } from "#shared/kitchen/model/by-name.ts";
import { cautionKey } from "#shared/kitchen/model/cautions-read.ts";
import { isTrayAct, type EventOf, type KitchenEvent } from "#shared/kitchen/model/event.ts";
import { own } from "#shared/kitchen/model/own.ts";
import {
  cookiesByDesign,
  heatHolder,
  isOver,
  spoiledOf,
  standsAt,
  trayUnder,
  warmersOf,
  type HeatSet,
  type Kitchen,
  type OrderState,
  type PlaceState,
  type ToolState,
  type ToolUse,
  type Tray,
} from "#shared/kitchen/model/state.ts";
import { applyAct, newTray, replayActs, stillHot } from "#shared/kitchen/tray/fold.ts";
import {
  coolingOn,
  handedTo,
  knownOnAt,
  offAt,
  outOfHeat,
  underHeat,
  usedAt,
} from "#shared/kitchen/tray/tool-use.ts";
import type { Place, Settings } from "#shared/kitchen/model/vocabulary.ts";
import { DAY_MS } from "#shared/time.ts";

const OPEN_DAY = { fromMin: 6 * 60, toMin: 20 * 60 };

/** What a kitchen starts from until a lead says otherwise. */
export const DEFAULT_SETTINGS: Settings = {
  name: "A kitchen not set up yet",
  units: "metric",
  timeZone: "UTC",
  opening: [OPEN_DAY, OPEN_DAY, OPEN_DAY, OPEN_DAY, OPEN_DAY, OPEN_DAY, null],
  wall: { diagonalCm: 109, farthestM: 3 },
  waterPct: { ...WATER_PCT, outline: BASE_WATER_PCT },
  densityKgM3: 1350,
  icingLimitC: 60,
  sinkShare: 0.3,
  floodingMin: 10,
  packingMin: 20,
  toolIdleMin: 3,
  houseRules: [],
};

/** A kitchen in which nothing has happened. */
export const EMPTY_KITCHEN: Kitchen = {
  settings: DEFAULT_SETTINGS,
  isSetUp: false,
  people: {},
  places: {},
  tools: {},
  icings: {},
  designs: {},
  orders: {},
  trays: {},
  batches: {},
  readings: {},
  alerts: {},
  evidence: [],
  cautionsRead: {},
};

/** Evidence of trays put away that is kept: enough for any posterior, little enough for a phone. */
const EVIDENCE_KEPT = 2000;

/** The kitchen after one event. Pure, never fails: an event about something that is gone changes nothing. */
export function evolve(kitchen: Kitchen, event: KitchenEvent): Kitchen {
  if (isTrayAct(event)) {
    const ended = onTray(kitchen, event.trayId, (tray, design) => applyAct(tray, event, design));
    return onToolOfStay(onToolOfAct(ended, kitchen, event), kitchen, event);
  }
  switch (event.type) {
    case "act-taken-back": {
      const refolded = onTray(kitchen, event.trayId, (tray, design) => {
        const mark = { by: event.by, atMs: event.atMs };
        const deeds = tray.deeds.map((deed) =>
          deed.act.actId === event.takenBackId ? { ...deed, takenBack: mark } : deed,
        );
        const refolded = replayActs(tray, deeds, design);
        return { ...refolded, ...stillHot(refolded, event.hotUntilMs) };
      });
      return onToolOfStay(onToolOfTakeBack(refolded, kitchen, event), kitchen, event);
    }
    case "settings-changed":
      return { ...kitchen, settings: event.settings, isSetUp: true };
    case "person-added":
      return { ...kitchen, people: { ...kitchen.people, [event.person.id]: event.person } };
    case "role-changed": {
      const person = kitchen.people[event.personId];
      if (person === undefined) return kitchen;
      return { ...kitchen, people: { ...kitchen.people, [person.id]: { ...person, role: event.role } } };
    }
    case "person-removed": {
      const person = kitchen.people[event.personId];
      if (person === undefined) return kitchen;
      const gone = { ...person, leftAtMs: event.atMs };
      return { ...kitchen, people: { ...kitchen.people, [person.id]: gone } };
    }
    case "place-put":
      return {
        ...kitchen,
        places: {
          ...kitchen.places,
          [event.place.id]: placePut(kitchen.places[event.place.id], event.place, event.atMs),
        },
      };
    case "place-removed":
      return {
        ...kitchen,
        places: without(kitchen.places, event.placeId),
        readings: without(kitchen.readings, event.placeId),
      };
    case "tool-put": {
      const before = kitchen.tools[event.tool.id];
      const use = before === undefined ? ({ status: "off" } as const) : coolingOn(before, event.tool);
      return withTool(kitchen, { ...before, ...event.tool, use });
    }
    case "tool-removed":
      return { ...kitchen, tools: without(kitchen.tools, event.toolId) };
    case "icing-put":
      return { ...kitchen, icings: { ...kitchen.icings, [event.icing.id]: event.icing } };
    case "icing-removed":
      return { ...kitchen, icings: without(kitchen.icings, event.icingId) };
    case "design-put":
      return { ...kitchen, designs: { ...kitchen.designs, [event.design.id]: event.design } };
    case "design-removed":
      return { ...kitchen, designs: without(kitchen.designs, event.designId) };
    case "order-put": {
      const { putAway, putAwaySpoiled } = kitchen.orders[event.order.id] ?? {};
      const order = {
        ...event.order,
        ...(putAway === undefined ? {} : { putAway }),
        ...(putAwaySpoiled === undefined ? {} : { putAwaySpoiled }),
      };
      return { ...kitchen, orders: { ...kitchen.orders, [order.id]: order } };
    }
    case "order-cancelled":
      return { ...kitchen, orders: without(kitchen.orders, event.orderId) };
    case "tray-added":
      return { ...kitchen, trays: { ...kitchen.trays, [event.plan.id]: newTray(event.plan, event.atMs) } };
    case "tray-removed":
      return { ...kitchen, trays: without(kitchen.trays, event.trayId) };
    case "tool-switched-on":
      return onUse(kitchen, event.toolId, (use) => usedAt(use, event.holder, event.atMs));
    case "tool-kept-on":
      return onUse(kitchen, event.toolId, (use) => knownOnAt(use, event.atMs));
    case "tool-switched-off":
      return onTool(kitchen, event.toolId, (tool) => ({
        ...tool,
        lastOffMs: Math.max(event.atMs, tool.lastOffMs ?? event.atMs),
        use: offAt(tool.use, event.by, event.atMs),
      }));
    case "tool-handed-over":
      return onUse(kitchen, event.toolId, (use) => handedTo(use, event.to, event.atMs));
    case "tool-withdrawn":
      return onTool(kitchen, event.toolId, (tool) => ({
        ...tool,
        outOfService: { reason: event.reason, atMs: event.atMs, by: event.by },
      }));
    case "tool-restored":
      return onTool(kitchen, event.toolId, ({ outOfService: _restored, ...tool }) => tool);
    case "tool-temperature-read":
      return onTool(kitchen, event.toolId, (tool) =>
        tool.lastTemperature !== undefined && tool.lastTemperature.atMs > event.atMs
          ? tool
          : { ...tool, lastTemperature: { tempC: event.tempC, atMs: event.atMs } },
      );
    case "reading-taken": {
      const { placeId, ...air } = event.reading;
      const before = kitchen.readings[placeId] ?? [];
      const after = insertReading(before, { ...air, atMs: event.atMs }, READINGS_KEPT);
      return after === before ? kitchen : { ...kitchen, readings: { ...kitchen.readings, [placeId]: after } };
    }
    case "batch-mixed": {
      const batch = { ...event.batch, by: event.by };
      return { ...kitchen, batches: { ...kitchen.batches, [batch.id]: batch } };
    }
    case "batch-finished":
      return { ...kitchen, batches: without(kitchen.batches, event.batchId) };
    case "batches-put-away":
      return { ...kitchen, batches: event.batchIds.reduce<Kitchen["batches"]>(without, kitchen.batches) };
    case "caution-read":
      return {
        ...kitchen,
        cautionsRead: { ...kitchen.cautionsRead, [cautionKey(event.by, event.toolKind)]: event.atMs },
      };
    case "alert-raised":
      return {
        ...kitchen,
        alerts: { ...kitchen.alerts, [event.alert.key]: activeAlert(event.alert, event.atMs) },
      };
    case "alert-changed": {
      const was = own(kitchen.alerts, event.alert.key);
      if (was === undefined) return kitchen;
      return { ...kitchen, alerts: { ...kitchen.alerts, [was.key]: changedTo(was, event.alert) } };
    }
    case "alert-acknowledged": {
      const alert = own(kitchen.alerts, event.key);
      if (alert === undefined || event.by === "kitchen") return kitchen;
      const acknowledged = { by: event.by, atMs: event.atMs };
      return { ...kitchen, alerts: { ...kitchen.alerts, [event.key]: { ...alert, acknowledged } } };
    }
    case "alert-put-off": {
      const alert = own(kitchen.alerts, event.key);
      if (alert === undefined) return kitchen;
      return {
        ...kitchen,
        alerts: { ...kitchen.alerts, [event.key]: { ...alert, putOffUntilMs: event.untilMs } },
      };
    }
    case "alert-cleared":
      return { ...kitchen, alerts: without(kitchen.alerts, event.key) };
    case "trays-put-away":
      return putAway(kitchen, event);
    default:
      return unreachable(event);
  }
}

/** A heat-set switches its tool on and keeps it from idling; when it ends, the tool stands idle until someone says more. */
function onToolOfAct(kitchen: Kitchen, before: Kitchen, event: KitchenEvent): Kitchen {
  if (event.type === "heat-set-started") return inUse(kitchen, event.toolId, event.by, event.atMs);
  const ended = event.type === "heat-set-ended" ? heatOf(before, event.trayId) : undefined;
  return ended === undefined ? kitchen : idle(kitchen, ended.toolId, event.atMs);
}

/** A heat-set whose start was taken back leaves its tool on with nothing under it; one whose end was, runs on. */
function onToolOfTakeBack(kitchen: Kitchen, before: Kitchen, event: EventOf<"act-taken-back">): Kitchen {
  const [was, is] = [heatOf(before, event.trayId), heatOf(kitchen, event.trayId)];
  if (was !== undefined && is === undefined) return idle(kitchen, was.toolId, event.atMs);
  if (was !== undefined || is === undefined) return kitchen;
  return inUse(kitchen, is.toolId, heatHolder(kitchen, is), is.startedAtMs, event.atMs);
}

/**
 * A tray that has come to stand in a tool's place, without a heat-set, is warmed there: unless said off since, or out of
 * service, the tool is on.
 */
function onToolOfStay(
  kitchen: Kitchen,
  before: Kitchen,
  { trayId, by }: { trayId: string; by: HeatSet["holder"] },
): Kitchen {
  const [was, is] = [before.trays[trayId], kitchen.trays[trayId]];
  if (was === undefined || is === undefined || is.standing.stage === "heat-set" || by === "kitchen")
    return kitchen;
  const { placeId, fromMs } = standsAt(is);
  if (placeId === standsAt(was).placeId) return kitchen;
  const fit = warmersOf(kitchen, placeId).filter(({ outOfService }) => outOfService === undefined);
  return fit.reduce((so, tool) => withTool(so, { ...tool, use: usedAt(tool.use, by, fromMs) }), kitchen);
}

function heatOf(kitchen: Kitchen, trayId: string): HeatSet | undefined {
  const standing = kitchen.trays[trayId]?.standing;
  return standing?.stage === "heat-set" ? standing.heat : undefined;
}

const inUse = (
  kitchen: Kitchen,
  toolId: string,
  by: HeatSet["holder"],
  fromMs: number,
  saidMs = fromMs,
): Kitchen => onUse(kitchen, toolId, (use) => underHeat(use, by, fromMs, saidMs));

/** A heat-set of this tool ended then; where another one's tray is still under it, it does not idle. */
const idle = (kitchen: Kitchen, toolId: string, atMs: number): Kitchen =>
  onUse(kitchen, toolId, (use) =>
    trayUnder(kitchen, toolId) === undefined ? outOfHeat(use, atMs) : knownOnAt(use, atMs),
  );

/** An order keeps what of it was put away, and goes once nothing of it is to come. */
function putAway(kitchen: Kitchen, event: EventOf<"trays-put-away">): Kitchen {
  const gone = new Set<string>(event.trayIds);
  const trays = Object.fromEntries(Object.entries(kitchen.trays).filter(([id]) => !gone.has(id)));
  const left = byName(Object.values(trays), ({ orderId }) => orderId);
  const packed = byName(
    event.trayIds.flatMap((id) => kitchen.trays[id] ?? []),
    ({ orderId }) => orderId,
  );
  const orders = Object.fromEntries(
    Object.entries(kitchen.orders).flatMap(([orderId, before]) => {
      const own = packed.get(orderId);
      const order = own === undefined ? before : withPutAway(before, own);
      return isOver(order, left.get(orderId) ?? [], event.atMs) ? [] : [[orderId, order]];
    }),
  );
  return {
    ...kitchen,
    trays,
    orders,
    evidence: [...kitchen.evidence, ...event.evidence].slice(-EVIDENCE_KEPT),
  };
}

function withPutAway(before: OrderState, own: readonly Tray[]): OrderState {
  const spoiled = spoiledOf(before, own);
  const putAway = cookiesByDesign(before, own);
  return { ...before, putAway, ...(spoiled === 0 ? {} : { putAwaySpoiled: spoiled }) };
}

/** No film dries for longer than this: what a place was set to before is nobody's air any more. */
const SETTINGS_KEPT_MS = 14 * DAY_MS;

function placePut(before: PlaceState | undefined, place: Place, atMs: number): PlaceState {
  if (before === undefined) return place;
  const was = (before.was ?? []).filter(({ untilMs }) => atMs - untilMs < SETTINGS_KEPT_MS);
  const { setTempC, airSpeedMs } = before;
  const isSame = setTempC === place.setTempC && airSpeedMs === place.airSpeedMs;
  const setting = { untilMs: atMs, airSpeedMs, ...(setTempC === undefined ? {} : { setTempC }) };
  const settings = isSame ? was : [...was, setting];
  return settings.length === 0 ? place : { ...place, was: settings };
}

function onTray(
  kitchen: Kitchen,
  trayId: string,
  change: (tray: Tray, design: Kitchen["designs"][string]) => Tray,
): Kitchen {
  const tray = kitchen.trays[trayId];
  const design = tray === undefined ? undefined : kitchen.designs[tray.designId];
  if (tray === undefined || design === undefined) return kitchen;
  return { ...kitchen, trays: { ...kitchen.trays, [trayId]: change(tray, design) } };
}

function onTool(kitchen: Kitchen, toolId: string, change: (tool: ToolState) => ToolState): Kitchen {
  const tool = kitchen.tools[toolId];
  return tool === undefined ? kitchen : withTool(kitchen, change(tool));
}

const onUse = (kitchen: Kitchen, toolId: string, change: (use: ToolUse) => ToolUse): Kitchen =>
  onTool(kitchen, toolId, (tool) => ({ ...tool, use: change(tool.use) }));

const withTool = (kitchen: Kitchen, tool: ToolState): Kitchen => ({
  ...kitchen,
  tools: { ...kitchen.tools, [tool.id]: tool },
});

function without<Value>(
  table: Readonly<Record<string, Value>>,
  key: string,
): Readonly<Record<string, Value>> {
  const { [key]: _gone, ...rest } = table;
  return rest;
}
