import { asId, type OrderId, type TrayId } from "#shared/ids.ts";
import { dayAndMinute } from "#shared/kitchen/model/calendar.ts";
import { aliveTrays, roomLeft } from "#shared/kitchen/model/lookups.ts";
import type { Kitchen } from "#shared/kitchen/model/state.ts";
import type { TrayPlan } from "#shared/kitchen/model/vocabulary.ts";
import { atMinute, USUAL_TRAYS } from "./house.ts";
import { emptiestRack, freeSlot } from "./places.ts";
import { kitchenOf, nowOf, type Self } from "./world.ts";
import { ORDER_NAMES, type Recipe, RECIPES } from "./recipes.ts";
import { ask, pass, type Script } from "./scheduler.ts";
import { DAY_MS, HOUR_MS } from "#shared/time.ts";

/** What is still to come of an order: trays not brought yet, one recipe each. */
interface Coming {
  orderId: OrderId;
  pickUpAtMs: number;
  recipes: Recipe[];
}

/** Orders taken, and the trays of bare cookies they still wait for. */
export interface OrderBook {
  takeOrders: (self: Self) => Script;
  bringTrays: (self: Self) => Script;
}

/** Times of day at which orders are fetched, minutes after midnight. */
const PICK_UP_MIN = [9 * 60, 10 * 60 + 30, 12 * 60, 14 * 60, 16 * 60, 17 * 60 + 30] as const;
/** One order in so many is wanted by the next day, but none of a new kitchen's first: nothing is under way yet. */
const RUSH = { share: 0.14, hours: 18, notBefore: 4 } as const;
/** Orders with trays still to come, at the usual size. */
const OPEN_ORDERS = 2;
/** Fewer trays not begun than this, and the bakers bring more. */
const QUEUED_LEAST = 9;
/** From this minute of the day on twice as many, for those who stay late and those who come first. */
const EVENING_MIN = 16.5 * 60;
/** More are iced than ordered, by this share: some break. */
const SPARE = 0.04;
/** A kitchen at its fullest, beside the usual. */
const FULLEST = 1.36;

/** A book that keeps a kitchen of `scale` times the usual size busy for ever. */
export function orderBook(scale: number): OrderBook {
  /** A larger kitchen has both more orders and larger ones. */
  const size = Math.max(1, Math.sqrt(scale));
  const coming: Coming[] = [];
  let orders = 0;
  let trays = 0;

  function* takeOrders(self: Self): Script {
    const isOpen = (one: Coming): boolean => kitchenOf(self).orders[one.orderId] !== undefined;
    coming.splice(0, coming.length, ...coming.filter((one) => isOpen(one) && one.recipes.length > 0));
    while (coming.length < OPEN_ORDERS * size) {
      orders += 1;
      const order = drawOrder(self, orders, size);
      const iced = order.recipes.reduce((sum, { onATray }) => sum + onATray, 0);
      const cookies = iced - Math.ceil(SPARE * iced);
      const { orderId: id, pickUpAtMs } = order;
      const name = freeName(kitchenOf(self), orders);
      if (!(yield* ask({ type: "put-order", order: { id, name, pickUpAtMs, cookies } })).ok) return;
      coming.push(order);
      yield* pass(self.chance.between(20, 60) * 1000);
    }
  }

  function* bringTrays(self: Self): Script {
    for (;;) {
      const { minute } = dayAndMinute(nowOf(self), kitchenOf(self).settings.timeZone);
      const queuedLeast = QUEUED_LEAST * scale * (minute >= EVENING_MIN ? 2 : 1);
      const alive = aliveTrays(kitchenOf(self));
      const queued = alive.filter(({ status }) => status.stage === "queued").length;
      const lot = Math.round(
        Math.min(
          FULLEST * USUAL_TRAYS * scale - alive.length,
          self.chance.between(3, 5) * Math.max(1, scale),
        ),
      );
      const [next] = coming.filter(({ recipes }) => recipes.length > 0).toSorted(bySoonest);
      if (queued >= queuedLeast || lot <= 0 || next === undefined) return;
      const plans = planTrays(kitchenOf(self), next.orderId, next.recipes.slice(0, lot), () => {
        trays += 1;
        return asId<TrayId>(`tray-${trays}`);
      });
      if (plans.length === 0 || !(yield* ask({ type: "add-trays", trays: plans })).ok) return;
      next.recipes.splice(0, plans.length);
      yield* pass(self.chance.between(20, 60) * 1000);
    }
  }

  return { takeOrders, bringTrays };
}

const bySoonest = (a: Coming, b: Coming): number => a.pickUpAtMs - b.pickUpAtMs;

/** An order of one or two designs on five to fourteen trays, or `size` times as many, fetched within three days. */
function drawOrder(self: Self, number: number, size: number): Coming {
  const { chance } = self;
  const [first, ...rest] = RECIPES;
  if (first === undefined) throw new Error("no recipes");
  const nowMs = nowOf(self);
  const one = chance.pick([first, ...rest]);
  const two = chance.happens(0.4) ? chance.pick([first, ...rest]) : one;
  const trays = (from: number, to: number): number => Math.round(chance.whole(from, to) * size);
  const recipes = [...Array<Recipe>(trays(3, 8)).fill(one), ...Array<Recipe>(trays(2, 6)).fill(two)];
  const isRush = chance.happens(RUSH.share) && number >= RUSH.notBefore;
  const orderId = asId<OrderId>(`order-${number}`);
  if (isRush) self.world.hurried.add(orderId);
  const earliestMs = nowMs + (isRush ? RUSH.hours : chance.between(26, 56)) * HOUR_MS;
  return { orderId, recipes, pickUpAtMs: pickUpAfter(earliestMs) };
}

function pickUpAfter(earliestMs: number): number {
  const times = [earliestMs, earliestMs + DAY_MS].flatMap((dayMs) =>
    PICK_UP_MIN.map((minute) => atMinute(dayMs, minute)),
  );
  return times.find((ms) => ms >= earliestMs) ?? earliestMs;
}

/** The next of the names that no order bears now. */
export function freeName(kitchen: Kitchen, number: number): string {
  const taken = new Set(Object.values(kitchen.orders).map(({ name }) => name));
  const inTurn = ORDER_NAMES.map((_, k) => ORDER_NAMES[(number - 1 + k) % ORDER_NAMES.length] ?? "An order");
  return inTurn.find((name) => !taken.has(name)) ?? `${inTurn[0]} ${number}`;
}

/** Trays onto the emptiest rack, under the lowest numbers that are free. */
export function planTrays(
  kitchen: Kitchen,
  orderId: OrderId,
  recipes: readonly Recipe[],
  newId: () => TrayId,
): TrayPlan[] {
  const rack = emptiestRack(kitchen);
  if (rack === undefined) return [];
  const numbers = new Set(aliveTrays(kitchen).map(({ number }) => number));
  const slots = new Set<string>();
  return recipes.slice(0, Math.min(100, roomLeft(kitchen, rack.id))).map(({ design, onATray }) => {
    let number = 1;
    while (numbers.has(number)) number += 1;
    numbers.add(number);
    const slot = freeSlot(kitchen, rack, slots);
    slots.add(slot);
    return { id: newId(), number, designId: design.id, orderId, count: onATray, placeId: rack.id, slot };
  });
}
