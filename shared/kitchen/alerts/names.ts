import type { ActiveAlert } from "#shared/kitchen/model/alert.ts";
import { leadsHere } from "#shared/kitchen/model/people.ts";
import { standsAt } from "#shared/kitchen/model/lookups.ts";
import type { Kitchen } from "#shared/kitchen/model/state.ts";

/** The names that an alert's words need, as they are now; absent where it has none. */
export interface AlertNames {
  holder?: string | undefined;
  tool?: string | undefined;
  /** Where its tray stands, or the place it is about. */
  place?: string | undefined;
  order?: string | undefined;
  icing?: string | undefined;
  leads: readonly string[];
}

export function alertNames(kitchen: Kitchen, alert: ActiveAlert): AlertNames {
  const tray = kitchen.trays[alert.trayId ?? ""];
  const tool = kitchen.tools[alert.toolId ?? ""];
  const toolHolder = tool?.use.status === "on" ? tool.use.holder : undefined;
  const placeId = alert.placeId ?? (tray === undefined ? "" : standsAt(tray).placeId);
  return {
    holder: kitchen.people[alert.holderId ?? toolHolder ?? ""]?.name,
    tool: tool?.name,
    place: kitchen.places[placeId]?.name,
    order: kitchen.orders[alert.orderId ?? ""]?.name,
    icing: "icingId" in alert ? kitchen.icings[alert.icingId]?.name : undefined,
    leads: leadsHere(kitchen).map(({ name }) => name),
  };
}
