import type { Band } from "#shared/drying/uncertainty/band.ts";
import { CABINET, FAN_RACK, HOT_AIR, icing, LANTERN, MOON, OVEN, OVEN_HEATER, rack } from "./furnishings.ts";
import { said } from "./said.ts";
import { nanoid } from "nanoid";
import type { Command, CommandOf, CommandType } from "#shared/kitchen/model/command.ts";
import { decide, type Decision } from "#shared/kitchen/commands/decide.ts";
import { withImpliedFactors } from "#shared/kitchen/forecast/implied-factors.ts";
import type { KitchenEvent } from "#shared/kitchen/model/event.ts";
import { evolve } from "#shared/kitchen/events/evolve.ts";
import { EMPTY_KITCHEN } from "#shared/kitchen/events/empty-kitchen.ts";
import { filmKey } from "#shared/kitchen/model/lookups.ts";
import type { Kitchen, Tray } from "#shared/kitchen/model/state.ts";
import { NO_FORECASTS, type FilmForecast, type Forecasts } from "#shared/kitchen/model/forecast.ts";
import type { Role } from "#shared/kitchen/model/vocabulary.ts";
import { asId, type PersonId } from "#shared/ids.ts";

/** A Monday morning in the invented kitchen. */
export const T0 = Date.UTC(2026, 4, 4, 8, 0);
export const MIN = 60_000;
export const HOUR = 60 * MIN;

export const id = <Id extends string>(raw: string): Id => asId<Id>(raw);

/** A command without the id and the brands a test does not care about. */
export type Loose<Type extends CommandType> = {
  [Key in keyof Omit<CommandOf<Type>, "commandId" | "type">]: unknown;
} & { commandId?: string };

/**
 * A kitchen driven by hand: commands are decided and evolved in place, the clock stands still until told. `act` throws on a
 * refusal, `ask` returns the decision.
 */
export class Scene {
  kitchen: Kitchen = EMPTY_KITCHEN;
  events: KitchenEvent[] = [];
  nowMs = T0;
  forecasts: Forecasts = NO_FORECASTS;
  by: PersonId | "kitchen" = "kitchen";
  role: Role | "kitchen" = "kitchen";
  lostPeople: ReadonlySet<string> = new Set();

  ask<Type extends CommandType>(type: Type, fields: Loose<Type>): Decision {
    const command = { commandId: nanoid(), ...fields, type } as unknown as Command;
    return this.send(command);
  }

  send(command: Command): Decision {
    const { nowMs, by, role, forecasts, lostPeople } = this;
    const decision = decide(this.kitchen, command, { nowMs, by, role, forecasts, lostPeople });
    if (!decision.ok) return decision;
    // As the server does before it logs them.
    const before = this.kitchen;
    const events = decision.value.map((event) => withImpliedFactors(before, event));
    this.kitchen = events.reduce(evolve, before);
    this.events.push(...events);
    return { ok: true, value: events };
  }

  /** Decides a command that must be taken; returns the id it was sent under. */
  act<Type extends CommandType>(type: Type, fields: Loose<Type>): string {
    const commandId = fields.commandId ?? nanoid();
    const { role } = this;
    // What a hygrometer sends comes by the kitchen's own link to it.
    const reading = "reading" in fields ? (fields.reading as { source?: unknown }) : undefined;
    if (reading !== undefined && reading.source !== "typed") this.role = "kitchen";
    const decision = this.ask(type, { ...fields, commandId });
    this.role = role;
    if (!decision.ok) throw new Error(`${type} refused: ${said(decision.refusal)}`);
    return commandId;
  }

  as(person: string, role: Role | "kitchen" = "decorator"): this {
    this.by = id<PersonId>(person);
    this.role = role;
    return this;
  }

  later(ms: number): this {
    this.nowMs += ms;
    return this;
  }

  /** A cookie set, and the heat on the next at once. */
  nextCookie(trayId: string): this {
    this.act("next-cookie", { trayId });
    this.act("heat-on", { trayId });
    return this;
  }

  /** Hot air over every cookie of a tray, each as long. */
  heatAll(trayId: string, lapMs: number): this {
    this.act("start-heat-set", { trayId, toolId: "hot-1" });
    for (let cookie = 1; cookie < this.tray(trayId).count; cookie += 1) this.later(lapMs).nextCookie(trayId);
    this.later(lapMs).act("end-heat-set", { trayId, result: "set" });
    return this;
  }

  tray(trayId = "t1"): Tray {
    const tray = this.kitchen.trays[trayId];
    if (tray === undefined) throw new Error(`no tray ${trayId}`);
    return tray;
  }

  /** Sets what the server would have forecast for one film. */
  forecast(trayId: string, layer: number, bands: Partial<FilmForecast>): this {
    const far = { earliestMs: T0 + 500 * HOUR, likelyMs: T0 + 600 * HOUR, latestMs: T0 + 700 * HOUR };
    const film = { skin: far, dryThrough: far, basis: "measured" as const, ...bands };
    this.forecasts = {
      ...this.forecasts,
      films: { ...this.forecasts.films, [filmKey(id(trayId), layer)]: film },
    };
    return this;
  }
}

/** A kitchen set up, with one order and three trays queued: t1 (Lantern, 12), t2 and t3 (Moon, 10). Acting: Wren, a decorator. */
export function aKitchen(): Scene {
  const scene = new Scene();
  scene.act("add-person", { person: { id: "ida", name: "Ida", role: "lead" } });
  scene.act("add-person", { person: { id: "wren", name: "Wren", role: "decorator" } });
  scene.act("add-person", { person: { id: "sol", name: "Sol", role: "decorator" } });
  scene.as("ida", "lead");
  scene.act("set-kitchen", { settings: { name: "Practice kitchen", timeZone: "Europe/Lisbon" } });
  for (const place of [rack("rack-a", "Rack A"), FAN_RACK, CABINET, OVEN]) scene.act("put-place", { place });
  for (const tool of [HOT_AIR, OVEN_HEATER]) scene.act("put-tool", { tool });
  for (const id of ["sea-glass", "storm", "butter"] as const) scene.act("put-icing", { icing: icing(id) });
  scene.act("put-design", { design: LANTERN });
  scene.act("put-design", { design: MOON });
  scene.act("put-order", {
    order: { id: "walk", name: "Lantern Walk", pickUpAtMs: T0 + 30 * HOUR, cookies: 32 },
  });
  scene.act("add-trays", {
    trays: [
      { id: "t1", number: 18, designId: "lantern", orderId: "walk", count: 12, placeId: "rack-a", slot: "6" },
      { id: "t2", number: 7, designId: "moon", orderId: "walk", count: 10, placeId: "rack-a" },
      { id: "t3", number: 8, designId: "moon", orderId: "walk", count: 10, placeId: "rack-a" },
    ],
  });
  return scene.as("wren");
}

/** A band around a moment. */
export const band = (likelyMs: number, spreadMs = 10 * MIN): Band => ({
  earliestMs: likelyMs - spreadMs,
  likelyMs,
  latestMs: likelyMs + spreadMs,
});
