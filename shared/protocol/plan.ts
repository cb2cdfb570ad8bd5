import * as v from "valibot";

const count = v.pipe(v.number(), v.integer(), v.minValue(0));
/** Milliseconds since 1970, kitchen time. */
const moment = v.pipe(v.number(), v.integer());
const act = v.picklist(["flood", "heat", "pack"]);

/** One act of the plan; `startByMs`: begun later, its order would likely miss its pick-up. */
const PlannedTask = v.strictObject({
  trayId: v.string(),
  act,
  layer: v.optional(count),
  startMs: moment,
  endMs: moment,
  who: v.optional(v.string()),
  place: v.optional(v.string()),
  startByMs: v.optional(moment),
});

/** What an order's time hangs on: its trays' numbers, and what most of their time goes into. */
const HangsOnAnswer = v.strictObject({
  trays: v.array(count),
  because: v.variant("is", [
    v.strictObject({ is: v.literal("drying"), layer: count }),
    v.strictObject({ is: v.picklist(["work", "hands", "tool"]), act, layer: v.optional(count) }),
    v.strictObject({ is: v.literal("closed") }),
  ]),
});

/** When an order is packed, and how likely by its pick-up; one of which a film never dries has no times, and one not forecast is left out. */
const PlannedOrder = v.strictObject({
  orderId: v.string(),
  earliestMs: v.optional(moment),
  likelyMs: v.optional(moment),
  latestMs: v.optional(moment),
  chance: v.pipe(v.number(), v.minValue(0), v.maxValue(1)),
  hangsOn: v.optional(HangsOnAnswer),
  closedAtMs: v.optional(moment),
  /** Why it has no times, or cannot be in time: a film that never dries, a pick-up that has passed. */
  why: v.optional(
    v.variant("is", [
      v.object({ is: v.literal("never dry"), never: v.looseObject({ code: v.string() }) }),
      v.object({ is: v.literal("pick-up past") }),
    ]),
  ),
});

/** `GET /api/plan`: who does what when, and what comes of each order. */
export const PlanAnswer = v.strictObject({
  madeAtMs: moment,
  /** What it had to be made without: then it counts on one pair of hands, or on a kitchen that never closes. */
  without: v.array(v.picklist(["hands", "opening hours"])),
  tasks: v.array(PlannedTask),
  orders: v.array(PlannedOrder),
});
export type PlanAnswer = v.InferOutput<typeof PlanAnswer>;
