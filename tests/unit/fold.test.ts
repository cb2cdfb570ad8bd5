import { expect, test } from "vitest";
import * as v from "valibot";
import { parse } from "#shared/fields.ts";
import { EMPTY_KITCHEN } from "#shared/kitchen/events/empty-kitchen.ts";
import { evolve } from "#shared/kitchen/events/evolve.ts";
import { foldFrom } from "#shared/kitchen/events/fold.ts";
import { Command } from "#shared/kitchen/model/command.ts";
import { KitchenEvent } from "#shared/kitchen/model/event.ts";
import type { Kitchen } from "#shared/kitchen/model/state.ts";
import { playEveryCommand } from "../support/golden-kitchen.ts";
import { Scene } from "../support/scene.ts";
import { busyWeeks } from "../support/server-big-log.ts";

const everything = (): readonly KitchenEvent[] => {
  const scene = new Scene();
  playEveryCommand(scene);
  return scene.events;
};

test("K3 a log folded with its trays written in place comes to what event after event comes to", () => {
  for (const events of [everything(), [...busyWeeks(3000)]]) {
    const fold = foldFrom(EMPTY_KITCHEN);
    for (const event of events) fold.add(event);
    // Not merely equal: in the same order as well.
    expect(JSON.stringify(fold.kitchen())).toBe(JSON.stringify(events.reduce(evolve, EMPTY_KITCHEN)));
  }
});

test("K3 a kitchen that was looked at, or started from, is not changed by what is folded later", () => {
  const events = everything();
  const start = events.slice(0, events.length / 2).reduce(evolve, EMPTY_KITCHEN);
  const text = JSON.stringify(start);
  const fold = foldFrom(start);
  const seen: { kitchen: Kitchen; text: string }[] = [];
  for (const event of events.slice(events.length / 2)) {
    fold.add(event);
    const kitchen = fold.kitchen();
    seen.push({ kitchen, text: JSON.stringify(kitchen) });
  }
  expect(JSON.stringify(start)).toBe(text);
  for (const one of seen) expect(JSON.stringify(one.kitchen)).toBe(one.text);
});

test("K3 an event that throws leaves nothing behind, though it had changed its tray", () => {
  const events = [...busyWeeks(400)];
  const fold = foldFrom(EMPTY_KITCHEN);
  const thrower = (event: KitchenEvent): KitchenEvent =>
    new Proxy(event, {
      get: (target, key) => {
        // What comes after the tray was written: who did it, where the tool of its place is looked for.
        if (key === "by" && new Error().stack?.includes("onToolOfStay") === true) throw new Error("broken");
        return Reflect.get(target, key);
      },
    });
  const moved = events.find(({ type }) => type === "tray-moved")!;
  for (const event of events.slice(0, events.indexOf(moved))) fold.add(event);
  expect(() => fold.add(thrower(moved))).toThrow("broken");
  expect(fold.kitchen()).toEqual(events.slice(0, events.indexOf(moved)).reduce(evolve, EMPTY_KITCHEN));
});

test("the shape a command or an event names is parsed as the whole list of shapes would, good or bad", () => {
  const bad = { trayId: 7, atMs: "noon", by: "", plan: null, layer: 99, toolId: undefined };
  for (const event of everything()) {
    for (const [key, value] of [["unknown", 1], ...Object.entries(bad)] as const) {
      const input = { ...event, [key]: value };
      const known = v.safeParse(KitchenEvent, input);
      const parsed = parse(KitchenEvent, input);
      expect(parsed.ok).toBe(known.success);
      if (parsed.ok) expect(parsed.value).toEqual(known.output);
      else expect(parsed.refusal.field).toBe(v.getDotPath(known.issues![0]));
    }
  }
  for (const odd of [undefined, null, 7, "flooded", [], {}, { type: "no such" }, { type: ["flooded"] }])
    expect(parse(Command, odd).ok).toBe(false);
});
