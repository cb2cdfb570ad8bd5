import * as v from "valibot";
import { between, flag, line, list, moment, mustBe, whole } from "#shared/fields.ts";
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
import {
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
  TRAYS_AT_ONCE,
  WrongWhy,
} from "./vocabulary.ts";
import { Settings, Week } from "./settings.ts";

/**
 * What every command carries: its id (made by the sender), when it was done, if not just now, and who did it to a tray, where that
 * was told a bench screen.
 */
const base = { commandId: CommandId, atMs: v.optional(moment), doneBy: v.optional(PersonId) };
const command = <const Type extends string, Fields extends v.ObjectEntries>(type: Type, fields: Fields) =>
  v.object({ type: v.literal(type), ...base, ...fields });

const tray = { trayId: TrayId };
/** A second tap that names the risk: "start although it may bleed". */
const acceptRisk = v.optional(flag);
export const AlertKey = line(120);

export const COMMANDS = [
  command("set-kitchen", { settings: v.partial(Settings) }),
  command("add-person", { person: Person }),
  command("set-role", { personId: PersonId, role: Role }),
  /** Null: all opening hours. */
  command("set-hours", { personId: PersonId, hours: v.nullable(Week) }),
  command("remove-people", {
    personIds: list(PersonId, "people", 500),
  }),
  /** A screen or sensor joined; whoever typed a name that is another's waits until a lead lets it in. */
  command("join-device", { joiningId: DeviceId, personId: PersonId, as: DeviceKind, isWaiting: flag }),
  command("let-in", { joiningId: DeviceId }),
  /** Turned away while it waits, or no longer welcome. */
  command("forget-device", { joiningId: DeviceId }),
  command("put-place", { place: Place }),
  command("remove-place", { placeId: PlaceId }),
  command("put-tool", { tool: Tool }),
  command("remove-tool", { toolId: ToolId }),
  command("put-icing", { icing: Icing }),
  command("remove-icing", { icingId: IcingId }),
  command("put-design", { design: Design }),
  command("remove-design", { designId: DesignId }),
  command("put-recipe", { recipe: Recipe }),
  command("remove-recipe", { recipeId: RecipeId }),
  command("put-order", {
    order: Order,
    /** It changes one that is there: where that is gone meanwhile, it is not made anew. */
    isChange: v.optional(flag),
    /** It puts back one that was cancelled just now: its pick-up may have passed. */
    isUndo: v.optional(flag),
  }),
  command("cancel-order", { orderId: OrderId }),
  /** Packed cookies that one order has over go to another with the same design. */
  command("give-cookies", {
    fromId: OrderId,
    toId: OrderId,
    designId: DesignId,
    count: whole(1, 20_000),
    /** It gives back what was given just now. */
    isUndo: v.optional(flag),
  }),
  command("add-trays", {
    trays: list(TrayPlan, "trays", TRAYS_AT_ONCE),
  }),
  command("remove-tray", tray),
  command("assign-tray", { ...tray, to: v.nullable(PersonId) }),
  command("start-flooding", { ...tray, acceptRisk }),
  command("flooded", { ...tray, acceptRisk }),
  command("touch-test", { ...tray, layer: v.optional(whole(0, 11)), finding: TouchFinding }),
  command("move-tray", { ...tray, placeId: PlaceId, slot: v.optional(line(12)) }),
  command("start-heat-set", { ...tray, toolId: ToolId }),
  /** This cookie is set; the next one's clock waits for "heat-on". */
  command("next-cookie", tray),
  command("heat-on", tray),
  command("end-heat-set", {
    ...tray,
    result: HeatResult,
    spoiled: v.optional(whole(0, 200)),
    placeId: v.optional(PlaceId),
  }),
  command("report-problem", {
    ...tray,
    problem: ProblemKind,
    count: whole(1, 200),
    note: v.optional(line(140)),
  }),
  command("pack", {
    ...tray,
    acceptRisk,
    /** Good enough to be sold as seconds, not for the order. */
    seconds: v.optional(whole(0, 200)),
    /** Lost, by what went wrong; beside what was reported before. */
    lost: v.optional(list(v.object({ problem: ProblemKind, count: whole(1, 200) }), "problems", 8, 0)),
  }),
  command("take-back", { ...tray, actId: CommandId }),
  command("tool-on", { toolId: ToolId }),
  command("tool-off", { toolId: ToolId }),
  command("tool-still-in-use", { toolId: ToolId }),
  command("hand-over-tool", { toolId: ToolId, to: PersonId }),
  command("tool-out-of-service", { toolId: ToolId, reason: line(140) }),
  command("tool-back-in-service", { toolId: ToolId }),
  command("read-tool-temperature", { toolId: ToolId, tempC: between(-5, 600, "°C") }),
  command("enter-reading", { reading: ReadingLine }),
  command("record-batch", { batch: MixedBatch }),
  /** Used up, or thrown away. */
  command("finish-batch", { batchId: BatchId }),
  /** Something was wrong with a batch; null takes that back. */
  command("judge-batch", { batchId: BatchId, wrong: v.nullable(WrongWhy) }),
  /** For whoever works next; null once it is dealt with. */
  command("leave-note", { text: v.nullable(line(500)) }),
  command("caution-read", { toolKind: ToolKind }),
  command("acknowledge-alert", { key: AlertKey }),
  command("put-off-alert", { key: AlertKey, minutes: whole(1, 240) }),
  /** The kitchen's own: raise and clear alerts as of now; archive packed trays and old batches. Never accepted from a device. */
  command("reconcile-alerts", {}),
  command("archive", {}),
] as const;

/** Anything anyone asks of the kitchen. */
export const Command = v.variant("type", COMMANDS, mustBe("a command"));
export type Command = v.InferOutput<typeof Command>;
export type CommandType = Command["type"];
export type CommandOf<Type extends CommandType> = Extract<Command, { type: Type }>;

/** A command without its id and its time, which are added as it is made. */
export type CommandInput = {
  [Type in CommandType]: Omit<CommandOf<Type>, "commandId" | "atMs">;
}[CommandType];
