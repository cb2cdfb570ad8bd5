import type { Request } from "express";
import * as v from "valibot";
import { OrderId } from "#shared/ids.ts";
import type { Advice, AdviceFor, NoAdvice } from "#shared/kitchen/advice/advice.ts";
import { trayByNumber } from "#shared/kitchen/model/lookups.ts";
import type { Kitchen } from "#shared/kitchen/model/state.ts";
import { TrayPlan } from "#shared/kitchen/model/vocabulary.ts";
import type { AdviceAnswer } from "#shared/protocol/advice.ts";
import type { Words } from "#shared/words/words.ts";
import { Fault, parsed } from "./fault.ts";

const OrderQuery = v.object({ order: OrderId });
const TrayQuery = v.object({ tray: TrayPlan.entries.number });

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
    return advice === undefined ? { atMs, why: "no-forecast" } : { atMs, advice };
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

/** An answer in the words of whoever asked, beside its facts. */
export const wordedAdvice = (answer: AdviceAnswer, { advice: words }: Words) =>
  "why" in answer
    ? { ...answer, message: words.none[answer.why] }
    : {
        ...answer,
        advice: {
          ...answer.advice,
          help: answer.advice.help.map((help) => ({ ...help, message: words.say(help) })),
        },
      };

/** Whom is asked about; a fault names the field and what it must be. */
function subjectOf(kitchen: Kitchen, { tray, order }: Request["query"]): AdviceFor {
  if ((tray === undefined) === (order === undefined))
    throw new Fault("malformed", ({ advice }) => advice.ask.either, "tray");
  if (order !== undefined) {
    const { order: orderId } = parsed(OrderQuery, { order });
    if (kitchen.orders[orderId] !== undefined) return { orderId };
    throw new Fault("not-found", ({ advice }) => advice.ask.noOrder(orderId), "order");
  }
  const { tray: number } = parsed(TrayQuery, {
    tray: typeof tray === "string" && /^\d{1,4}$/.test(tray) ? Number(tray) : tray,
  });
  const found = trayByNumber(kitchen, number);
  if (found !== undefined) return { trayId: found.id };
  throw new Fault("not-found", ({ advice }) => advice.ask.noTray(number), "tray");
}

/** Why there is nothing that could help. */
function whyNothing(kitchen: Kitchen, subject: AdviceFor): NoAdvice | undefined {
  const trays = Object.values(kitchen.trays).filter((tray) =>
    "trayId" in subject ? tray.id === subject.trayId : tray.orderId === subject.orderId,
  );
  if (trays.length === 0) return "no-trays";
  return trays.every(({ status }) => status.stage === "packed") ? "packed" : undefined;
}
