import { said } from "./said.ts";
import { asId } from "#shared/ids.ts";
import type { KitchenEvent } from "#shared/kitchen/model/event.ts";
import type { Command } from "#shared/kitchen/model/command.ts";
import { decide } from "#shared/kitchen/commands/decide.ts";
import { evolve } from "#shared/kitchen/events/evolve.ts";
import { EMPTY_KITCHEN } from "#shared/kitchen/events/empty-kitchen.ts";
import { NO_FORECASTS } from "#shared/kitchen/model/forecast.ts";
import { setUpCommands } from "./server-kitchen.ts";
import { START_MS } from "./server-timers.ts";

/** Weeks of a busy kitchen: trays added, flooded, touched, moved, packed and put away, with readings between. */
export function* busyWeeks(events: number, traysADay = 100): Generator<KitchenEvent> {
  let count = 0;
  for (const event of setUpEvents()) {
    count += 1;
    yield event;
  }
  for (let day = 0; count < events; day += 1) {
    for (const event of aDay(day, traysADay)) {
      if (count === events) return;
      count += 1;
      yield event;
    }
  }
}

function setUpEvents(): KitchenEvent[] {
  let kitchen = EMPTY_KITCHEN;
  return setUpCommands(1).flatMap((command) => {
    const decision = decide(kitchen, command as Command, {
      nowMs: START_MS,
      by: "kitchen",
      role: "kitchen",
      forecasts: NO_FORECASTS,
    });
    if (!decision.ok) throw new Error(said(decision.refusal));
    kitchen = decision.value.reduce(evolve, kitchen);
    return decision.value;
  });
}

function* aDay(day: number, trays: number): Generator<KitchenEvent> {
  const ids = Array.from({ length: trays }, (_, k) => `d${day}-${k}`);
  let acts = 0;
  const stamp = (minute: number) => {
    acts += 1;
    return {
      atMs: START_MS + day * 86_400_000 + minute * 60_000,
      by: asId<never>("wren"),
      actId: asId<never>(`d${day}a${acts}`),
    };
  };
  const trayId = (id: string) => ({ trayId: asId<never>(id) });
  for (const [k, id] of ids.entries()) {
    const plan = {
      id: asId<never>(id),
      number: 100 + k,
      designId: asId<never>("moon"),
      orderId: asId<never>("party"),
    };
    yield { type: "tray-added", ...stamp(0), plan: { ...plan, count: 12, placeId: asId("rack-a") } };
  }
  for (const [k, id] of ids.entries()) {
    yield { type: "flooded", ...stamp(10 + k), ...trayId(id), layer: 0, weighed: [] };
    yield {
      type: "reading-taken",
      ...stamp(10 + k),
      reading: { placeId: asId("rack-a"), tempC: 22, rhPct: 45 + (k % 9), source: "sensor" },
    };
    yield {
      type: "touch-tested",
      ...stamp(60 + k),
      ...trayId(id),
      layer: 0,
      finding: "skinned",
      weighed: { layer: 0, skinLn: 0.1 },
    };
    yield { type: "tray-moved", ...stamp(90 + k), ...trayId(id), placeId: asId("rack-a"), slot: String(k) };
    yield { type: "packed", ...stamp(700 + k), ...trayId(id), weighed: [{ layer: 0, dryThroughLn: 0.05 }] };
  }
  yield { type: "trays-put-away", ...stamp(1300), trayIds: ids.map((id) => asId<never>(id)), evidence: [] };
}
