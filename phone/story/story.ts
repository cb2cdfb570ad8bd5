import * as v from "valibot";
import type { ActiveAlert } from "#shared/kitchen/model/alert.ts";
import type { Forecasts } from "#shared/kitchen/model/forecast.ts";
import { standsAt } from "#shared/kitchen/model/lookups.ts";
import type { Kitchen } from "#shared/kitchen/model/state.ts";
import { timeLeftOf } from "#shared/kitchen/orders/time-left.ts";
import { DampFacts, HeatFacts } from "#shared/protocol/practice-story.ts";

/** How late the order was before its trays were moved, min; absent where they would not have dried at all. */
const Lateness = v.object({ leastMin: v.number(), mostMin: v.number() });
const order = { ...DampFacts.entries, before: v.optional(Lateness) };

/** How far this phone's owner is in the practice story, as it is kept over a reload. */
export const Story = v.variant("is", [
  v.object({ is: v.picklist(["offered", "skipped", "over"]) }),
  v.object({ is: v.literal("damp"), ...DampFacts.entries }),
  v.object({ is: v.picklist(["behind", "moved", "back"]), ...order }),
  v.object({ is: v.picklist(["heat", "long", "stopped"]), ...HeatFacts.entries }),
]);
export type Story = v.InferOutput<typeof Story>;
export type OrderStory = Extract<Story, { orderId: unknown }>;
export type HeatStory = Extract<Story, { trayId: unknown }>;

export interface StoryBoard {
  kitchen: Kitchen;
  forecasts: Forecasts;
}

/** The story as the board now tells it: nothing in it happens unless it happened there. */
export function follow(story: Story, board: StoryBoard): Story {
  if ("orderId" in story) return followOrder(story, board);
  return "trayId" in story ? followHeat(story, board.kitchen) : story;
}

function followOrder(story: OrderStory, { kitchen, forecasts }: StoryBoard): Story {
  const { orderId, trayIds, placeId } = story;
  const left = timeLeftOf(forecasts.orders[orderId]);
  // Not heard of yet, or packed.
  if (left.code === "no-forecast") return story;
  const facts = { orderId, trayIds, placeId };
  const isMoved = trayIds.some((id) => {
    const tray = kitchen.trays[id];
    return tray !== undefined && standsAt(tray).placeId !== placeId;
  });
  const before = "before" in story && story.before !== undefined ? { before: story.before } : {};
  if (left.code === "late" || left.code === "never") {
    if (isMoved) return { is: "moved", ...facts, ...before };
    const { leastMin, mostMin } = left.code === "late" ? left : {};
    const late = leastMin === undefined || mostMin === undefined ? {} : { before: { leastMin, mostMin } };
    return { is: "behind", ...facts, ...late };
  }
  return story.is === "damp" ? story : { is: "back", ...facts, ...before };
}

function followHeat({ is, trayId, toolId }: HeatStory, kitchen: Kitchen): Story {
  const facts = { trayId, toolId };
  const tray = kitchen.trays[trayId];
  if (is === "stopped" || tray === undefined) return { is, ...facts };
  if (tray.status.stage === "heat-set")
    return { is: callOf(kitchen, trayId) === undefined ? is : "long", ...facts };
  return { is: tray.heats.length > 0 ? "stopped" : is, ...facts };
}

/** The alert of a heat-set that runs past its stop-by. */
const callOf = ({ alerts }: Kitchen, trayId: string): ActiveAlert | undefined =>
  Object.values(alerts).find((alert) => alert.kind === "heat-running-long" && alert.trayId === trayId);
