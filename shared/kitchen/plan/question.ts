import { byName } from "#shared/collections.ts";
import type { OrderForecast } from "#shared/kitchen/model/forecast.ts";
import { isOrderPacked } from "#shared/kitchen/model/order-cookies.ts";
import type { Kitchen, Tray } from "#shared/kitchen/model/state.ts";
import { lacksOf } from "./lacks.ts";
import { packedForecast } from "./order-forecasts.ts";
import type { PlanInput, PlannedOrder, PlannedTray, PlanQuestion, PlanWork } from "./plan-work.ts";
import { duesOf } from "./policy.ts";
import { planWorkSteps } from "./tasks.ts";

/** Puts a kitchen's question together, a tray a step: the first trays may ask the drying model. */
export function* questionSteps(input: PlanInput): Generator<void, PlanQuestion> {
  const { kitchen, nowMs, learned, pace } = input;
  const work = yield* planWorkSteps(input);
  const dueMin = duesOf(kitchen, work, nowMs);
  yield;
  const packed: Record<string, OrderForecast> = {};
  for (const order of Object.values(kitchen.orders)) {
    const forecast = packedForecast(kitchen, order);
    if (forecast !== undefined) packed[order.id] = forecast;
  }
  yield;
  return {
    nowMs,
    learned,
    pace,
    work,
    dueMin,
    orders: ordersOf(kitchen, work),
    packed,
    trays: Object.fromEntries(
      [...work.lastOf.keys()].map((id): [string, PlannedTray] => {
        const { number, designId, orderId } = kitchen.trays[id]!;
        return [id, { number, designId, orderId }];
      }),
    ),
    without: lacksOf(kitchen, nowMs),
  };
}

/** Orders with every tray known; of one that is packed, trays beyond it do not count. */
function ordersOf(kitchen: Kitchen, work: PlanWork): PlannedOrder[] {
  const byOrder = byName(Object.values(kitchen.trays), ({ orderId }) => orderId);
  return Object.values(kitchen.orders).flatMap((order) => {
    const trays = byOrder.get(order.id) ?? [];
    const isPacked = ({ status }: Tray): boolean => status.stage === "packed";
    const packed = trays.filter(isPacked);
    if (packed.length > 0 && isOrderPacked(order, packed)) return [];
    const packs = trays.filter((tray) => !isPacked(tray)).map(({ id }) => work.lastOf.get(id));
    return packs.length === 0 || packs.includes(undefined)
      ? []
      : [{ order, packs: packs.filter((task) => task !== undefined) }];
  });
}
