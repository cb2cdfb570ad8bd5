import { refusalOf, saidOf } from "#tests/support/said.ts";
import { describe, expect, it } from "vitest";
import { parse } from "#shared/fields.ts";
import { Command } from "#shared/kitchen/model/command.ts";
import type { Decision } from "#shared/kitchen/commands/decide.ts";
import { fahrenheitToCelsius } from "#shared/units.ts";
import { HOT_AIR, LANTERN, MOON } from "../support/furnishings.ts";
import { aKitchen, HOUR, type Scene, T0 } from "../support/scene.ts";

const lead = (): Scene => aKitchen().as("ida", "lead");

describe("setting up the kitchen", () => {
  it.each([
    ["decorator", "put-order", { order: {} }, "Only a lead"],
    ["wall", "flooded", { trayId: "t1" }, "The wall only shows"],
    ["sensor", "flooded", { trayId: "t1" }, "A sensor may only send readings"],
    ["lead", "reconcile-alerts", {}, "Only the kitchen's own server"],
    ["lead", "add-person", { person: {} }, "Only the kitchen's own server"],
  ] as const)("K4 a %s may not %s", (role, type, fields, words) => {
    const scene = aKitchen().as("wren", role);
    expect(refusalOf(scene.ask(type, fields as never))).toMatchObject({
      reason: "not-allowed",
      message: expect.stringContaining(words),
    });
  });

  it("D20 a reading that changes nothing is taken without an event: a repeat, or one between two within 20 s", () => {
    const scene = aKitchen().as("ida", "sensor");
    const air = { placeId: "rack-a", tempC: 22, rhPct: 45, source: "sensor" };
    const read = (atMs: number, rhPct = 45): Decision =>
      scene.ask("enter-reading", { atMs, reading: { ...air, rhPct } });
    for (const agoMs of [60_000, 40_001, 0])
      expect(read(T0 - agoMs)).toMatchObject({ value: [{ atMs: T0 - agoMs }] });
    for (const agoMs of [60_000, 50_000, 0]) expect(read(T0 - agoMs)).toEqual({ ok: true, value: [] });
    expect(read(T0, 46)).toMatchObject({ value: [{ type: "reading-taken" }] });
  });

  it("K4 a sensor's reading is taken, the last lead stays one", () => {
    const scene = aKitchen().as("ida", "sensor");
    scene.act("enter-reading", { reading: { placeId: "rack-a", tempC: 22, rhPct: 45, source: "sensor" } });
    expect(scene.kitchen.readings["rack-a"]).toMatchObject([{ tempC: 22, rhPct: 45, atMs: T0 }]);
    scene.as("ida", "lead");
    expect(refusalOf(scene.ask("set-role", { personId: "ida", role: "decorator" })).message).toContain(
      "the only lead",
    );
    scene.act("set-role", { personId: "sol", role: "lead" });
    scene.act("set-role", { personId: "ida", role: "decorator" });
  });

  it.each([
    [
      "an oven without a temperature",
      "put-place",
      { place: { id: "o", name: "O", kind: "oven", airSpeedMs: 0.5, capacity: 2 } },
      "place.setTempC is missing",
    ],
    [
      "a rack with one",
      "put-place",
      { place: { id: "o", name: "O", kind: "rack", airSpeedMs: 0.5, capacity: 2, setTempC: 40 } },
      "place.setTempC is for ovens",
    ],
    [
      "a cabinet too hot",
      "put-place",
      { place: { id: "o", name: "O", kind: "warm-cabinet", airSpeedMs: 0.5, capacity: 2, setTempC: 90 } },
      "place.setTempC must be 25 to 60 °C",
    ],
    [
      "two places of one name",
      "put-place",
      { place: { id: "o", name: "rack a", kind: "rack", airSpeedMs: 0.5, capacity: 2 } },
      "There is a place called Rack A already",
    ],
    [
      "air from nowhere",
      "put-place",
      { place: { id: "o", name: "O", kind: "rack", airSpeedMs: 0.5, capacity: 2, airFrom: "gone" } },
      "place.airFrom",
    ],
    [
      "a place with trays in it removed",
      "remove-place",
      { placeId: "rack-a" },
      "still holds trays 18, 7 and 8",
    ],
    [
      "an oven tool that is no oven",
      "put-tool",
      {
        tool: {
          id: "x",
          name: "X",
          kind: "oven",
          placeId: "rack-a",
          airC: 65,
          maxAirC: 80,
          capS: 300,
          coolDownMin: 5,
        },
      },
      "tool.placeId must name the oven",
    ],
    [
      "hot air beyond its bounds",
      "put-tool",
      { tool: { id: "x", name: "X", kind: "hot-air", airC: 90, maxAirC: 350, capS: 300, coolDownMin: 5 } },
      "tool.airC must be 100 to 550 °C",
    ],
    [
      "a cap beyond its bounds",
      "put-tool",
      { tool: { id: "x", name: "X", kind: "hot-air", airC: 250, maxAirC: 350, capS: 3000, coolDownMin: 5 } },
      "tool.capS must be 20 to 600 s",
    ],
    [
      "air hotter than the tool's own limit",
      "put-tool",
      { tool: { id: "x", name: "X", kind: "hot-air", airC: 250, maxAirC: 200, capS: 180, coolDownMin: 5 } },
      "tool.maxAirC must be at least 250 °C",
    ],
    [
      "an oven set hotter than its tool may be",
      "put-place",
      {
        place: { id: "oven", name: "Low oven", kind: "oven", airSpeedMs: 0.5, capacity: 2, setTempC: 95 },
      },
      "place.setTempC must be at most 80 °C: Low oven may never be hotter",
    ],
    ["an icing in use removed", "remove-icing", { icingId: "storm" }, "Lantern is iced with storm"],
    [
      "a design of unknown icing",
      "put-design",
      { design: { ...MOON, id: "x", layers: [{ ...MOON.layers[0], icingId: "gone" }] } },
      "design.layers.0.icingId",
    ],
    ["a design on trays removed", "remove-design", { designId: "lantern" }, "Lantern is on tray 18"],
    [
      "a pick-up that has been",
      "put-order",
      { order: { id: "x", name: "X", pickUpAtMs: T0 - HOUR, cookies: 4 } },
      "order.pickUpAtMs lies in the past",
    ],
    [
      "an order with trays cancelled",
      "cancel-order",
      { orderId: "walk" },
      "Lantern Walk still has trays 18, 7 and 8",
    ],
    [
      "a tray of an unknown design",
      "add-trays",
      { trays: [{ id: "n", number: 90, designId: "gone", orderId: "walk", count: 4, placeId: "rack-a" }] },
      "trays.0.designId",
    ],
    [
      "a tray that begins in the oven",
      "add-trays",
      { trays: [{ id: "n", number: 90, designId: "moon", orderId: "walk", count: 4, placeId: "oven" }] },
      "a tray comes there by a heat-set",
    ],
  ] as const)("K1 %s is refused in words", (_, type, fields, words) => {
    expect(refusalOf(lead().ask(type, fields as never)).message).toContain(words);
  });

  it("H9 a kitchen that thinks in °F is told in °F that its tool's limit is below its air", () => {
    const scene = lead();
    scene.act("set-kitchen", { settings: { units: "us" } });
    const tool = { ...HOT_AIR, airC: 250, maxAirC: 200 };
    expect(refusalOf(scene.ask("put-tool", { tool }), "us").message).toBe(
      "tool.maxAirC must be at least 482 °F, the air Hot-air tool 1 is set to: got 392 °F.",
    );
  });

  it("H9 a limit typed as the very °F that an oven shows is taken, and the oven saved again; one below is not", () => {
    const scene = lead();
    scene.act("set-kitchen", { settings: { units: "us" } });
    const { use: _, ...oven } = scene.kitchen.tools["oven-1"]!;
    const limited = (maxF: number): Decision =>
      scene.ask("put-tool", { tool: { ...oven, maxAirC: fahrenheitToCelsius(maxF) } });
    expect(refusalOf(limited(149), "us").message).toContain("must be at least 150 °F");
    expect(limited(150).ok).toBe(true);
    const place = scene.kitchen.places["oven"]!;
    expect(scene.ask("put-place", { place: { ...place, capacity: 3 } }).ok).toBe(true);
    expect(
      refusalOf(scene.ask("put-place", { place: { ...place, setTempC: 66.2 } }), "us").message,
    ).toContain("place.setTempC must be at most 150 °F");
  });

  it("K19 trays are added only as far as the place holds them", () => {
    const trays = ["n1", "n2", "n3"].map((id, index) => ({
      id,
      number: 90 + index,
      designId: "moon",
      orderId: "walk",
      count: 4,
      placeId: "fan",
    }));
    expect(refusalOf(lead().ask("add-trays", { trays })).message).toBe("Fan rack is full: it holds 2 trays.");
    expect(lead().ask("add-trays", { trays: trays.slice(0, 2) }).ok).toBe(true);
    const one = lead();
    one.act("put-place", {
      place: { id: "fan", name: "Fan rack", kind: "fan-rack", airSpeedMs: 2, capacity: 1 },
    });
    expect(refusalOf(one.ask("add-trays", { trays })).message).toBe("Fan rack is full: it holds 1 tray.");
  });

  it.each([
    [{ type: "flooded" }, "commandId is missing"],
    [{ type: "flooded", commandId: "c" }, "trayId is missing"],
    [{ type: "flooded", commandId: "c", trayId: "constructor" }, "trayId must be a TrayId: 1 to 40 letters"],
    [{ type: "nonsense", commandId: "c" }, "type must be the name of a command"],
    [
      { type: "report-problem", commandId: "c", trayId: "t1", problem: "bled", count: 0 },
      "count must be a whole number from 1 to 200",
    ],
    [
      { type: "report-problem", commandId: "c", trayId: "t1", problem: "ate it", count: 1 },
      "problem must be one of: bled, sunk",
    ],
    [
      {
        type: "enter-reading",
        commandId: "c",
        reading: { placeId: "p", tempC: Number.NaN, rhPct: 40, source: "typed" },
      },
      "reading.tempC must be -5 to 120 °C",
    ],
    [
      { type: "enter-reading", commandId: "c", reading: { placeId: "p", rhPct: 40, source: "typed" } },
      "reading.tempC is missing: it must be -5 to 120 °C",
    ],
    [
      {
        type: "put-design",
        commandId: "c",
        design: {
          id: "d",
          name: "D",
          sizeMm: 60,
          layers: [MOON.layers[0], { ...MOON.layers[0], thicknessMm: undefined }].map((layer) =>
            JSON.parse(JSON.stringify(layer)),
          ),
        },
      },
      "design.layers.1.thicknessMm is missing: it must be 0.2 to 12 mm",
    ],
    [
      {
        type: "enter-reading",
        commandId: "c",
        reading: { placeId: "p", tempC: 20, rhPct: 140, source: "typed" },
      },
      "reading.rhPct must be 0 to 100 % RH",
    ],
    [
      { type: "put-icing", commandId: "c", icing: { id: "x", name: "x".repeat(41), hex: "#ffffff" } },
      "icing.name must be text of 1 to 40 characters",
    ],
    [
      { type: "put-icing", commandId: "c", icing: { id: "x", name: "x", hex: "blue" } },
      "icing.hex must be a colour as #rrggbb",
    ],
    [
      { type: "set-kitchen", commandId: "c", settings: { timeZone: "Mars/Base" } },
      "settings.timeZone must be a time zone",
    ],
    [
      { type: "put-design", commandId: "c", design: { ...LANTERN, layers: [] } },
      "design.layers must have 1 to 12 layers",
    ],
    [
      {
        type: "put-design",
        commandId: "c",
        design: { ...LANTERN, layers: [{ ...LANTERN.layers[0], thicknessMm: 14 }] },
      },
      "design.layers.0.thicknessMm must be 0.2 to 12 mm",
    ],
  ])("P8 %j is malformed: the field and its range are named", (asked, words) => {
    const parsed = parse(Command, asked);
    if (parsed.ok) throw new Error("was parsed");
    expect(saidOf(parsed.refusal)).toContain(words);
  });
});
