import type { Kitchen } from "#shared/kitchen/model/state.ts";
import type { KitchenUnits } from "#shared/units.ts";
import type { House } from "./house.ts";
import type { Asked } from "./scheduler.ts";

/** What makes a furnished kitchen's places, tools, rules and units those of the same house in other words. */
export function renamed(kitchen: Kitchen, house: House, units: KitchenUnits): Asked[] {
  const { houseRules, labelText } = house.settings;
  const { settings, places, tools } = kitchen;
  const isSame = settings.units === units && settings.houseRules?.join() === houseRules?.join();
  return [
    ...(isSame ? [] : [{ type: "set-kitchen" as const, settings: { units, houseRules, labelText } }]),
    ...house.places
      .filter(({ id, name }) => places[id]?.name !== name)
      .map((place) => ({ type: "put-place" as const, place })),
    ...house.tools
      .filter(({ id, name }) => tools[id]?.name !== name)
      .map((tool) => ({ type: "put-tool" as const, tool })),
  ];
}
