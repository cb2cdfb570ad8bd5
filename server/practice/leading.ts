import { dayAndMinute } from "#shared/kitchen/model/calendar.ts";
import { standsAt, type Kitchen } from "#shared/kitchen/model/state.ts";
import { emptiestRack, freeSlot, kitchenOf, nowOf, type Self } from "./world.ts";
import type { OrderBook } from "./order-book.ts";
import { ask, pass, type Script } from "./scheduler.ts";
import { beAway, helpOut } from "./shifts.ts";
import { MIN_MS, SECOND_MS } from "#shared/time.ts";

/** The cabinet is emptied and switched off this long before the lead goes home. */
const CLOSING_MIN = 30;

/** The lead's day: orders in, trays onto the racks as they come from the bakers, the oven looked at, a hand lent. */
export function* lead(self: Self, book: OrderBook): Script {
  for (;;) {
    yield* beAway(self);
    yield* book.takeOrders(self);
    yield* book.bringTrays(self);
    if (self.chance.happens(0.06)) yield* readOven(self);
    if (isClosing(self)) yield* emptyCabinets(self);
    if (!(yield* helpOut(self))) yield* pass(self.chance.between(3, 6) * MIN_MS);
  }
}

/** Now and then the oven is read hotter than it should be. */
function* readOven(self: Self): Script {
  const oven = Object.values(kitchenOf(self).tools).find(({ kind }) => kind === "oven");
  if (oven === undefined || oven.use.status === "off") return;
  const isHot = self.chance.happens(0.08);
  const tempC = isHot ? oven.maxAirC + self.chance.between(2, 5) : oven.airC + self.chance.between(-3, 3);
  yield* ask({ type: "read-tool-temperature", toolId: oven.id, tempC: Math.round(tempC) });
}

const isClosing = (self: Self): boolean =>
  dayAndMinute(nowOf(self), kitchenOf(self).settings.timeZone).minute >= self.worker.toMin - CLOSING_MIN;

/** Nothing stays in the warm overnight. */
function* emptyCabinets(self: Self): Script {
  for (const tool of Object.values(kitchenOf(self).tools)) {
    if (tool.kind !== "warm-cabinet" || tool.use.status === "off") continue;
    for (const trayId of traysIn(kitchenOf(self), tool.placeId)) {
      const rack = emptiestRack(kitchenOf(self));
      if (rack === undefined || self.world.inHand.has(trayId)) continue;
      yield* pass(self.chance.between(15, 40) * SECOND_MS);
      const slot = freeSlot(kitchenOf(self), rack);
      yield* ask({ type: "move-tray", trayId, placeId: rack.id, slot });
    }
    yield* ask({ type: "tool-off", toolId: tool.id });
  }
}

const traysIn = (kitchen: Kitchen, placeId: string | undefined) =>
  Object.values(kitchen.trays)
    .filter((tray) => tray.status.stage !== "packed" && standsAt(tray).placeId === placeId)
    .map(({ id }) => id);
