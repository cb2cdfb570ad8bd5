import { hash } from "node:crypto";
import { parse } from "#shared/fields.ts";
import { KitchenEvent } from "#shared/kitchen/model/event.ts";
import type { Kitchen } from "#shared/kitchen/model/state.ts";
import type { CommandAnswer } from "#shared/protocol/command.ts";
import { errorMessage } from "#server/error-message.ts";
import { inLog } from "#server/words.ts";
import type { Given, Page, Recorded, SetAside } from "./event-log.ts";

/** What a database keeps of the log is text: how each kind is read back. */

export const textSha256 = (text: string): string => hash("sha256", text);

export interface EventRow {
  seq: number;
  type: string;
  event: string;
  hash: string;
}

/** A page of the log from its rows, those after `seq`. */
export function pageOf(rows: readonly EventRow[], seq: number): Page {
  const records: Recorded[] = [];
  const setAside: SetAside[] = [];
  for (const row of rows) {
    const read = readEvent(row.event);
    if ("event" in read) records.push({ seq: row.seq, event: read.event, hash: row.hash });
    else setAside.push({ seq: row.seq, type: row.type, reason: read.reason });
  }
  return { records, setAside, toSeq: rows.at(-1)?.seq ?? seq };
}

/** An event as it was stored, or why it cannot be read. */
export function readEvent(json: string): { event: KitchenEvent } | { reason: string } {
  let raw: unknown;
  try {
    raw = JSON.parse(json);
  } catch (error) {
    return { reason: `torn: ${errorMessage(error)}` };
  }
  const parsed = parse(KitchenEvent, raw);
  return parsed.ok ? { event: parsed.value } : { reason: inLog(({ faults }) => faults.say(parsed.refusal)) };
}

/** An answer as it was stored; before answers were facts, a sentence. */
function readAnswer(json: string): CommandAnswer {
  try {
    const answer = JSON.parse(json) as CommandAnswer & { message?: string };
    const { message } = answer;
    if (answer.ok || message === undefined) return answer;
    return { ok: false, reason: answer.reason, fact: { code: "said", text: message } };
  } catch {
    return { ok: false, reason: "too-late", fact: { code: "answer-unreadable" } };
  }
}

export interface AnswerRow {
  answer: string;
  device_id: string | null;
  body_sha256: string | null;
}

export const givenOf = (row: AnswerRow): Given => ({
  answer: readAnswer(row.answer),
  ...(row.device_id !== null && { deviceId: row.device_id }),
  ...(row.body_sha256 !== null && { sha256: row.body_sha256 }),
});

/** A snapshot's kitchen, where its text is whole. */
export function wholeKitchen(row: { sha256: string; kitchen: string } | undefined): Kitchen | undefined {
  return row === undefined || textSha256(row.kitchen) !== row.sha256
    ? undefined
    : (JSON.parse(row.kitchen) as Kitchen);
}
