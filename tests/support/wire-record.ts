import { createHash } from "node:crypto";
import { readFileSync, writeFileSync } from "node:fs";
import { fileURLToPath } from "node:url";
import { Command } from "#shared/kitchen/model/command.ts";
import { KitchenEvent } from "#shared/kitchen/model/event.ts";
import { evolve } from "#shared/kitchen/events/evolve.ts";
import { EMPTY_KITCHEN } from "#shared/kitchen/events/empty-kitchen.ts";
import type { Kitchen } from "#shared/kitchen/model/state.ts";
import { CanAlert } from "#shared/protocol/can-alert.ts";
import { Hello } from "#shared/protocol/hello.ts";
import { JoinRequest } from "#shared/protocol/join.ts";
import { ReadingRequest } from "#shared/protocol/readings.ts";
import { PROTOCOL_VERSION } from "#shared/protocol/version.ts";
import { goldenKitchen } from "./golden-kitchen.ts";
import { schemaText } from "./schema-text.ts";

/** What is sent between a page and its server, or kept in the log. */
const SCHEMAS = { Command, KitchenEvent, CanAlert, Hello, JoinRequest, ReadingRequest };

/** The schemas' hashes as they were when a protocol version was made. */
export interface WireRecord {
  protocol: number;
  schemas: Readonly<Record<string, string>>;
}

const fixtures = new URL("../fixtures/", import.meta.url);
export const GOLDEN = fileURLToPath(new URL("golden/", fixtures));
const RECORD = fileURLToPath(new URL("wire-schemas.json", fixtures));

export const wireNow = (): WireRecord => ({
  protocol: PROTOCOL_VERSION,
  schemas: Object.fromEntries(
    Object.entries(SCHEMAS).map(([name, schema]) => [
      name,
      createHash("sha256").update(schemaText(schema)).digest("hex").slice(0, 16),
    ]),
  ),
});

export const wireRecorded = (): WireRecord => JSON.parse(readFileSync(RECORD, "utf8")) as WireRecord;

export const changedSchemas = (before: WireRecord, now: WireRecord): string[] =>
  Object.keys({ ...before.schemas, ...now.schemas }).filter(
    (name) => before.schemas[name] !== now.schemas[name],
  );

/** A state as it is sent: what JSON does not carry is not in it. */
export const asSent = (kitchen: Kitchen): unknown => JSON.parse(JSON.stringify(kitchen));

/** Writes down the schemas of this version, and a log that holds every kind of event it knows. */
export function recordWire(): void {
  const { events } = goldenKitchen();
  const golden = `${GOLDEN}protocol-${PROTOCOL_VERSION}`;
  writeFileSync(`${golden}.events.jsonl`, events.map((event) => `${JSON.stringify(event)}\n`).join(""));
  const state = asSent(events.reduce(evolve, EMPTY_KITCHEN));
  writeFileSync(`${golden}.state.json`, `${JSON.stringify(state, undefined, 2)}\n`);
  writeFileSync(RECORD, `${JSON.stringify(wireNow(), undefined, 2)}\n`);
}
