import * as v from "valibot";
import { between, flag, line, moment, whole } from "#shared/fields.ts";
import {
  BatchId,
  CommandId,
  DesignId,
  DeviceId,
  IcingId,
  OrderId,
  PersonId,
  PlaceId,
  RecipeId,
  ToolId,
  TrayId,
} from "#shared/ids.ts";
import { StoredAlert } from "./alert.ts";
import { AlertKey } from "./command.ts";
import { Risk } from "./risk.ts";
import {
  Bowl,
  Design,
  DeviceKind,
  HeatResult,
  Icing,
  MixedBatch,
  Order,
  Person,
  Place,
  ProblemKind,
  ReadingLine,
  Recipe,
  Role,
  Tool,
  ToolKind,
  TouchFinding,
  TrayPlan,
  WrongWhy,
} from "./vocabulary.ts";
import { Settings, Week } from "./settings.ts";

/** Who did it: a person, or the kitchen's own server. */
export const By = v.union([v.literal("kitchen"), PersonId]);
export type By = v.InferOutput<typeof By>;

/**
 * What every event carries: when it happened, who did it, the command (act) it came from, and the device that sent that. Older
 * logs lack the device, and the kitchen's own acts have none.
 */
const base = { atMs: moment, by: By, actId: CommandId, deviceId: v.optional(DeviceId) };
const event = <const Type extends string, Fields extends v.ObjectEntries>(type: Type, fields: Fields) =>
  v.object({ type: v.literal(type), ...base, ...fields });

/** The factor (natural log) on the model's time at which a film would reach skin, or dry through, just at this act. */
export const ImpliedFactor = v.object({
  layer: whole(0, 11),
  skinLn: v.optional(v.number()),
  dryThroughLn: v.optional(v.number()),
});
export type ImpliedFactor = v.InferOutput<typeof ImpliedFactor>;

/** The forecast people were looking at when they touched: minutes from the clock's start. */
const ShownBand = v.object({ earliestMin: v.number(), likelyMin: v.number(), latestMin: v.number() });
export const Shown = v.object({ skin: v.optional(ShownBand), dryThrough: v.optional(ShownBand) });
export type Shown = v.InferOutput<typeof Shown>;

/** What the heat model said when a heat-set began; seconds of one lap (hot air) or of the whole spell. */
export const HeatLimitsFact = v.object({
  checkFromS: v.number(),
  checkToS: v.number(),
  stopByS: v.number(),
  capS: v.number(),
  settles: v.boolean(),
  /** A jet held still brings the icing's surface to its limit in so long. Older logs lack it. */
  heldTooLongS: v.optional(v.number()),
  why: v.picklist(["icing temperature", "set time", "tool's cap"]),
  hint: v.optional(v.picklist(["skinned already", "too hot before set", "will not set"])),
  /** Logs from before hints were facts hold a sentence. */
  note: v.optional(v.string()),
});
export type HeatLimitsFact = v.InferOutput<typeof HeatLimitsFact>;

/** One film's evidence on the kitchen's factors, kept when its tray is archived. Null is an open end. */
export const EvidenceFact = v.object({
  /** The bowl it was flooded from, and ln of that bowl's seconds test over the usual. Older logs lack both. */
  bowl: v.optional(v.string()),
  secondsLn: v.optional(v.number()),
  /** Found of a film that heat set: it teaches that heat, not the kitchen's air. */
  heat: v.optional(ToolKind),
  quantity: v.picklist(["skin", "dryThrough"]),
  icing: v.string(),
  place: v.string(),
  lnLow: v.nullable(v.number()),
  lnHigh: v.nullable(v.number()),
  atMs: moment,
  trayNumber: whole(1, 9999),
  layer: whole(0, 11),
  shown: v.optional(ShownBand),
  /** Minutes from the clock's start between which it was found; null is an open end. */
  foundMin: v.optional(v.object({ low: v.nullable(v.number()), high: v.nullable(v.number()) })),
  /** `lnHigh` comes from an act that waited for the film, not from a touch. */
  byAct: v.optional(v.boolean()),
  /** Its findings disagreed; the later one was believed. */
  contradicted: v.optional(v.boolean()),
});
export type EvidenceFact = v.InferOutput<typeof EvidenceFact>;

const tray = { trayId: TrayId };
const risk = v.optional(Risk);
const layer = whole(0, 11);

/** Things done to one tray: they make up its history and can be taken back. */
const TRAY_ACTS = [
  event("tray-assigned", { ...tray, to: v.nullable(PersonId) }),
  event("flooding-started", { ...tray, layer, risk }),
  event("flooded", {
    ...tray,
    layer,
    risk,
    weighed: v.array(ImpliedFactor),
    bowl: v.optional(Bowl),
    /** What was told of a section that may sink: to be heat-set within so many minutes. */
    setWithinMin: v.optional(between(0, 1440)),
  }),
  event("touch-tested", {
    ...tray,
    layer,
    finding: TouchFinding,
    weighed: ImpliedFactor,
    shown: v.optional(Shown),
  }),
  event("tray-moved", {
    ...tray,
    placeId: PlaceId,
    slot: v.optional(line(12)),
    hotUntilMs: v.optional(moment),
  }),
  event("heat-set-started", {
    ...tray,
    layer,
    toolId: ToolId,
    toolKind: ToolKind,
    /** What the tool was set to. */
    airC: v.optional(v.number()),
    limits: HeatLimitsFact,
    placeId: v.optional(PlaceId),
  }),
  /** The next cookie's clock waits until the heat is on it; in older logs it ran on at once. */
  event("cookie-set", { ...tray, pauses: v.optional(flag) }),
  event("cookie-heat-started", tray),
  event("heat-set-ended", {
    ...tray,
    result: HeatResult,
    spoiled: whole(0, 200),
    weighed: v.optional(ImpliedFactor),
    placeId: v.optional(PlaceId),
    hotUntilMs: v.optional(moment),
  }),
  event("problem-reported", {
    ...tray,
    problem: ProblemKind,
    count: whole(1, 200),
    note: v.optional(line(140)),
  }),
  event("packed", { ...tray, risk, weighed: v.array(ImpliedFactor), seconds: v.optional(whole(1, 200)) }),
] as const;

export const TrayAct = v.variant("type", TRAY_ACTS);
export type TrayAct = v.InferOutput<typeof TrayAct>;
/** Anything that has happened; past tense, never edited. */
export const KitchenEvent = v.variant("type", [
  ...TRAY_ACTS,
  event("act-taken-back", {
    ...tray,
    takenBackId: CommandId,
    /** The tray was in the heat all the same. */
    hotUntilMs: v.optional(moment),
  }),
  event("settings-changed", { settings: Settings }),
  event("person-added", { person: Person }),
  event("role-changed", { personId: PersonId, role: Role }),
  event("hours-set", { personId: PersonId, hours: v.nullable(Week) }),
  event("person-removed", { personId: PersonId }),
  event("device-joined", { joinedId: DeviceId, personId: PersonId, as: DeviceKind, isWaiting: flag }),
  event("device-let-in", { joinedId: DeviceId }),
  event("device-forgotten", { joinedId: DeviceId }),
  event("place-put", { place: Place }),
  event("place-removed", { placeId: PlaceId }),
  event("tool-put", { tool: Tool }),
  event("tool-removed", { toolId: ToolId }),
  event("icing-put", { icing: Icing }),
  event("icing-removed", { icingId: IcingId }),
  event("design-put", { design: Design }),
  /** Trays under way keep it as it was: under another id. */
  event("design-revised", { design: Design, earlierId: DesignId, trayIds: v.array(TrayId) }),
  event("design-removed", { designId: DesignId }),
  event("recipe-put", { recipe: Recipe }),
  event("recipe-removed", { recipeId: RecipeId }),
  event("order-put", { order: Order }),
  event("order-cancelled", { orderId: OrderId }),
  event("cookies-given", { fromId: OrderId, toId: OrderId, designId: DesignId, count: whole(1, 20_000) }),
  event("tray-added", { plan: TrayPlan }),
  event("tray-removed", tray),
  event("tool-switched-on", { toolId: ToolId, holder: PersonId }),
  event("tool-kept-on", { toolId: ToolId }),
  event("tool-switched-off", { toolId: ToolId }),
  event("tool-handed-over", { toolId: ToolId, to: PersonId }),
  event("tool-withdrawn", { toolId: ToolId, reason: line(140) }),
  event("tool-restored", { toolId: ToolId }),
  event("tool-temperature-read", { toolId: ToolId, tempC: between(-5, 600, "°C") }),
  event("reading-taken", { reading: ReadingLine }),
  event("batch-mixed", { batch: MixedBatch }),
  event("batch-finished", { batchId: BatchId }),
  event("batch-judged", { batchId: BatchId, wrong: v.nullable(WrongWhy) }),
  event("batches-put-away", { batchIds: v.array(BatchId) }),
  event("note-left", { text: v.nullable(line(500)) }),
  event("caution-read", { toolKind: ToolKind }),
  event("alert-raised", { alert: StoredAlert }),
  /** One that stands is about something else by now. */
  event("alert-changed", { alert: StoredAlert }),
  event("alert-acknowledged", { key: AlertKey }),
  event("alert-put-off", { key: AlertKey, untilMs: moment }),
  event("alert-cleared", { key: AlertKey }),
  event("trays-put-away", { trayIds: v.array(TrayId), evidence: v.array(EvidenceFact) }),
]);
export type KitchenEvent = v.InferOutput<typeof KitchenEvent>;
export type EventOf<Type extends KitchenEvent["type"]> = Extract<KitchenEvent, { type: Type }>;
