import type { Request } from "express";
import * as v from "valibot";
import { OrderId } from "#shared/ids.ts";
import type { Advice, AdviceFor } from "#shared/kitchen/advice/advice.ts";
import { type Kitchen, trayByNumber } from "#shared/kitchen/model/state.ts";
import type { AdviceAnswer } from "#shared/protocol/advice.ts";
import { Fault, parsed } from "./fault.ts";

const OrderQuery = v.object({ order: OrderId });

export interface AdviceDeps {
  kitchen: () => Kitchen;
  nowMs: () => number;
  /** Works in slices that leave the event loop free. */
  advise: (subject: AdviceFor) => Promise<Advice | undefined>;
}

/**
 * `GET /api/advice?tray=NUMBER` or `?order=ID`: what would help. Those who ask the same at once share one working out, as long as
 * nothing was done to the trays meanwhile.
 */
export function makeAdvice({
  kitchen,
  nowMs,
  advise,
}: AdviceDeps): (query: Request["query"]) => Promise<AdviceAnswer> {
  const underWay = new Map<string, { trays: Kitchen["trays"]; answer: Promise<AdviceAnswer> }>();

  async function answerFor(subject: AdviceFor): Promise<AdviceAnswer> {
    const why = whyNothing(kitchen(), subject);
    if (why !== undefined) return { atMs: nowMs(), why };
    const advice = await advise(subject);
    const atMs = nowMs();
    return advice === undefined
      ? { atMs, why: "There is no forecast yet: ask again in a moment." }
      : { atMs, advice };
  }

  return (query) => {
    const subject = subjectOf(kitchen(), query);
    const key = JSON.stringify(subject);
    const { trays } = kitchen();
    const known = underWay.get(key);
    if (known?.trays === trays) return known.answer;
    const answer = answerFor(subject).finally(() => {
      if (underWay.get(key)?.answer === answer) underWay.delete(key);
    });
    underWay.set(key, { trays, answer });
    return answer;
  };
}

/** Whom is asked about; a fault names the field and what it must be. */
function subjectOf(kitchen: Kitchen, { tray, order }: Request["query"]): AdviceFor {
  if ((tray === undefined) === (order === undefined))
    throw new Fault("malformed", "Give either tray, a tray's number, or order, an order's id.", "tray");
  if (order !== undefined) {
    const asked = parsed(OrderQuery, { order });
    if (kitchen.orders[asked.order] === undefined)
      throw new Fault("not-found", `order must be an order's id: there is no ${asked.order}.`, "order");
    return { orderId: asked.order };
  }
  const number = typeof tray === "string" && /^\d{1,4}$/.test(tray) ? Number(tray) : 0;
  if (number < 1) throw new Fault("malformed", "tray must be a whole number from 1 to 9999.", "tray");
  const found = trayByNumber(kitchen, number);
  if (found === undefined)
    throw new Fault("not-found", `tray must be a tray's number: there is no ${number}.`, "tray");
  return { trayId: found.id };
}

/** Why there is nothing that could help. */
function whyNothing(kitchen: Kitchen, subject: AdviceFor): string | undefined {
  const trays = Object.values(kitchen.trays).filter((tray) =>
    "trayId" in subject ? tray.id === subject.trayId : tray.orderId === subject.orderId,
  );
  if (trays.length === 0) return "It has no trays yet.";
  return trays.every(({ standing }) => standing.stage === "packed") ? "It is packed." : undefined;
}
