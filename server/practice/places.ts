import type { TrayId } from "#shared/ids.ts";
import { aliveTrays, roomLeft, standsAt, trayUnder } from "#shared/kitchen/model/lookups.ts";
import type { Kitchen } from "#shared/kitchen/model/state.ts";
import type { Place } from "#shared/kitchen/model/vocabulary.ts";
import { SECOND_MS } from "#shared/time.ts";
import { ask, pass, type Script } from "./scheduler.ts";
import { kitchenOf, type Self } from "./world.ts";

/** A slot of a place nobody's tray stands in. */
export function freeSlot(kitchen: Kitchen, place: Place, taken: ReadonlySet<string> = new Set()): string {
  const used = new Set(
    aliveTrays(kitchen)
      .map(standsAt)
      .filter(({ placeId }) => placeId === place.id)
      .map(({ slot }) => slot),
  );
  for (let slot = 1; ; slot += 1)
    if (!used.has(String(slot)) && !taken.has(String(slot))) return String(slot);
}

/** The rack with most room; undefined when all are full. */
export function emptiestRack(kitchen: Kitchen): Place | undefined {
  return Object.values(kitchen.places)
    .filter((place) => place.kind === "rack" && roomLeft(kitchen, place.id) > 0)
    .toSorted((a, b) => roomLeft(kitchen, b.id) - roomLeft(kitchen, a.id))[0];
}

/** A place of a kind with more than `spare` trays' room. */
export const roomIn = (kitchen: Kitchen, kind: Place["kind"], spare = 0): Place | undefined =>
  Object.values(kitchen.places).find((place) => place.kind === kind && roomLeft(kitchen, place.id) > spare);

/** Carries a tray to a place, and switches on what that place dries with. False when the kitchen said no. */
export function* carry(self: Self, trayId: TrayId, place: Place): Script<boolean> {
  yield* pass(self.chance.between(10, 40) * SECOND_MS);
  const slot = freeSlot(kitchenOf(self), place);
  if (!(yield* ask({ type: "move-tray", trayId, placeId: place.id, slot })).ok) return false;
  const tool = Object.values(kitchenOf(self).tools).find(({ placeId }) => placeId === place.id);
  if (tool?.use.status === "off") yield* ask({ type: "tool-on", toolId: tool.id });
  return true;
}

/** Whether a tool has a tray under it, or is a cabinet or oven with trays in it. */
export function isBusy(self: Self, toolId: string): boolean {
  const kitchen = kitchenOf(self);
  const tool = kitchen.tools[toolId];
  const place = kitchen.places[tool?.placeId ?? ""];
  const isFilled = place !== undefined && roomLeft(kitchen, place.id) < place.capacity;
  const isKept = tool?.kind === "warm-cabinet" && self.world.cabinetKept > 0;
  return trayUnder(kitchen, toolId) !== undefined || isFilled || isKept;
}

/** Switches a tool off after some seconds, unless trays are under it or in it. */
export function* switchOffUnused(self: Self, toolId: string | undefined): Script {
  const tool = kitchenOf(self).tools[toolId ?? ""];
  if (tool === undefined || tool.use.status === "off" || isBusy(self, tool.id)) return;
  yield* pass(self.chance.between(15, 60) * SECOND_MS);
  if (!isBusy(self, tool.id)) yield* ask({ type: "tool-off", toolId: tool.id });
}
