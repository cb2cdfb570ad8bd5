import type { Band } from "#shared/drying/uncertainty/band.ts";
import { byName, compareNames, sortedByName } from "#shared/collections.ts";
import type { Forecasts } from "#shared/kitchen/model/forecast.ts";
import { aliveTrays, chamberOf, filmKey, standsAt } from "#shared/kitchen/model/lookups.ts";
import { handsHere } from "#shared/kitchen/model/people.ts";
import type { Kitchen, Tray } from "#shared/kitchen/model/state.ts";
import type { Layer, Person, ToolKind } from "#shared/kitchen/model/vocabulary.ts";
import type { PlanAnswer } from "#shared/protocol/plan.ts";
import { MIN_MS } from "#shared/time.ts";

export type PlanTask = PlanAnswer["tasks"][number];

/** What is done to a tray: a layer by how it is laid, heat, packing; or several of these. */
export type Doing = "pipe" | "flood" | "top-coat" | "heat" | "pack" | "several";

/** Something that takes a stretch of the day, of one tray or of several. */
export interface Stretch {
  fromMs: number;
  toMs: number;
  /** Ascending. */
  trays: readonly number[];
  /** Stretches of one kind that touch are one. */
  kind: string;
}

/** One act on trays that follow each other. */
export interface Block extends Stretch {
  doing: Doing;
  /** The icing that is laid. */
  icing?: { name: string; hex: string };
}

/** Icing that dries: wet until it has skinned, then until it is dry through. */
export interface DryBar extends Stretch {
  skinMs: number;
  /** Of a layer that is not laid yet. */
  isPlanned: boolean;
}

/** One line of the plan: a person, hands of nobody in particular, hot air, an oven or a cabinet. */
export type WorkRow = { key: string; blocks: readonly Block[] } & (
  | { is: "person"; person: Person }
  | { is: "hands" }
  | { is: "hot-air"; count: number }
  | { is: "chamber"; name: string; toolKind: ToolKind }
);

export interface PlaceRow {
  key: string;
  name: string;
  taken: number;
  capacity: number;
  bars: readonly DryBar[];
}

/** What a stretch is while the plan moves it about. */
export const whatStretch = ({ kind, trays }: Stretch): string => `${kind} ${trays[0]}`;

/** Acts with no more than this between them are one block where they are the same act on one design. */
const TOUCH_MS = 6 * MIN_MS;
/** Trays of one layer that began, and are dry, within this of each other are one bar. */
const ALIKE_MS = 45 * MIN_MS;

/** The plan's acts, a line for each person, then whoever else there is, hot air, and each oven or cabinet that is used. */
export function workRows(kitchen: Kitchen, tasks: readonly PlanTask[]): WorkRow[] {
  const people = handsHere(kitchen).toSorted(compareNames);
  const isHere = new Set<string | undefined>(people.map(({ id }) => id));
  const chambers = sortedByName(kitchen.tools).filter((tool) => chamberOf(tool) !== undefined);
  const hotAir = Object.values(kitchen.tools).filter(({ kind }) => kind === "hot-air");
  const inChamber = ({ act, place, who }: PlanTask): boolean =>
    act === "heat" && who === undefined && chambers.some((tool) => tool.placeId === place);
  const blocksOf = (wanted: (task: PlanTask) => boolean): Block[] =>
    joined(tasks.filter(wanted).flatMap((task) => blockOf(kitchen, task) ?? []));
  const rows: WorkRow[] = [
    { key: "hands", is: "hands", blocks: blocksOf((task) => !isHere.has(task.who) && !inChamber(task)) },
    {
      key: "hot-air",
      is: "hot-air",
      count: hotAir.length,
      blocks: blocksOf((task) => task.act === "heat" && !inChamber(task)),
    },
    ...chambers.map(({ id: key, name, kind: toolKind, placeId }) => {
      const blocks = blocksOf((task) => inChamber(task) && task.place === placeId);
      return { key, is: "chamber" as const, name, toolKind, blocks };
    }),
  ];
  return [
    ...people.map((person) => {
      const blocks = blocksOf(({ who }) => who === person.id);
      return { key: person.id, is: "person" as const, person, blocks };
    }),
    ...rows.filter(({ blocks }) => blocks.length > 0),
  ];
}

/** Each place where trays stand, with what dries there, now and by the plan. */
export function placeRows(
  kitchen: Kitchen,
  forecasts: Forecasts,
  tasks: readonly PlanTask[],
  nowMs: number,
): PlaceRow[] {
  const layings = byName(
    tasks.filter(({ act }) => act === "flood"),
    ({ trayId }) => trayId,
  );
  const trays = byName(aliveTrays(kitchen), (tray) => standsAt(tray).placeId);
  return sortedByName(kitchen.places).flatMap(({ id, name, capacity }) => {
    const there = trays.get(id) ?? [];
    const bars = there
      .flatMap((tray) => [nowDrying(forecasts, tray), nextDrying(forecasts, tray, layings.get(tray.id))])
      .filter((bar) => bar !== undefined && bar.toMs > nowMs);
    return there.length === 0
      ? []
      : [{ key: id, name, taken: there.length, capacity, bars: alike(bars as DryBar[]) }];
  });
}

function nowDrying({ films }: Forecasts, tray: Tray): DryBar | undefined {
  const film = tray.films.at(-1);
  const dries = film && films[filmKey(tray.id, film.layer)];
  if (film === undefined || dries === undefined) return undefined;
  return barOf(tray, film.layer, film.clockStartMs, likelyOf(dries.skin), likelyOf(dries.dryThrough));
}

/** Of the next layer, as the plan has it laid. */
function nextDrying({ trays }: Forecasts, tray: Tray, layings: readonly PlanTask[] = []): DryBar | undefined {
  const next = trays[tray.id]?.next;
  const laying = layings.find(({ layer }) => layer === next?.layer);
  if (next === undefined || laying === undefined) return undefined;
  const { endMs } = laying;
  const bar = barOf(tray, next.layer, endMs, endMs + likelyOf(next.skin), endMs + likelyOf(next.dryThrough));
  return { ...bar, isPlanned: true, kind: `planned ${bar.kind}` };
}

const barOf = (
  { number, designId }: Tray,
  layer: number,
  fromMs: number,
  skinMs: number,
  toMs: number,
): DryBar => ({
  fromMs,
  skinMs: Math.min(skinMs, toMs),
  toMs,
  trays: [number],
  kind: `${designId} ${layer}`,
  isPlanned: false,
});

/** Infinity of what never comes. */
const likelyOf = (band: Band): number => ("never" in band ? Infinity : band.likelyMs);

function blockOf(kitchen: Kitchen, { trayId, act, layer, startMs, endMs }: PlanTask): Block | undefined {
  const tray = kitchen.trays[trayId];
  const design = kitchen.designs[tray?.designId ?? ""];
  if (tray === undefined || design === undefined) return undefined;
  const own = act === "flood" ? design.layers[layer ?? 0] : undefined;
  const doing = own === undefined ? (act === "heat" ? "heat" : "pack") : laidBy(own);
  const icing = own && kitchen.icings[own.icingId];
  return {
    fromMs: startMs,
    toMs: endMs,
    trays: [tray.number],
    doing,
    kind: `${doing} ${layer ?? ""} ${design.id}`,
    ...(icing && { icing }),
  };
}

const laidBy = ({ consistency }: Layer): Doing =>
  consistency === "flood" || consistency === "top-coat" ? consistency : "pipe";

/** Neighbours in time of one kind are one block. */
function joined(blocks: readonly Block[]): Block[] {
  const done: Block[] = [];
  for (const block of blocks.toSorted((a, b) => a.fromMs - b.fromMs)) {
    const last = done.at(-1);
    if (last?.kind === block.kind && block.fromMs - last.toMs <= TOUCH_MS)
      done[done.length - 1] = { ...last, ...together(last, block) };
    else done.push(block);
  }
  return done;
}

function alike(bars: readonly DryBar[]): DryBar[] {
  const done: DryBar[] = [];
  for (const bar of bars.toSorted((a, b) => a.fromMs - b.fromMs)) {
    const isAlike = ({ kind, fromMs, toMs }: DryBar): boolean =>
      kind === bar.kind &&
      bar.fromMs - fromMs <= ALIKE_MS &&
      (toMs === bar.toMs || Math.abs(bar.toMs - toMs) <= ALIKE_MS);
    const like = done.findLastIndex(isAlike);
    if (like < 0) done.push(bar);
    else done[like] = barOfBoth(done[like]!, bar);
  }
  return done;
}

export const barOfBoth = (one: DryBar, other: DryBar): DryBar => ({
  ...one,
  ...together(one, other),
  skinMs: Math.max(one.skinMs, other.skinMs),
});

/** Two blocks that have no room beside each other. */
export const severalOf = (one: Block, other: Block): Block => {
  if (one.kind === other.kind) return one;
  const { icing: _icing, ...rest } = one;
  return one.doing === other.doing && one.icing?.hex === other.icing?.hex
    ? one
    : { ...rest, kind: "several", doing: one.doing === other.doing ? one.doing : "several" };
};

/** From the first's beginning to the last's end, with all their trays. */
export const together = (a: Stretch, b: Stretch): Pick<Stretch, "fromMs" | "toMs" | "trays"> => ({
  fromMs: Math.min(a.fromMs, b.fromMs),
  toMs: Math.max(a.toMs, b.toMs),
  trays: [...new Set([...a.trays, ...b.trays])].toSorted((x, y) => x - y),
});
