import { traysOf } from "#shared/kitchen/model/lookups.ts";
import type { CommandType } from "#shared/kitchen/model/command.ts";
import type { KitchenEvent } from "#shared/kitchen/model/event.ts";
import { DAY_AND_NIGHT, HOT_AIR, icing, LANTERN, MOON, OVEN, OVEN_HEATER, rack } from "./furnishings.ts";
import { HOUR, type Loose, MIN, Scene, T0 } from "./scene.ts";

/** A scene whose ids are counted, so that the same script gives the same log, and which tells what it was asked. */
class GoldenScene extends Scene {
  readonly types = new Set<CommandType>();
  #count = 0;

  override act<Type extends CommandType>(type: Type, fields: Loose<Type>): string {
    this.types.add(type);
    return super.act(type, { commandId: `g${(this.#count += 1)}`, ...fields });
  }
}

/** The script played once: what a log of this version looks like, and the commands it was made of. */
export function goldenKitchen(): { types: ReadonlySet<CommandType>; events: readonly KitchenEvent[] } {
  const scene = new GoldenScene();
  playEveryCommand(scene);
  return { types: scene.types, events: scene.events };
}

/** Days of an invented kitchen that give every command there is, each decided as the server would. A new command goes in here. */
export function playEveryCommand(scene: Scene): void {
  setUp(scene);
  iceAndHeat(scene);
  tools(scene);
  alerts(scene);
  changeOfMind(scene);
  packAndArchive(scene);
}

function setUp(scene: Scene): void {
  scene.act("add-person", { person: { id: "ida", name: "Ida", role: "lead" } });
  scene.act("add-person", { person: { id: "wren", name: "Wren", role: "decorator" } });
  scene.act("add-person", { person: { id: "bench", name: "Bench", role: "decorator", isBench: true } });
  scene.act("add-person", { person: { id: "sol", name: "Sol", role: "decorator" } });
  scene.act("join-device", { joiningId: "phone-1", personId: "ida", as: "phone", isWaiting: false });
  scene.act("join-device", { joiningId: "phone-2", personId: "ida", as: "phone", isWaiting: true });
  scene.act("join-device", { joiningId: "phone-3", personId: "wren", as: "phone", isWaiting: true });
  scene.as("ida", "lead");
  scene.act("let-in", { joiningId: "phone-2" });
  scene.act("forget-device", { joiningId: "phone-3" });
  scene.act("remove-people", { personIds: ["sol"] });
  scene.act("set-kitchen", {
    settings: {
      name: "Golden kitchen",
      timeZone: "Europe/Lisbon",
      opening: DAY_AND_NIGHT,
      houseRules: ["Hair tied back at the hot air"],
      wastePct: 10,
      hands: 2,
    },
  });
  scene.act("set-role", { personId: "wren", role: "lead" });
  scene.act("set-role", { personId: "wren", role: "decorator" });
  scene.act("set-hours", { personId: "ida", hours: DAY_AND_NIGHT });
  scene.act("set-hours", { personId: "wren", hours: DAY_AND_NIGHT });
  scene.act("set-hours", { personId: "wren", hours: null });
  scene.act("put-place", { place: rack("rack-a", "Rack A") });
  scene.act("put-place", { place: { ...rack("rack-b", "Rack B"), airFrom: "rack-a" } });
  scene.act("put-place", { place: rack("gone", "Old rack") });
  scene.act("remove-place", { placeId: "gone" });
  scene.act("put-place", { place: { ...OVEN, setTempC: 65 } });
  scene.act("put-tool", { tool: { ...HOT_AIR, distanceCm: 15, nozzleMm: 35 } });
  scene.act("put-tool", { tool: { ...HOT_AIR, id: "hot-2", name: "Hot-air tool 2" } });
  scene.act("remove-tool", { toolId: "hot-2" });
  scene.act("put-tool", { tool: { ...OVEN_HEATER, airC: 65 } });
  for (const id of ["sea-glass", "storm", "butter", "old-rose"] as const)
    scene.act("put-icing", { icing: icing(id, { waterPct: { flood: 19 }, laidAtC: 24, isSlow: true }) });
  scene.act("remove-icing", { icingId: "old-rose" });
  const sugar = { name: "Icing sugar", amount: 1000, unit: "g" };
  const recipe = { id: "base", name: "Base", ingredients: [sugar], allergens: "egg", method: "Whip" };
  scene.act("put-recipe", { recipe });
  scene.act("put-recipe", { recipe: { ...recipe, id: "old", name: "Old base" } });
  scene.act("remove-recipe", { recipeId: "old" });
  scene.act("put-icing", { icing: { ...icing("butter"), recipeId: "base" } });
  scene.act("put-design", { design: LANTERN });
  scene.act("put-design", { design: MOON });
  scene.act("put-design", { design: { ...MOON, id: "gone", name: "Gone" } });
  scene.act("remove-design", { designId: "gone" });
  const order = { pickUpAtMs: T0 + 30 * HOUR, cookies: 30 };
  scene.act("put-order", {
    order: { id: "walk", name: "Lantern Walk", note: "Ribbons", allergens: "egg, milk", ...order },
  });
  scene.act("put-order", { order: { id: "off", name: "Called off", ...order } });
  scene.act("cancel-order", { orderId: "off" });
  const tray = { designId: "moon", orderId: "walk", count: 3, placeId: "rack-a" };
  scene.act("add-trays", {
    trays: [
      { ...tray, id: "t1", number: 1, designId: "lantern", slot: "6" },
      { ...tray, id: "t2", number: 2 },
      { ...tray, id: "t3", number: 3 },
      { ...tray, id: "t4", number: 4 },
    ],
  });
  scene.act("remove-tray", { trayId: "t4" });
  scene.act("enter-reading", { reading: { placeId: "rack-a", tempC: 22.4, rhPct: 48, source: "sensor" } });
}

function iceAndHeat(scene: Scene): void {
  scene.as("wren").later(5 * MIN);
  scene.act("caution-read", { toolKind: "hot-air" });
  scene.act("assign-tray", { trayId: "t1", to: "wren" });
  scene.act("start-flooding", { trayId: "t1" });
  scene.later(2 * MIN).act("flooded", { trayId: "t1" });
  scene.later(MIN).act("flooded", { trayId: "t1" });
  // The border lies against wet icing of another colour: the risk is taken, and kept.
  scene.later(MIN).act("start-flooding", { trayId: "t1", acceptRisk: true });
  scene.later(MIN).act("flooded", { trayId: "t1", acceptRisk: true });
  scene.act("touch-test", { trayId: "t1", layer: 1, finding: "still wet" });
  scene.later(20 * MIN).act("touch-test", { trayId: "t1", layer: 1, finding: "skinned" });
  scene.act("start-heat-set", { trayId: "t1", toolId: "hot-1" });
  scene.later(9_000).nextCookie("t1");
  scene.later(9_000).nextCookie("t1");
  scene.later(9_000).act("end-heat-set", { trayId: "t1", result: "swollen or cracked", spoiled: 1 });
  scene.act("report-problem", { trayId: "t1", problem: "cracked", count: 1, note: "the third" });
  scene.later(MIN).act("flooded", { trayId: "t2" });
  scene.act("start-heat-set", { trayId: "t2", toolId: "oven-1" });
  scene.later(4 * MIN).act("end-heat-set", { trayId: "t2", result: "set", placeId: "rack-b" });
  scene.later(30 * MIN).act("move-tray", { trayId: "t1", placeId: "rack-b", slot: "2" });
  const commandId = scene.act("report-problem", { trayId: "t1", problem: "dented", count: 1 });
  scene.act("take-back", { trayId: "t1", actId: commandId });
}

function tools(scene: Scene): void {
  scene.act("tool-off", { toolId: "hot-1" });
  scene.act("tool-off", { toolId: "oven-1" });
  scene.later(MIN).act("tool-on", { toolId: "hot-1" });
  scene.act("tool-still-in-use", { toolId: "hot-1" });
  scene.act("hand-over-tool", { toolId: "hot-1", to: "ida" });
  scene.act("read-tool-temperature", { toolId: "oven-1", tempC: 60 });
  scene.later(MIN).act("tool-off", { toolId: "hot-1" });
  scene.as("ida", "lead");
  scene.act("tool-out-of-service", { toolId: "oven-1", reason: "the door does not close" });
  scene.act("tool-back-in-service", { toolId: "oven-1" });
  scene.as("wren");
}

/** One alert that is seen and one that is put off, each until what it was about is over. */
function alerts(scene: Scene): void {
  const reconcile = (): void => {
    const { by, role } = scene;
    scene.by = scene.role = "kitchen";
    scene.act("reconcile-alerts", {});
    Object.assign(scene, { by, role });
  };
  const keyOf = (kind: string): string => {
    const alert = Object.values(scene.kitchen.alerts).find((one) => one.kind === kind);
    if (alert === undefined) throw new Error(`the golden kitchen has no alert ${kind}`);
    return alert.key;
  };
  const batch = { id: "b1", icingId: "storm", consistency: "top-coat", massG: 400 };
  scene.act("record-batch", {
    batch: { ...batch, mixedAtMs: scene.nowMs - 2 * HOUR, useByAtMs: scene.nowMs + MIN },
  });
  scene.act("tool-on", { toolId: "hot-1" });
  scene.act("start-flooding", { trayId: "t3" });
  scene.later(5 * MIN);
  reconcile();
  scene.act("acknowledge-alert", { key: keyOf("tool-left-on") });
  scene.act("put-off-alert", { key: keyOf("icing-too-old"), minutes: 20 });
  scene.act("tool-off", { toolId: "hot-1" });
  // An order that is short of one cookie, then of three.
  const cookies = traysOf(scene.kitchen, "walk").reduce((sum, { count }) => sum + count, 0);
  const { archived: _none, ...walk } = scene.kitchen.orders["walk"]!;
  scene.as("ida", "lead").act("put-order", { order: { ...walk, cookies }, isChange: true });
  scene.as("wren");
  for (const count of [1, 2]) {
    scene.act("report-problem", { trayId: "t3", problem: "bled", count });
    reconcile();
  }
  scene.act("finish-batch", { batchId: "b1" });
  scene.later(MIN).act("flooded", { trayId: "t3" });
  reconcile();
}

function changeOfMind(scene: Scene): void {
  scene.as("ida", "lead").later(MIN);
  scene.act("put-order", {
    order: { id: "walk", name: "Lantern Walk", pickUpAtMs: T0 + 31 * HOUR, cookies: 9 },
    isChange: true,
  });
  scene.act("assign-tray", { trayId: "t1", to: null });
  scene.act("put-design", { design: { ...MOON, sizeMm: 90, isArchived: true } });
  scene.as("wren");
  scene.act("leave-note", { text: "Rack B is for tomorrow" });
}

function packAndArchive(scene: Scene): void {
  const batch = { id: "b2", icingId: "butter", consistency: "detail", mixedAtMs: scene.nowMs };
  scene.act("record-batch", { batch: { ...batch, useByAtMs: scene.nowMs + 8 * HOUR, closesS: 14 } });
  scene.later(20 * HOUR).act("touch-test", { trayId: "t2", layer: 0, finding: "firm" });
  scene.act("pack", { trayId: "t2", seconds: 1 });
  scene.act("pack", { trayId: "t3", acceptRisk: true });
  scene.act("judge-batch", { batchId: "b2", wrong: "Sugar not sieved" });
  scene.as("ida", "lead");
  const more = { pickUpAtMs: scene.nowMs + HOUR, cookies: 20 };
  scene.act("put-order", { order: { id: "walk", name: "Lantern Walk", ...more, cookies: 1 } });
  scene.act("put-order", { order: { id: "boat", name: "Boat day", boxOf: 6, ...more } });
  scene.act("give-cookies", { fromId: "walk", toId: "boat", designId: "moon", count: 1 });
  scene.later(60 * HOUR);
  scene.by = scene.role = "kitchen";
  scene.act("archive", {});
}
