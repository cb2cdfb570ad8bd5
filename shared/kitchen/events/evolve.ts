import { insertReading, READINGS_KEPT } from "#shared/drying/air-record/insert-reading.ts";
import { unreachable } from "#shared/outcome.ts";
import { activeAlert, changedTo } from "#shared/kitchen/model/active-alert.ts";
import { cautionKey } from "#shared/kitchen/model/cautions-read.ts";
import type { EventOf, KitchenEvent } from "#shared/kitchen/model/event.ts";
import { isTrayAct } from "#shared/kitchen/tray/can-apply.ts";
import { own } from "#shared/collections.ts";
import type { Kitchen } from "#shared/kitchen/model/state.ts";
import { applyAct, newTray, replayActs } from "#shared/kitchen/tray/fold.ts";
import { stillHot } from "#shared/kitchen/tray/act-effect.ts";
import { coolingOn, handedTo, knownOnAt, offAt, usedAt } from "#shared/kitchen/tray/tool-use.ts";
import { placePut } from "./place-put.ts";
import { archive } from "./archive.ts";
import { deviceIs, deviceJoined, devicesOfGone } from "./devices.ts";
import { batchesGone, batchJudged, batchMixed } from "./batches.ts";
import { onTool, onTray, onUse, type PutTray, putTray, without, withTool } from "./tables.ts";
import { onToolOfAct, onToolOfStay, onToolOfTakeBack } from "./tools-in-use.ts";

/** The kitchen after one event. Pure, never fails: an event about something that is gone changes nothing. */
export const evolve = (kitchen: Kitchen, event: KitchenEvent): Kitchen => evolveWith(kitchen, event, putTray);

/** The same, with what writes a tray into the table of trays. */
export function evolveWith(kitchen: Kitchen, event: KitchenEvent, put: PutTray): Kitchen {
  if (isTrayAct(event)) {
    // Read first: the table may be written in place.
    const was = kitchen.trays[event.trayId];
    const acted = onTray(kitchen, event.trayId, put, (tray, design) => applyAct(tray, event, design));
    return onToolOfStay(onToolOfAct(acted, was, event), was, event);
  }
  switch (event.type) {
    case "act-taken-back": {
      const was = kitchen.trays[event.trayId];
      const replayed = onTray(kitchen, event.trayId, put, (tray, design) => {
        const mark = { by: event.by, atMs: event.atMs };
        const history = tray.history.map((entry) =>
          entry.act.actId === event.takenBackId ? { ...entry, takenBack: mark } : entry,
        );
        const after = replayActs(tray, history, design);
        return { ...after, ...stillHot(after, event.hotUntilMs) };
      });
      return onToolOfStay(onToolOfTakeBack(replayed, was, event), was, event);
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
    case "hours-set": {
      const person = kitchen.people[event.personId];
      if (person === undefined) return kitchen;
      const { hours: _before, ...rest } = person;
      const after = event.hours === null ? rest : { ...rest, hours: event.hours };
      return { ...kitchen, people: { ...kitchen.people, [person.id]: after } };
    }
    case "person-removed": {
      const person = kitchen.people[event.personId];
      if (person === undefined) return kitchen;
      const gone = { ...person, leftAtMs: event.atMs };
      return devicesOfGone({ ...kitchen, people: { ...kitchen.people, [person.id]: gone } }, person.id);
    }
    case "device-joined":
      return deviceJoined(kitchen, event);
    case "device-let-in":
      return deviceIs(kitchen, event.joinedId, "let in");
    case "device-forgotten":
      return deviceIs(kitchen, event.joinedId, "gone");
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
    case "design-revised":
      return designRevised(kitchen, event);
    case "design-removed":
      return { ...kitchen, designs: without(kitchen.designs, event.designId) };
    case "order-put": {
      const { archived, archivedSpoiled, archivedSeconds, given } = kitchen.orders[event.order.id] ?? {};
      const order = {
        ...event.order,
        ...(archived && { archived }),
        ...(archivedSpoiled && { archivedSpoiled }),
        ...(archivedSeconds && { archivedSeconds }),
        ...(given && { given }),
      };
      return { ...kitchen, orders: { ...kitchen.orders, [order.id]: order } };
    }
    case "cookies-given":
      return {
        ...kitchen,
        orders: withGiven(
          withGiven(kitchen.orders, event.fromId, event.designId, -event.count),
          event.toId,
          event.designId,
          event.count,
        ),
      };
    case "order-cancelled":
      return { ...kitchen, orders: without(kitchen.orders, event.orderId) };
    case "tray-added":
      return { ...kitchen, trays: put(kitchen.trays, newTray(event.plan, event.atMs)) };
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
    case "batch-mixed":
      return batchMixed(kitchen, event);
    case "batch-finished":
      return batchesGone(kitchen, [event.batchId], event.atMs);
    case "batches-put-away":
      return batchesGone(kitchen, event.batchIds, event.atMs);
    case "batch-judged":
      return batchJudged(kitchen, event);
    case "note-left": {
      const { note: _before, ...rest } = kitchen;
      const { text, by, atMs } = event;
      return text === null ? rest : { ...rest, note: { text, by, atMs } };
    }
    case "recipe-put":
      return { ...kitchen, recipes: { ...kitchen.recipes, [event.recipe.id]: event.recipe } };
    case "recipe-removed":
      return { ...kitchen, recipes: without(kitchen.recipes ?? {}, event.recipeId) };
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
      return archive(kitchen, event);
    default:
      return unreachable(event);
  }
}

/** An order with so many more packed cookies of a design. */
function withGiven(
  orders: Kitchen["orders"],
  orderId: string,
  designId: string,
  count: number,
): Kitchen["orders"] {
  const order = own(orders, orderId);
  if (order === undefined) return orders;
  const given = { ...order.given, [designId]: (order.given?.[designId] ?? 0) + count };
  return { ...orders, [orderId]: { ...order, given } };
}

/** Trays under way keep their design as it was, under another id; all others go by the new one. */
function designRevised(kitchen: Kitchen, { design, earlierId, trayIds }: EventOf<"design-revised">): Kitchen {
  const before = kitchen.designs[design.id];
  const designs = { ...kitchen.designs, [design.id]: design };
  if (before === undefined) return { ...kitchen, designs };
  const trays = trayIds.flatMap((id) => kitchen.trays[id] ?? []);
  return {
    ...kitchen,
    designs: { ...designs, [earlierId]: { ...before, id: earlierId, revisionOf: design.id } },
    trays: {
      ...kitchen.trays,
      ...Object.fromEntries(trays.map((tray) => [tray.id, { ...tray, designId: earlierId }])),
    },
  };
}
