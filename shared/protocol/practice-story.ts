import * as v from "valibot";
import { oneOf } from "#shared/fields.ts";
import { OrderId, PlaceId, ToolId, TrayId } from "#shared/ids.ts";

/**
 * `POST /api/practice/story`, in a practice kitchen only: begins a part of the story, or ends what was begun for whoever
 * asks. What happens then, the board tells.
 */
export const StoryRequest = v.object({ part: oneOf(["damp", "heat", "end"]) });
export type StoryPart = v.InferOutput<typeof StoryRequest>["part"];

/** The air turned damp: an order with trays that still dry, and where they stand. */
export const DampFacts = v.object({ orderId: OrderId, trayIds: v.array(TrayId), placeId: PlaceId });
export type DampFacts = v.InferOutput<typeof DampFacts>;

/** Somebody began a heat-set and looked away. */
export const HeatFacts = v.object({ trayId: TrayId, toolId: ToolId });
export type HeatFacts = v.InferOutput<typeof HeatFacts>;

export interface StoryAnswers {
  damp: DampFacts;
  heat: HeatFacts;
  end: { ok: true };
}
