import { asId, type OrderId, type PersonId, type PlaceId, type ToolId, type TrayId } from "#shared/ids.ts";
import { heatLimitsOf } from "#shared/kitchen/forecast/heat-limits.ts";
import { aliveTrays, filmKey, roomLeft, standsAt, trayUnder } from "#shared/kitchen/model/lookups.ts";
import { workedMs } from "#shared/kitchen/model/opening-hours.ts";
import type { ToolState, Tray } from "#shared/kitchen/model/state.ts";
import type { StoryAnswers, StoryPart } from "#shared/protocol/practice-story.ts";
import { DAY_MS, HOUR_MS, MIN_MS, SECOND_MS } from "#shared/time.ts";
import { freeName, planTrays } from "./order-book.ts";
import { carry, emptiestRack, roomIn, switchOffUnused } from "./places.ts";
import { type Recipe, RECIPES } from "./recipes.ts";
import { ask, pass, type Script, until } from "./scheduler.ts";
import { designOf, holding, kitchenOf, nowOf, type Self, trayOf } from "./world.ts";

/** Trays of the order that falls behind, and the cookies of the tray that has its heat too long. */
const TRAYS = 3;
const HEATED_COOKIES = 6;
/** So long before were the first and the last layer laid: dry in good time in a usual day's air, a day late in the damp. */
const LAID_AGO_MS = { first: 11 * HOUR_MS, last: HOUR_MS / 3 } as const;
/** On a usual day they are dry within this. */
const DRY_MS = 6.5 * HOUR_MS;
const SPARE_MS = 1.5 * HOUR_MS;
/** What is to have heat was laid so long ago. */
const FRESH_MS = 10 * MIN_MS;
/** Real time, whatever the clock's speed: for forecasts to come, before the heat runs long, and until people here take over. */
const REAL = { forecastMs: 20 * SECOND_MS, headStartMs: 12 * SECOND_MS, mostMs: 5 * MIN_MS } as const;

/** A story under way, for somebody who joined. */
interface Telling {
  isOver: boolean;
}

/** What a part of the story gives whoever asked for it: told once it has begun on the board. */
type Tell<Part extends StoryPart> = (answer: StoryAnswers[Part]) => void;

export interface StoryKitchen {
  /** A lead, who brings the trays and has one under heat. */
  self: Self;
  /** Kitchen time beside real time. */
  speed: number;
  /** Lets the damp in from this moment on; the hygrometers say so at once. */
  dampFrom: (atMs: number) => void;
}

/** Begins or ends a part of the practice story for somebody; resolves once it is on the board. */
export type TellStory = <Part extends StoryPart>(
  part: Part,
  to: PersonId,
  nowMs: number,
) => Promise<StoryAnswers[Part]>;

/**
 * The story that newcomers are told: trays, damp and heat are invented like all else here, and what comes of them is the
 * board's. Its trays are kept from the people of the kitchen until it is over.
 */
export function storyTeller(kitchen: StoryKitchen): TellStory {
  const tellings = new Map<PersonId, Telling>();
  const parts: { [Part in StoryPart]: (tell: Tell<Part>, telling: Telling, name: string) => Script } = {
    damp: (tell, telling, name) => dampComes(kitchen, telling, name, tell),
    heat: (tell, telling, name) => heatRunsLong(kitchen, telling, name, tell),
    *end(tell) {
      yield* pass(0);
      tell({ ok: true });
    },
  };
  let told = 0;

  return (part, to, nowMs) => {
    const before = tellings.get(to);
    if (before !== undefined) before.isOver = true;
    const telling: Telling = { isOver: false };
    tellings.set(to, telling);
    told += 1;
    const name = `story-${told}`;
    const { world, worker } = kitchen.self;
    const actor = { by: worker.person.id, role: worker.person.role };
    return new Promise((resolve, reject) => {
      world.scheduler.enter(actor, orElse(parts[part](resolve, telling, name), reject), nowMs);
    });
  };
}

/** Whoever waits for a script hears of it when that fails. */
function* orElse(script: Script, fail: (error: unknown) => void): Script {
  try {
    yield* script;
  } catch (error) {
    fail(error);
  }
}

const recipe = (id: string): Recipe => {
  const found = RECIPES.find(({ design }) => design.id === id);
  if (found === undefined) throw new Error(`no recipe ${id}`);
  return found;
};

/** An order in good time, then damp air: it falls behind until its trays stand where that cannot reach them. */
function* dampComes(kitchen: StoryKitchen, telling: Telling, name: string, tell: Tell<"damp">): Script {
  const { self, speed } = kitchen;
  const { world } = self;
  yield* roomInCabinet(self);
  const readyMs = workedMs(kitchenOf(self).settings, nowOf(self) + DRY_MS, TRAYS * 10 * MIN_MS);
  const pickUpAtMs = Math.ceil((readyMs + SPARE_MS) / (15 * MIN_MS)) * 15 * MIN_MS;
  const star = recipe("tide-star");
  const { orderId, trays } = yield* bring(self, name, pickUpAtMs, Array<Recipe>(TRAYS).fill(star));
  const trayIds = trays.map(({ id }) => id);
  world.cabinetKept += TRAYS;
  world.inStory.add(orderId);
  try {
    yield* holdingAll(self, trayIds, function* () {
      for (const trayId of trayIds) yield* ask({ type: "flooded", trayId }, LAID_AGO_MS.first);
      const { forecasts } = world.scheduler.stage();
      const areKnown = (): boolean => trayIds.every((id) => forecasts().films[filmKey(id, 0)] !== undefined);
      yield* until(areKnown, REAL.forecastMs * speed);
      for (const trayId of trayIds) yield* ask({ type: "flooded", trayId }, LAID_AGO_MS.last);
      // In good time first: whoever looks sees it fall behind.
      const isPlanned = (): boolean => forecasts().orders[orderId]?.spareMin !== undefined;
      yield* until(isPlanned, REAL.forecastMs * speed);
      kitchen.dampFrom(nowOf(self));
      yield* pass(SECOND_MS);
      tell({ orderId, trayIds, placeId: standsAt(trays[0]!).placeId });
      yield* until(() => telling.isOver, REAL.mostMs * speed);
    });
  } finally {
    world.cabinetKept -= TRAYS;
    world.inStory.delete(orderId);
  }
}

/** A tray under heat that nobody watches. Ends with the story at the latest. */
function* heatRunsLong(kitchen: StoryKitchen, telling: Telling, name: string, tell: Tell<"heat">): Script {
  const { self, speed } = kitchen;
  const small = { ...recipe("limpet"), onATray: HEATED_COOKIES };
  const { trays } = yield* bring(self, name, nowOf(self) + 2 * DAY_MS, [small]);
  const trayId = trays[0]!.id;
  yield* holdingAll(self, [trayId], function* () {
    yield* ask({ type: "flooded", trayId }, LAID_AGO_MS.first);
    const { forecasts } = self.world.scheduler.stage();
    yield* until(() => forecasts().films[filmKey(trayId, 0)] !== undefined, REAL.forecastMs * speed);
    yield* ask({ type: "flooded", trayId }, FRESH_MS);
    yield* until(() => unusedTool(self) !== undefined, REAL.mostMs * speed);
    const tool = unusedTool(self);
    if (tool === undefined) throw new Error("no heat tool is free");
    yield* holding(self, tool.id, underHeat(kitchen, telling, trayId, tool, tell));
  });
}

function* underHeat(
  { self, speed }: StoryKitchen,
  telling: Telling,
  trayId: TrayId,
  tool: ToolState,
  tell: Tell<"heat">,
): Script {
  const toolId = tool.id;
  const agoMs = Math.min(FRESH_MS, Math.max(0, stopByMs(self, trayId, tool) - REAL.headStartMs * speed));
  if (!(yield* ask({ type: "start-heat-set", trayId, toolId }, agoMs)).ok)
    throw new Error(`no heat-set with ${tool.name}`);
  tell({ trayId, toolId });
  const isUnderHeat = (): boolean => trayOf(self, trayId)?.status.stage === "heat-set";
  yield* until(() => !isUnderHeat() || telling.isOver, REAL.mostMs * speed);
  if (isUnderHeat()) yield* ask({ type: "end-heat-set", trayId, result: "not yet" });
  // Whoever stopped it may be asked whether it is off.
  yield* pass(MIN_MS);
  yield* switchOffUnused(self, toolId);
}

/** How long its last layer may have heat from this tool. */
function stopByMs(self: Self, trayId: TrayId, tool: ToolState): number {
  const tray = trayOf(self, trayId);
  const layer = tray?.films.at(-1)?.layer;
  if (tray === undefined || layer === undefined || designOf(self, tray) === undefined) return 0;
  const forecasts = self.world.scheduler.stage().forecasts();
  const { stopByS, capS } = heatLimitsOf(kitchenOf(self), forecasts, tray, tool, layer, nowOf(self));
  return Math.min(stopByS, capS) * SECOND_MS;
}

/** Hot air that nobody has in hand. */
const unusedTool = (self: Self): ToolState | undefined =>
  Object.values(kitchenOf(self).tools).find(
    ({ id, kind, use, outOfService }) =>
      kind === "hot-air" &&
      use.status === "off" &&
      outOfService === undefined &&
      !self.world.inHand.has(id) &&
      trayUnder(kitchenOf(self), id) === undefined,
  );

/** A new order with bare cookies on trays, on the emptiest rack. */
function* bring(
  self: Self,
  name: string,
  pickUpAtMs: number,
  recipes: readonly Recipe[],
): Script<{ orderId: OrderId; trays: readonly Tray[] }> {
  const orderId = asId<OrderId>(`${name}-order`);
  const number = Object.keys(kitchenOf(self).orders).length + 1;
  const cookies = recipes.reduce((sum, { onATray }) => sum + onATray, 0);
  const order = { id: orderId, name: freeName(kitchenOf(self), number), pickUpAtMs, cookies };
  yield* ask({ type: "put-order", order });
  let made = 0;
  const plans = planTrays(kitchenOf(self), orderId, recipes, () => asId(`${name}-tray-${(made += 1)}`));
  yield* ask({ type: "add-trays", trays: plans });
  const trays = plans.map(({ id }) => trayOf(self, id)).filter((tray) => tray !== undefined);
  if (trays.length < recipes.length) throw new Error("there is no room on the racks");
  return { orderId, trays };
}

/** Makes room in the warm cabinet, and warms it. */
function* roomInCabinet(self: Self): Script {
  const { world } = self;
  const cabinet = Object.values(kitchenOf(self).places).find(({ kind }) => kind === "warm-cabinet");
  if (cabinet === undefined) return;
  for (const tray of aliveTrays(kitchenOf(self))) {
    if (roomLeft(kitchenOf(self), cabinet.id) >= world.cabinetKept + TRAYS) break;
    if (standsAt(tray).placeId !== cabinet.id || world.inHand.has(tray.id)) continue;
    const place: { id: PlaceId } | undefined =
      roomIn(kitchenOf(self), "fan-rack") ?? emptiestRack(kitchenOf(self));
    if (place !== undefined) yield* carry(self, tray.id, kitchenOf(self).places[place.id]!);
  }
  const tool = Object.values(kitchenOf(self).tools).find(({ placeId }) => placeId === cabinet.id);
  if (tool?.use.status === "off") yield* ask({ type: "tool-on", toolId: asId<ToolId>(tool.id) });
}

/** Several trays in hand at once, so that no one else here takes them up. */
function* holdingAll(self: Self, trayIds: readonly TrayId[], work: () => Script): Script {
  const { inHand, inStory } = self.world;
  for (const id of trayIds) {
    inHand.add(id);
    inStory.add(id);
  }
  try {
    yield* work();
  } finally {
    for (const id of trayIds) {
      inHand.delete(id);
      inStory.delete(id);
    }
  }
}
