import type { PersonId } from "#shared/ids.ts";
import { airLine, changeLine, type AirLine, type ChangeLine } from "./air-line.ts";
import { comingIn, type Lane } from "./coming-in.ts";
import type { Forecasts } from "#shared/kitchen/model/forecast.ts";
import { orderStrip, type OrderCard } from "#shared/kitchen/orders/progress.ts";
import type { Pill } from "./pill-packing.ts";
import { readyTiles, type ReadyTile } from "#shared/kitchen/tray/ready.ts";
import type { Kitchen } from "#shared/kitchen/model/state.ts";
import { toolsLine, type ToolsLine } from "./tools-line.ts";
import type { Words } from "#shared/words/words.ts";
import { wallAlerts, type WallAlert } from "./wall-alerts.ts";

/** Everything the wall shows, as of one moment. */
export interface BoardView {
  alerts: readonly WallAlert[];
  tiles: readonly ReadyTile[];
  lanes: Readonly<Record<Lane, readonly Pill[]>>;
  orders: readonly OrderCard[];
  air: AirLine | undefined;
  change: ChangeLine | undefined;
  tools: ToolsLine;
  /** Until then the view stays as it is, if nothing happens: a tray comes in, one cools. Ms. */
  holdsUntilMs: number;
}

/** Even with nothing due, look again after this long, ms: waits grow, a change grows old. */
const LOOK_AGAIN_MS = 15_000;

/** `me` acts at this screen: a bench. */
export function boardView(
  words: Words,
  kitchen: Kitchen,
  forecasts: Forecasts,
  nowMs: number,
  me?: PersonId,
): BoardView {
  const tiles = readyTiles(kitchen, forecasts, nowMs);
  const lanes = comingIn(kitchen, forecasts, nowMs);
  const due = [
    ...Object.values(lanes).flatMap((pills) =>
      pills.flatMap(({ likelyMs, latestMs }) => [likelyMs, latestMs]),
    ),
    ...tiles.flatMap(({ hotUntilMs }) => hotUntilMs ?? []),
  ];
  return {
    alerts: wallAlerts(words, kitchen, me),
    tiles,
    lanes,
    orders: orderStrip(kitchen, forecasts, nowMs),
    air: airLine(words, kitchen, forecasts),
    change: changeLine(words, kitchen, forecasts, nowMs),
    tools: toolsLine(words, kitchen, nowMs),
    holdsUntilMs: Math.min(nowMs + LOOK_AGAIN_MS, ...due.filter((atMs) => atMs > nowMs)),
  };
}
