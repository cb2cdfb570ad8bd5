import { OVEN_MIN } from "#shared/drying/uncertainty/compare.ts";
import { HOT_AIR_MIN } from "#shared/heat/tool.ts";
import { layerSinkRisk } from "#shared/icing/sinking.ts";
import {
  aliveTrays,
  cookiesSet,
  filmKey,
  heatHolder,
  hotAirHeats,
  inHandOf,
} from "#shared/kitchen/model/lookups.ts";
import type { Film, Tray } from "#shared/kitchen/model/state.ts";
import type { Design, Layer } from "#shared/kitchen/model/vocabulary.ts";
import { restSetByMs, setByMs } from "#shared/kitchen/tray/sinking.ts";
import { needsOf } from "#shared/kitchen/tray/route.ts";
import { MIN_MS, SECOND_MS } from "#shared/time.ts";
import { minACookie } from "./pace.ts";
import { filmAhead, filmLaid, type Never, spansFrom, whyNeverOf } from "./plan-films.ts";
import type { PlanGround, PlanWork, SetsBy } from "./plan-work.ts";
import { HANDS, HOT_AIR, Resources } from "./resources.ts";
import { TaskList } from "./task-list.ts";

/** What is under way has at least so much of its time to go. */
const LEFT_SHARE = 0.1;
const LEFT_LEAST_MIN = 0.5;

/** Everything the trays on the board still need. In steps of one tray: the first may ask the drying model. */
export function* planWorkSteps(ground: PlanGround): Generator<void, PlanWork> {
  const builder = new WorkBuilder(ground);
  for (const tray of aliveTrays(ground.kitchen).toSorted((a, b) => a.number - b.number)) {
    builder.addTray(tray);
    yield;
  }
  return builder.work();
}

class WorkBuilder {
  readonly #ground: PlanGround;
  readonly #lastOf = new Map<string, number>();
  readonly #never = new Map<string, Never>();
  readonly #resources: Resources;
  readonly #list: TaskList;

  constructor(ground: PlanGround) {
    this.#ground = ground;
    this.#resources = new Resources(ground.kitchen, ground.nowMs);
    this.#list = new TaskList(this.#resources);
  }

  addTray(tray: Tray): void {
    const { kitchen, films } = this.#ground;
    const design = kitchen.designs[tray.designId];
    if (design === undefined) return;
    const hand = inHandOf(tray);
    const begun = [...tray.films.map(({ layer }) => layer), ...(hand === undefined ? [] : [hand.layer])];
    const forecasts = begun.map((layer) => films[filmKey(tray.id, layer)]);
    if (forecasts.includes(undefined)) return;
    const first = this.#list.films.length;
    for (const [k, film] of tray.films.entries())
      this.#list.films.push(filmLaid(this.#ground.nowMs, tray, design, film, forecasts[k]!));
    if (hand !== undefined)
      this.#list.films.push(
        filmAhead(tray, design, hand.layer, spansFrom(forecasts.at(-1)!, hand.startedAtMs)),
      );
    for (let layer = begun.length; layer < design.layers.length; layer += 1)
      this.#list.films.push(filmAhead(tray, design, layer, this.#ground.spansOf(tray, layer)));
    const why = whyNeverOf(this.#list.films.slice(first));
    if (why !== undefined) this.#never.set(tray.id, why);
    this.#addRoute(tray, design, first);
  }

  /** What is under way, the heat that is due, each layer to be laid, and packing. */
  #addRoute(tray: Tray, design: Design, firstFilm: number): void {
    /** By layer: the task that lays it, and the one that sets it at once. */
    const laidBy = new Map<number, number>();
    const setBy = new Map<number, number>();
    let before = this.#underHeat(tray, setBy);
    const hand = inHandOf(tray);
    if (hand !== undefined) {
      const since = tray.status.stage === "heat-set" ? undefined : hand.startedAtMs;
      before = this.#lay(tray, design, hand.layer, firstFilm, laidBy, setBy, before, since);
    } else before ??= this.#heatDue(tray, setBy);
    for (
      let layer = tray.films.length + (hand === undefined ? 0 : 1);
      layer < design.layers.length;
      layer += 1
    )
      before = this.#lay(tray, design, layer, firstFilm, laidBy, setBy, before);
    const needs = design.layers.map((_, layer) => ({ layer, need: "dry through" as const }));
    const pack = this.#list.put(tray, {
      act: "pack",
      durationMin: this.#packingMin(tray),
      isDivisible: true,
      ...this.#list.waits(needs, firstFilm, laidBy, new Map(), before),
    });
    this.#lastOf.set(tray.id, pack);
  }

  /** A layer: its minutes of hands, and those under hot air where it must be set cookie by cookie. */
  #lay(
    tray: Tray,
    design: Design,
    layer: number,
    firstFilm: number,
    laidBy: Map<number, number>,
    setBy: Map<number, number>,
    before: number | undefined,
    startedAtMs?: number,
  ): number {
    const own = design.layers[layer]!;
    const { pace, nowMs } = this.#ground;
    const layMin = tray.count * minACookie(pace, design, layer);
    const setsBy = this.#setsBy(tray, own);
    const byHotAir = setsBy === "hot-air";
    const heatMin = byHotAir ? tray.count * HOT_AIR_MIN : 0;
    const begunMin = startedAtMs === undefined ? 0 : (nowMs - startedAtMs) / MIN_MS;
    const fullMin = layMin + heatMin;
    const durationMin =
      startedAtMs === undefined ? fullMin : Math.max(fullMin - begunMin, LEFT_SHARE * fullMin);
    const task = this.#list.put(tray, {
      act: "lay",
      layer,
      durationMin,
      heatMin,
      begunMin,
      ...(startedAtMs === undefined ? {} : this.#resources.underWay(inHandOf(tray)?.by, durationMin)),
      ...(byHotAir ? { alsoPool: HOT_AIR } : {}),
      icing: this.#list.icingOf(own),
      ...this.#list.waits(
        startedAtMs === undefined ? needsOf(design, layer) : [],
        firstFilm,
        laidBy,
        setBy,
        before,
      ),
    });
    laidBy.set(layer, task);
    if (byHotAir) setBy.set(layer, task);
    if (setsBy !== "oven") return task;
    const heat = this.#list.put(tray, {
      act: "heat",
      layer,
      durationMin: OVEN_MIN,
      ...this.#resources.inOven(),
      after: [{ task, waitMin: 0 }],
    });
    setBy.set(layer, heat);
    return heat;
  }

  /** What sets a layer as soon as it is laid; undefined where nothing has to. */
  #setsBy(tray: Tray, layer: Layer): SetsBy | undefined {
    const wanted = this.#ground.heated?.get(tray.id);
    return wanted === undefined && layerSinkRisk(layer) === "none"
      ? undefined
      : this.#resources.setsBy(wanted);
  }

  /** What is under heat now: its tool, and its person where that is hot air, for what is left. */
  #underHeat(tray: Tray, setBy: Map<number, number>): number | undefined {
    const { status } = tray;
    if (status.stage !== "heat-set") return undefined;
    const { heat } = status;
    const { kitchen, nowMs } = this.#ground;
    const isHotAir = heat.toolKind === "hot-air";
    const set = isHotAir ? cookiesSet(hotAirHeats(tray.heats, heat.layer)) + heat.laps.length : 0;
    // Of the cookie under it; while hot air is on none, the next one has all of its time to go.
    const endsMs = isHotAir
      ? (heat.pausedSinceMs === undefined ? heat.lapFromMs : nowMs) + HOT_AIR_MIN * MIN_MS
      : heat.startedAtMs + heat.limits.stopByS * SECOND_MS;
    const afterwardsMin = isHotAir ? Math.max(0, tray.count - set - 1) * HOT_AIR_MIN : 0;
    const durationMin = Math.max(LEFT_LEAST_MIN, (endsMs - nowMs) / MIN_MS) + afterwardsMin;
    const chamber = isHotAir ? undefined : this.#resources.chamberOf(heat.toolId);
    const task = this.#list.put(tray, {
      act: "heat",
      layer: heat.layer,
      durationMin,
      begunMin: (nowMs - heat.startedAtMs) / MIN_MS,
      ...(chamber === undefined
        ? {
            ...this.#resources.underWay(heatHolder(kitchen, heat), durationMin),
            ...(isHotAir ? { alsoPool: HOT_AIR } : {}),
          }
        : this.#resources.underHeat(chamber, durationMin)),
    });
    setBy.set(heat.layer, task);
    return task;
  }

  /** Layers already laid that are still to be set: small sections within their minutes, or whatever is wet. */
  #heatDue(tray: Tray, setBy: Map<number, number>): number | undefined {
    const { nowMs, heated, films, kitchen } = this.#ground;
    const last = tray.films.at(-1);
    const own = kitchen.designs[tray.designId]?.layers[last?.layer ?? 0];
    if (last === undefined || own === undefined) return undefined;
    const isWet = ({ layer }: Film): boolean => {
      const skin = films[filmKey(tray.id, layer)]?.skin;
      return skin !== undefined && ("never" in skin || skin.likelyMs > nowMs);
    };
    const dueMs = restSetByMs(tray, last) ?? setByMs(tray, last) ?? 0;
    const toSet = heated?.has(tray.id) === true ? tray.films.filter(isWet) : dueMs >= nowMs ? [last] : [];
    const kind = toSet.length > 0 ? this.#setsBy(tray, own) : undefined;
    if (kind === undefined) return undefined;
    const left = Math.max(0, tray.count - cookiesSet(hotAirHeats(tray.heats, last.layer)));
    const task = this.#list.put(tray, {
      act: "heat",
      layer: last.layer,
      ...(kind === "oven"
        ? { ...this.#resources.inOven(), durationMin: OVEN_MIN }
        : { pool: HANDS, alsoPool: HOT_AIR, durationMin: left * HOT_AIR_MIN }),
    });
    for (const { layer } of toSet) setBy.set(layer, task);
    return task;
  }

  /** A tray's share of the minutes that packing its order takes. */
  #packingMin(tray: Tray): number {
    const { settings, orders } = this.#ground.kitchen;
    const cookies = Math.max(orders[tray.orderId]?.cookies ?? 0, tray.count);
    return (settings.packingMin * tray.count) / cookies;
  }

  work(): PlanWork {
    return {
      ...this.#resources.work(),
      tasks: this.#list.tasks,
      films: this.#list.films,
      crew: this.#resources.crew,
      hours: this.#resources.hours,
      lastOf: this.#lastOf,
      never: this.#never,
    };
  }
}
