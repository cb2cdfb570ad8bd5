import { aliveTrays, dryingPlaceOf } from "#shared/kitchen/model/lookups.ts";
import type { KitchenEvent } from "#shared/kitchen/model/event.ts";
import type { Kitchen } from "#shared/kitchen/model/state.ts";
import { readingsAt } from "#shared/kitchen/tray/place-readings.ts";
import type { KnownStays } from "./known-stays.ts";
import type { ForecastTables } from "./tables.ts";
import { TOUCHED } from "./touched.ts";

/** What there is to forecast, each set in order of arrival, and what else is due. Whoever does it takes it out. */
export interface ToDo {
  /** Trays under someone's hands; all others; places. */
  touched: Set<string>;
  routine: Set<string>;
  places: Set<string>;
  due: { learning: boolean; plan: boolean; news: boolean; reading: boolean };
  everything: () => void;
  /** Notes what these events touch; whether that is anything at all. */
  touch: (events: readonly KitchenEvent[]) => boolean;
}

export interface ToDoDeps {
  kitchen: () => Kitchen;
  tables: ForecastTables;
  stays: KnownStays;
}

/** Nothing yet but to learn, to plan and to look for news of the air. */
export function makeToDo({ kitchen: kitchenNow, tables, stays }: ToDoDeps): ToDo {
  const touched = new Set<string>();
  const routine = new Set<string>();
  const places = new Set<string>();
  const due = { learning: true, plan: true, news: true, reading: false };

  function everything(): void {
    const kitchen = kitchenNow();
    for (const trayId of Object.keys(tables.latest("trays"))) routine.add(trayId);
    for (const { id } of aliveTrays(kitchen)) routine.add(id);
    for (const placeId of [...Object.keys(tables.latest("places")), ...Object.keys(kitchen.places)])
      places.add(placeId);
    due.plan = true;
    due.news = true;
  }

  function touchOne(event: KitchenEvent): boolean {
    const touches = TOUCHED[event.type];
    if (touches === "nothing") return false;
    if (event.type === "tray-moved" && stays.areKnown(kitchenNow().trays[event.trayId])) return false;
    if (touches === "heat" && "toolId" in event) return touchHeat(event.toolId);
    if ("trayId" in event) touchTray(event.trayId, touches === "tray and learning");
    else if ("plan" in event) touchTray(event.plan.id, false);
    else if ("reading" in event) touchAir(event.reading.placeId);
    else if (touches === "all") {
      // How an icing or a layer is said to be, and when the kitchen is open, bears on what its findings teach.
      due.learning = true;
      everything();
    } else due.plan = true;
    return true;
  }

  function touchTray(trayId: string, mayTeach: boolean): void {
    touched.add(trayId);
    due.plan = true;
    due.learning ||= mayTeach;
  }

  /** Places that go by these readings, and the trays there. */
  function touchAir(placeId: string): void {
    const kitchen = kitchenNow();
    const read = kitchen.readings[placeId];
    const here = new Set(Object.keys(kitchen.places).filter((id) => readingsAt(kitchen, id) === read));
    for (const id of here) places.add(id);
    for (const tray of aliveTrays(kitchen)) if (here.has(dryingPlaceOf(tray).placeId)) routine.add(tray.id);
    due.plan = true;
    due.news = true;
    due.reading = true;
  }

  /** What stands where a tool warms it, or no longer does. */
  function touchHeat(toolId: string): boolean {
    const kitchen = kitchenNow();
    const placeId = kitchen.tools[toolId]?.placeId;
    const here = aliveTrays(kitchen).filter((tray) => dryingPlaceOf(tray).placeId === placeId);
    for (const { id } of here) touched.add(id);
    due.plan ||= here.length > 0;
    return here.length > 0;
  }

  return {
    touched,
    routine,
    places,
    due,
    everything,
    // Every event is noted, whatever the others touch.
    touch: (events) => events.map(touchOne).some((isAny) => isAny),
  };
}
