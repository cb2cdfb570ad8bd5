import { ok, unreachable } from "#shared/outcome.ts";
import { dueAlerts, reconcileAlerts } from "#shared/kitchen/alerts/due.ts";
import { isArchived } from "#shared/kitchen/mixing/batches.ts";
import type { CommandOf } from "#shared/kitchen/model/command.ts";
import { yes, type Deciding, type Decision } from "./deciding.ts";
import { evidenceOfTray } from "#shared/kitchen/forecast/evidence.ts";
import { byName } from "#shared/collections.ts";
import { waitingDevices } from "#shared/kitchen/model/devices.ts";
import type { Kitchen, Tray } from "#shared/kitchen/model/state.ts";
import { isOver } from "#shared/kitchen/model/order-cookies.ts";
import { HOUR_MS } from "#shared/time.ts";

type AlertCommand = CommandOf<"reconcile-alerts" | "archive">;

/** Whether an order outlived its last tray and goes now: archiving trays takes it along, be it with none. */
function hasOrderOver(kitchen: Kitchen, atMs: number): boolean {
  const traysOf = byName(Object.values(kitchen.trays), ({ orderId }) => orderId);
  return Object.values(kitchen.orders).some((order) => isOver(order, traysOf.get(order.id) ?? [], atMs));
}

/** How long a packed tray stays on the board: a problem found at the counter can still be reported. */
const PUT_AWAY_AFTER_MS = 48 * HOUR_MS;

/** A device that nobody lets in is forgotten after this. */
const WAITS_AT_MOST_MS = 24 * HOUR_MS;

/** Alerts are raised and cleared by the kitchen, which also puts packed trays and old batches away. */
export function decideAlert(command: AlertCommand, deciding: Deciding): Decision {
  const { kitchen, stamp, nowMs } = deciding;
  switch (command.type) {
    case "reconcile-alerts": {
      const { forecasts, isOnDuty = true, lostPeople = new Set(), onRuleFailed } = deciding;
      const due = dueAlerts(kitchen, isOnDuty ? forecasts : undefined, nowMs, lostPeople, onRuleFailed);
      const { raise, change, clear } = reconcileAlerts(kitchen, due);
      return ok([
        ...clear.map((key) => ({ type: "alert-cleared" as const, ...stamp, key })),
        ...change.map((alert) => ({ type: "alert-changed" as const, ...stamp, alert })),
        ...raise.map((alert) => ({ type: "alert-raised" as const, ...stamp, alert })),
      ]);
    }
    case "archive": {
      const trays = Object.values(kitchen.trays).filter((tray) => isStale(tray, nowMs));
      const batches = Object.values(kitchen.batches).filter((batch) => isArchived(batch, nowMs));
      const trayIds = trays.map(({ id }) => id);
      const batchIds = batches.map(({ id }) => id);
      const tired = waitingDevices(kitchen).filter(({ joinedAtMs }) => nowMs - joinedAtMs > WAITS_AT_MOST_MS);
      const evidence = trays.flatMap((tray) => [...evidenceOfTray(kitchen, tray)]);
      return yes(
        ...(trays.length === 0 && !hasOrderOver(kitchen, stamp.atMs)
          ? []
          : [{ type: "trays-put-away" as const, ...stamp, trayIds, evidence }]),
        ...(batches.length === 0 ? [] : [{ type: "batches-put-away" as const, ...stamp, batchIds }]),
        ...tired.map(({ id }) => ({ type: "device-forgotten" as const, ...stamp, joinedId: id })),
      );
    }
    default:
      return unreachable(command);
  }
}

const isStale = ({ status }: Tray, nowMs: number): boolean =>
  status.stage === "packed" && nowMs - status.atMs > PUT_AWAY_AFTER_MS;
