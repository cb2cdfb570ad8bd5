import { byName } from "#shared/collections.ts";
import { batchOf, trayByNumber } from "#shared/kitchen/model/lookups.ts";
import type { BatchState, BatchUse, Kitchen, Tray } from "#shared/kitchen/model/state.ts";
import { batchOfFilm, useOf } from "#shared/kitchen/tray/bowl.ts";
import type { Kind } from "./batches.ts";

/** A layer laid from a batch, and where its tray is: on the board under its number, packed since and its number another's, or archived. */
export interface LaidLayer extends BatchUse {
  trayId?: string;
  is: "on the board" | "packed" | "archived";
}

/** The layers of one order that were laid from a batch. */
export interface OrderLayers {
  orderId: string;
  order: string;
  /** Whether the order is still on the board. */
  isOpen: boolean;
  parts: readonly LaidPart[];
}

/** The same layer of one design on some of an order's trays, and when the first and the last of them was laid. */
export interface LaidPart {
  design: string;
  layer: number;
  earliestMs: number;
  latestMs: number;
  layers: readonly LaidLayer[];
}

/** Every layer laid from a batch, on trays of the board by their films, on archived ones by what they left; the first laid first. */
export function layersFrom(kitchen: Kitchen, batchId: string): LaidLayer[] {
  const alive = Object.values(kitchen.trays).flatMap((tray) =>
    tray.films
      .filter(({ bowl }) => bowl?.id === batchId)
      .map((film): LaidLayer => ({
        ...useOf(kitchen, tray, film),
        trayId: tray.id,
        is: trayByNumber(kitchen, tray.number)?.id === tray.id ? "on the board" : "packed",
      })),
  );
  const archived = (batchOf(kitchen, batchId)?.uses ?? []).map((use): LaidLayer => ({
    ...use,
    is: "archived",
  }));
  return [...archived, ...alive].toSorted((a, b) => a.laidAtMs - b.laidAtMs || a.tray - b.tray);
}

/** The same by order, in the order first laid for, each by design and layer. */
export const ordersFrom = (kitchen: Kitchen, batchId: string): OrderLayers[] =>
  [...byName(layersFrom(kitchen, batchId), ({ orderId }) => orderId)].map(([orderId, layers]) => ({
    orderId,
    order: kitchen.orders[orderId]?.name ?? layers[0]?.order ?? "",
    isOpen: kitchen.orders[orderId] !== undefined,
    parts: [...byName(layers, ({ design, layer }) => `${layer}/${design}`).values()].map(partOf),
  }));

function partOf(layers: readonly LaidLayer[]): LaidPart {
  const { design, layer } = layers[0]!;
  const laid = layers.map(({ laidAtMs }) => laidAtMs);
  return { design, layer, earliestMs: Math.min(...laid), latestMs: Math.max(...laid), layers };
}

/** One layer of a tray, and its batch where one was recorded. */
export interface LayerBatch {
  layer: number;
  kind: Kind;
  batch?: BatchState;
}

/** The batches of a tray's layers, in the order laid. */
export const batchesOfTray = (kitchen: Kitchen, tray: Tray): LayerBatch[] =>
  tray.films.flatMap((film) => {
    const kind = kitchen.designs[tray.designId]?.layers[film.layer];
    const batch = batchOfFilm(kitchen, film);
    return kind === undefined ? [] : [{ layer: film.layer, kind, ...(batch !== undefined && { batch }) }];
  });
