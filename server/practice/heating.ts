import { hasReadCaution } from "#shared/kitchen/model/cautions-read.ts";
import { trayUnder, roomLeft } from "#shared/kitchen/model/lookups.ts";
import type { HeatSet, ToolState, Tray } from "#shared/kitchen/model/state.ts";
import { holding, kitchenOf, nowOf, type Self, trayOf } from "./world.ts";
import { switchOffUnused } from "./places.ts";
import { ask, pass, type Script } from "./scheduler.ts";
import { SECOND_MS } from "#shared/time.ts";

const HABITS = {
  /** Looks away, and leaves the heat on past stop-by. */
  looksAway: 0.06,
  looksAwayFromACookie: 0.008,
  swells: 0.5,
  switchesOff: 0.88,
} as const;

/** Sets a tray's newest film under a tool that is free. False when there was none, or it had not set by stop-by. */
export function* heatSet(self: Self, trayId: Tray["id"]): Script<boolean> {
  const tray = trayOf(self, trayId);
  const tool = tray === undefined ? undefined : freeTool(self, tray);
  if (tool === undefined) return false;
  return yield* holding(
    self,
    tool.kind === "hot-air" ? tool.id : `${tool.id}/${trayId}`,
    under(self, trayId, tool),
  );
}

/** The low oven for a full tray, hot air for a small one; never one that somebody else has in hand. */
function freeTool(self: Self, tray: Tray): ToolState | undefined {
  const kitchen = kitchenOf(self);
  const fit = Object.values(kitchen.tools).filter((tool) => {
    if (tool.outOfService !== undefined || tool.kind === "warm-cabinet") return false;
    if (tool.kind === "oven") return roomLeft(kitchen, tool.placeId ?? "") > 0;
    const isAnothers = tool.use.status === "on" && tool.use.holder !== self.worker.person.id;
    return !isAnothers && !self.world.inHand.has(tool.id) && trayUnder(kitchen, tool.id) === undefined;
  });
  const oven = fit.find(({ kind }) => kind === "oven");
  const hotAir = fit.find(({ kind }) => kind === "hot-air");
  const likesHotAir = self.chance.happens(tray.count <= 12 ? 0.6 : 0.1);
  return likesHotAir ? (hotAir ?? oven) : (oven ?? (tray.count <= 16 ? hotAir : undefined));
}

function* under(self: Self, trayId: Tray["id"], tool: ToolState): Script<boolean> {
  const { chance } = self;
  yield* readCaution(self, tool.kind);
  yield* pass(chance.between(10, 35) * SECOND_MS);
  if (!(yield* ask({ type: "start-heat-set", trayId, toolId: tool.id })).ok) return false;
  const tray = trayOf(self, trayId);
  if (tray?.status.stage !== "heat-set") return false;
  const { heat } = tray.status;
  const setS = self.world.groundTruth.setAfterS(kitchenOf(self), tray, heat);
  const { isSet, isOver } =
    heat.toolKind === "hot-air"
      ? yield* cookieByCookie(self, tray, heat, setS)
      : yield* wholeTray(self, heat, setS);
  const swelled = isOver && chance.happens(HABITS.swells);
  const result = swelled ? "swollen or cracked" : isSet ? "set" : "not yet";
  yield* ask({
    type: "end-heat-set",
    trayId,
    result,
    ...(swelled ? { spoiled: chance.whole(1, 2) } : {}),
  });
  if (chance.happens(HABITS.switchesOff)) yield* switchOffUnused(self, tool.id);
  return isSet;
}

interface Came {
  isSet: boolean;
  /** The heat ran past stop-by. */
  isOver: boolean;
}

/** Touches now and then from check-from on, and stops at the first touch that finds it set, or just before stop-by. */
function* wholeTray(self: Self, heat: HeatSet, setS: number): Script<Came> {
  const { chance } = self;
  const stopS = stopByS(heat);
  if (chance.happens(HABITS.looksAway)) {
    yield* pass((stopS + chance.between(12, 45)) * SECOND_MS);
    return { isSet: true, isOver: true };
  }
  const lookS = Math.max(heat.limits.checkFromS, setS) + chance.between(3, 20);
  const lastS = stopS - chance.between(2, 9);
  yield* pass(Math.min(lookS, lastS) * SECOND_MS);
  return { isSet: Math.min(lookS, lastS) >= setS, isOver: false };
}

/** One cookie after another: the first is watched, the rest go by what it took. */
function* cookieByCookie(self: Self, tray: Tray, heat: HeatSet, setS: number): Script<Came> {
  const { chance } = self;
  const stopS = stopByS(heat);
  const firstS = Math.min(Math.max(heat.limits.checkFromS, setS) + chance.between(2, 10), stopS - 3);
  let isOver = false;
  for (let cookie = 1; cookie <= tray.count; cookie += 1) {
    const isLong = chance.happens(HABITS.looksAwayFromACookie);
    isOver ||= isLong;
    const lapS = isLong
      ? stopS + chance.between(10, 30)
      : Math.min(firstS * (cookie === 1 ? 1 : chance.between(0.92, 1.06)), stopS - 2);
    yield* pass(lapS * SECOND_MS);
    if (cookie === tray.count) break;
    if (!(yield* ask({ type: "next-cookie", trayId: tray.id })).ok) break;
    yield* pass(chance.between(2, 6) * SECOND_MS);
    if (!(yield* ask({ type: "heat-on", trayId: tray.id })).ok) break;
  }
  return { isSet: firstS >= setS, isOver };
}

const stopByS = ({ limits }: HeatSet): number => Math.min(limits.stopByS, limits.capS);

/** Reads the full card of a kind of tool once a shift. */
function* readCaution(self: Self, toolKind: ToolState["kind"]): Script {
  if (hasReadCaution(kitchenOf(self), self.worker.person.id, toolKind, nowOf(self))) return;
  yield* pass(self.chance.between(15, 30) * SECOND_MS);
  yield* ask({ type: "caution-read", toolKind });
}
