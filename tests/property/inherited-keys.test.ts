import fc from "fast-check";
import * as v from "valibot";
import { describe, expect, test } from "vitest";
import { parse } from "#shared/fields.ts";
import { dueAlerts } from "#shared/kitchen/alerts/due.ts";
import { Command, COMMANDS } from "#shared/kitchen/model/command.ts";
import { evolve } from "#shared/kitchen/events/evolve.ts";
import { aKitchen, id, T0 } from "../support/scene.ts";

/** What every object answers to although nobody put it there. */
const INHERITED = Object.getOwnPropertyNames(Object.prototype);

interface Node {
  type: string;
  entries?: Record<string, Node>;
  wrapped?: Node;
  item?: Node;
  options?: readonly (Node | string)[];
  literal?: unknown;
  requirement?: unknown;
  pipe?: readonly Node[];
}

/** Something a schema may take, with this text wherever it asks for text. */
function filled(node: Node, text: string): unknown {
  switch (node.type) {
    case "object":
      return Object.fromEntries(
        Object.entries(node.entries ?? {}).map(([key, one]) => [key, filled(one, text)]),
      );
    case "array":
      return [filled(node.item!, text)];
    case "optional":
    case "nullable":
      return filled(node.wrapped!, text);
    case "picklist":
      return node.options![0];
    case "union":
    case "variant":
      return filled(node.options![0] as Node, text);
    case "literal":
      return node.literal;
    case "boolean":
      return true;
    case "number":
      return Number(node.pipe?.find(({ type }) => type === "min_value")?.requirement ?? 0);
    default:
      return text;
  }
}

const filledCommand = (schema: (typeof COMMANDS)[number], text: string): Record<string, unknown> =>
  filled(schema, text) as Record<string, unknown>;

/** A command with one of its texts, or all of them, replaced. */
const poisoned: fc.Arbitrary<Record<string, unknown>> = fc
  .record({ schema: fc.constantFrom(...COMMANDS), text: fc.constantFrom(...INHERITED), nth: fc.nat(6) })
  .map(({ schema, text, nth }) => {
    const sound = filledCommand(schema, "t1");
    const texts = Object.keys(sound).filter((key) => sound[key] === "t1" && key !== "commandId");
    const key = texts[nth % Math.max(texts.length, 1)];
    const all = filledCommand(schema, text);
    const one = key === undefined ? all : { ...sound, [key]: text };
    return { ...(nth > 3 ? all : one), commandId: "c1", atMs: T0 };
  });

describe("K37 a key that every object inherits is no key of the kitchen", () => {
  test("whatever command names one is refused, or harms nothing: the alarms still run", () => {
    fc.assert(
      fc.property(poisoned, (raw) => {
        const scene = aKitchen();
        const command = parse(Command, raw);
        if (!command.ok) return;
        for (const role of ["decorator", "lead", "kitchen"] as const) {
          scene.as(role === "lead" ? "ida" : "wren", role === "kitchen" ? "lead" : role);
          scene.role = role;
          scene.send(command.value);
          const { kitchen, forecasts, nowMs } = scene;
          expect(() => dueAlerts(kitchen, forecasts, nowMs, new Set())).not.toThrow();
          for (const alert of Object.values(kitchen.alerts)) expect(alert.kind).toBeTypeOf("string");
        }
      }),
      { numRuns: 2000 },
    );
  });

  test.each(INHERITED)("an alert named %s is not there to be seen or put off", (key) => {
    const scene = aKitchen().as("wren");
    for (const decision of [
      scene.ask("acknowledge-alert", { key }),
      scene.ask("put-off-alert", { key, minutes: 5 }),
    ])
      expect(decision).toMatchObject({ ok: false, refusal: { reason: "unknown" } });
  });

  test.each(INHERITED)("a log that holds an alert named %s as seen heals when it is read", (key) => {
    const { kitchen } = aKitchen();
    const stamp = { atMs: T0, by: id<never>("wren"), actId: id<never>("a1") };
    const seen = evolve(kitchen, { type: "alert-acknowledged", ...stamp, key });
    expect(evolve(seen, { type: "alert-put-off", ...stamp, key, untilMs: T0 })).toBe(kitchen);
  });

  test("the schemas are walked: every command is tried with a text that is one of these", () => {
    const tried = new Set(fc.sample(poisoned, 3000).map(({ type }) => type));
    expect(tried).toEqual(new Set(COMMANDS.map(({ entries }) => entries.type.literal)));
    const sound = COMMANDS.filter((schema) => v.is(Command, { ...filledCommand(schema, "t1"), atMs: T0 }));
    expect(sound.length).toBeGreaterThan(COMMANDS.length / 2);
  });
});
