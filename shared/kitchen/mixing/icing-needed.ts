import { GUESS_SPREAD, layerVolume } from "#shared/icing/layer-volume.ts";
import { batchesFor, type IcingBatch, type IcingNeed, massOfG } from "#shared/icing/quantities.ts";
import {
  BASE_RECIPES,
  baseAndWater,
  type Ingredient,
  recipeFor,
  recipeWaterPct,
} from "#shared/icing/water.ts";
import { CUP_ML } from "#shared/units.ts";
import { byName, compareNames } from "#shared/collections.ts";
import { waterPctOf } from "#shared/kitchen/forecast/air.ts";
import { filmLayersOf } from "#shared/kitchen/model/lookups.ts";
import type { Kitchen, OrderState, Tray } from "#shared/kitchen/model/state.ts";
import { cookiesByDesign, cookiesOnTrays } from "#shared/kitchen/model/order-cookies.ts";
import { SETTINGS } from "#shared/kitchen/model/settings.ts";
import { Consistency, type Design } from "#shared/kitchen/model/vocabulary.ts";

/** What to mix of one icing in one consistency, g unless said otherwise. */
export interface MixRow {
  consistency: Consistency;
  /** On the cookies, without waste; least and most differ from it where an area had to be guessed. */
  needG: number;
  leastG: number;
  mostG: number;
  batches: number;
  mixG: number;
  mixMl: number;
  /** `mixG` is so much base with so much water stirred in. */
  baseG: number;
  waterG: number;
  waterPct: number;
}

/** One icing's consistencies, all let down from one coloured base. */
export interface IcingMix {
  icingId: string;
  name: string;
  hex: string;
  basePct: number;
  baseG: number;
  rows: readonly MixRow[];
}

/** An order with layers still to lay. `offTrays` cookies are on no tray yet: counted like the trays it has or had, not at all without any. */
export interface OpenOrder {
  order: OrderState;
  offTrays: number;
  like: readonly Design[];
  work: readonly Work[];
}

export interface IcingToMix {
  orders: readonly OpenOrder[];
  mixes: readonly IcingMix[];
  baseG: number;
  wastePct: number;
  batchG: number;
  batchMl: number;
  /** Names of designs with a layer whose area had to be guessed. */
  guessed: readonly string[];
}

export type RecipeName = keyof typeof BASE_RECIPES;

/** A recipe scaled to all the base, and the water that then brings it to the base's share. */
export interface BaseRecipe {
  name: RecipeName;
  ingredients: readonly Ingredient[];
  moreWaterG: number;
}

/** Cookies of one design whose layers from `begun` on are still to be laid: what is in hand has its icing in the bag. */
export interface Work {
  design: Design;
  cookies: number;
  begun: number;
}

/** The least worth mixing, by what the kitchen measures in. Common practice, no source. */
const BATCH_G = 50;
const BATCH_CUPS = 1 / 4;

/** Water in the base an icing is let down from, %: as stiff as its stiffest consistency, for water can't be taken out. */
export const basePctOf = (kitchen: Kitchen, icingId: string): number =>
  Math.min(...Consistency.options.map((consistency) => waterPctOf(kitchen, icingId, consistency)));

/**
 * What of each icing and consistency is still to be mixed for the layers not begun, of one order or of all that are
 * open. What is mixed already is never taken off: nobody weighs what leaves a bowl.
 */
export function icingToMix(kitchen: Kitchen, nowMs: number, orderId?: string): IcingToMix {
  const { densityKgM3, units, wastePct = SETTINGS.wastePct.usual } = kitchen.settings;
  const batchMl = units === "us" ? BATCH_CUPS * CUP_ML : (BATCH_G * 1000) / densityKgM3;
  const orders = openOrders(kitchen, nowMs).filter(
    ({ order }) => orderId === undefined || order.id === orderId,
  );
  const layers = orders.flatMap(({ work }) => work).flatMap(layersToLay);
  const guesses = layers.filter(({ isGuess }) => isGuess);
  const guessedMl = new Map(batchesFor(guesses).map((batch) => [keyOf(batch), batch.needMl]));
  const batches = batchesFor(layers, { wasteShare: wastePct / 100, batchMl, densityKgM3 });
  const rowOf = (batch: IcingBatch): MixRow => {
    const { colour, consistency, mixG, mixMl } = batch;
    const waterPct = waterPctOf(kitchen, colour, consistency);
    const needG = massOfG(batch.needMl, densityKgM3);
    const doubtG = GUESS_SPREAD * massOfG(guessedMl.get(keyOf(batch)) ?? 0, densityKgM3);
    return {
      consistency,
      needG,
      leastG: needG - doubtG,
      mostG: needG + doubtG,
      batches: batch.batches,
      mixG,
      mixMl,
      ...baseAndWater(mixG, waterPct, basePctOf(kitchen, colour)),
      waterPct,
    };
  };
  const mixes = [...byName(batches, ({ colour }) => colour)].map(([icingId, own]): IcingMix => {
    const rows = own.map(rowOf).toSorted((a, b) => rank(a) - rank(b));
    return {
      icingId,
      name: kitchen.icings[icingId]?.name ?? "",
      hex: kitchen.icings[icingId]?.hex ?? "#ffffff",
      basePct: basePctOf(kitchen, icingId),
      baseG: sum(rows, ({ baseG }) => baseG),
      rows,
    };
  });
  return {
    orders,
    mixes: mixes.toSorted(compareNames),
    baseG: sum(mixes, ({ baseG }) => baseG),
    wastePct,
    batchG: massOfG(batchMl, densityKgM3),
    batchMl,
    guessed: [...new Set(guesses.map(({ design }) => design.name))].toSorted((a, b) => a.localeCompare(b)),
  };
}

/** What the base of these icings can be made from; without a recipe that is looser than one of their bases. */
export function baseRecipes(mixes: readonly IcingMix[]): BaseRecipe[] {
  const names = Object.keys(BASE_RECIPES) as RecipeName[];
  return names.flatMap((name): BaseRecipe[] => {
    const recipe = BASE_RECIPES[name];
    const recipePct = recipeWaterPct(recipe);
    if (mixes.length === 0 || mixes.some(({ basePct }) => basePct < recipePct)) return [];
    const parts = mixes.map(({ baseG, basePct }) => baseAndWater(baseG, basePct, recipePct));
    const ingredients = recipeFor(
      recipe,
      sum(parts, ({ baseG }) => baseG),
    );
    return [{ name, ingredients, moreWaterG: sum(parts, ({ waterG }) => waterG) }];
  });
}

/**
 * Orders with layers to lay or cookies on no tray, the first pick-up first. Cookies of an order whose pick-up has passed
 * are not waited for.
 */
export function openOrders(kitchen: Kitchen, nowMs: number): OpenOrder[] {
  const traysOf = byName(Object.values(kitchen.trays), ({ orderId }) => orderId);
  return Object.values(kitchen.orders)
    .map((order) => openOrder(kitchen, order, traysOf.get(order.id) ?? [], nowMs))
    .filter(({ offTrays, work }) => offTrays > 0 || work.length > 0)
    .toSorted((a, b) => a.order.pickUpAtMs - b.order.pickUpAtMs || (a.order.id < b.order.id ? -1 : 1));
}

function openOrder(kitchen: Kitchen, order: OrderState, trays: readonly Tray[], nowMs: number): OpenOrder {
  const offTrays = order.pickUpAtMs > nowMs ? Math.max(0, order.cookies - cookiesOnTrays(order, trays)) : 0;
  // Archived trays still say what the order is made of.
  const byDesign = Object.entries(cookiesByDesign(kitchen, order, trays)).flatMap(([designId, cookies]) => {
    const design = kitchen.designs[designId];
    return design === undefined ? [] : [{ design, cookies }];
  });
  const known = sum(byDesign, ({ cookies }) => cookies);
  const onTheirTrays = trays.flatMap((tray): Work[] => {
    const design = kitchen.designs[tray.designId];
    return design === undefined || tray.status.stage === "packed"
      ? []
      : [{ design, cookies: tray.count, begun: filmLayersOf(tray).length }];
  });
  const toCome = byDesign.map(({ design, cookies }): Work => ({
    design,
    cookies: (offTrays * cookies) / known,
    begun: 0,
  }));
  return {
    order,
    offTrays,
    like: byDesign.map(({ design }) => design),
    work: [...onTheirTrays, ...toCome].filter(
      ({ design, cookies, begun }) => cookies > 0 && begun < design.layers.length,
    ),
  };
}

export function layersToLay({
  design,
  cookies,
  begun,
}: Work): (IcingNeed & { design: Design; isGuess: boolean })[] {
  return design.layers.slice(begun).map(({ consistency, icingId, thicknessMm, areaCm2 }) => {
    const areaMm2 = areaCm2 === undefined ? undefined : areaCm2 * 100;
    const { volumeMl, isGuess } = layerVolume(consistency, thicknessMm, design.sizeMm, areaMm2);
    return { design, isGuess, colour: icingId, consistency, volumeMl: volumeMl * cookies };
  });
}

const keyOf = ({ colour, consistency }: IcingBatch): string => `${consistency} ${colour}`;
const rank = ({ consistency }: MixRow): number => Consistency.options.indexOf(consistency);
const sum = <Item>(items: readonly Item[], of: (item: Item) => number): number =>
  items.reduce((total, item) => total + of(item), 0);
