import type { Request } from "express";
import * as v from "valibot";
import { OrderId } from "#shared/ids.ts";
import type { MakeUpStart } from "#shared/kitchen/orders/make-up.ts";
import type { Kitchen } from "#shared/kitchen/model/state.ts";
import type { MakeUpAnswer } from "#shared/protocol/make-up.ts";
import { Fault, parsed } from "./fault.ts";

export interface MakeUpDeps {
  kitchen: () => Kitchen;
  nowMs: () => number;
  /** Works in slices that leave the event loop free. */
  makeUpStart: (orderId: string) => Promise<MakeUpStart | undefined>;
}

const Query = v.object({ order: OrderId });

/** `GET /api/make-up?order=ID`. */
export async function makeUpAnswer(
  { kitchen, nowMs, makeUpStart }: MakeUpDeps,
  query: Request["query"],
): Promise<MakeUpAnswer> {
  const { order } = parsed(Query, query);
  if (kitchen().orders[order] === undefined)
    throw new Fault("not-found", ({ advice }) => advice.ask.noOrder(order), "order");
  const start = await makeUpStart(order);
  return { atMs: nowMs(), ...(start ?? { why: "nothing-to-make-up" }) };
}
