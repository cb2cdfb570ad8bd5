import { saidOf } from "#tests/support/said.ts";
import { existsSync, readdirSync, readFileSync } from "node:fs";
import { expect, it } from "vitest";
import { parse } from "#shared/fields.ts";
import { COMMANDS } from "#shared/kitchen/model/command.ts";
import { KitchenEvent } from "#shared/kitchen/model/event.ts";
import { evolve } from "#shared/kitchen/events/evolve.ts";
import { EMPTY_KITCHEN } from "#shared/kitchen/events/empty-kitchen.ts";
import { PROTOCOL_VERSION } from "#shared/protocol/version.ts";
import { goldenKitchen } from "#tests/support/golden-kitchen.ts";
import { asSent, changedSchemas, GOLDEN, wireNow, wireRecorded } from "#tests/support/wire-record.ts";

const HOW =
  "Raise PROTOCOL_VERSION in shared/protocol/version.ts, so that pages of before reload themselves; see that old logs still open (a new field " +
  "of an event is optional or defaulted on reading); then npm run record-wire. Where no kitchen runs this version yet, instead of " +
  "raising it: npm run record-wire -- --unreleased";

const EVENT_TYPES = KitchenEvent.options.map(({ entries }) => entries.type.literal);
const logs = readdirSync(GOLDEN).filter((name) => name.endsWith(".events.jsonl"));
const linesOf = (log: string): string[] => readFileSync(`${GOLDEN}${log}`, "utf8").trim().split("\n");

it("P20 what is sent and stored is as it was recorded for this protocol version", () => {
  const [recorded, now] = [wireRecorded(), wireNow()];
  expect(changedSchemas(recorded, now), `These schemas changed. ${HOW}`).toEqual([]);
  expect(recorded.protocol, `PROTOCOL_VERSION was raised: npm run record-wire`).toBe(now.protocol);
});

it("P19 every version's golden log is kept, this one's too", () => {
  expect(logs.length).toBeGreaterThan(0);
  expect(
    existsSync(`${GOLDEN}protocol-${PROTOCOL_VERSION}.events.jsonl`),
    `there is no golden log of protocol ${PROTOCOL_VERSION}: npm run record-wire`,
  ).toBe(true);
});

it.each(logs)("P19 %s opens: every event is read, and folds to what it meant then", (log) => {
  const events = linesOf(log).map((line) => {
    const read = parse(KitchenEvent, JSON.parse(line));
    if (!read.ok) throw new Error(`${line}: ${saidOf(read.refusal)}`);
    return read.value;
  });
  const state = asSent(events.reduce(evolve, EMPTY_KITCHEN));
  const then = readFileSync(`${GOLDEN}${log.replace(".events.jsonl", ".state.json")}`, "utf8");
  // A later version may know more of it, not other things.
  expect(state).toMatchObject(JSON.parse(then) as object);
});

it("P20 the golden kitchen gives every command there is, and so gets every kind of event", () => {
  const { types, events } = goldenKitchen();
  const how = "let tests/support/golden-kitchen.ts give it too";
  const commands = COMMANDS.map(({ entries }) => entries.type.literal);
  expect(
    commands.filter((type) => !types.has(type)),
    how,
  ).toEqual([]);
  const made = new Set(events.map(({ type }) => type));
  expect(
    EVENT_TYPES.filter((type) => !made.has(type)),
    how,
  ).toEqual([]);
});

it("P19 this version's golden log holds every kind of event", () => {
  const lines = linesOf(`protocol-${PROTOCOL_VERSION}.events.jsonl`);
  const held = new Set(lines.map((line) => (JSON.parse(line) as { type: string }).type));
  expect(
    EVENT_TYPES.filter((type) => !held.has(type)),
    "npm run record-wire",
  ).toEqual([]);
});
