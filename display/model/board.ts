import type { PersonId } from "#shared/ids.ts";
import { axisMarks } from "./axis-marks.ts";
import { airLine, changeLine, closingLine } from "./air-line.ts";
import { comingIn } from "./coming-in.ts";
import type { Forecasts } from "#shared/kitchen/model/forecast.ts";
import { orderStrip } from "#shared/kitchen/orders/progress.ts";
import { readyTiles } from "#shared/kitchen/tray/ready.ts";
import type { Kitchen } from "#shared/kitchen/model/state.ts";
import { toolsLine } from "./tools-line.ts";
import type { Words } from "#shared/words/words.ts";
import { wallAlerts } from "./wall-alerts.ts";

/** Even with nothing due, look again after this long, ms: waits grow, a change grows old. */
const LOOK_AGAIN_MS = 15_000;

export type BoardView = ReturnType<typeof boardView>;

/** Everything the wall shows, as of one moment. `me` acts at this screen: a bench. */
export function boardView(
  words: Words,
  kitchen: Kitchen,
  forecasts: Forecasts,
  nowMs: number,
  me?: PersonId,
) {
  const tiles = readyTiles(kitchen, forecasts, nowMs);
  const lanes = comingIn(kitchen, forecasts, nowMs);
  const due = [
    ...Object.values(lanes).flatMap((pills) => pills.flatMap((pill) => [pill.likelyMs, pill.latestMs])),
    ...tiles.flatMap(({ hotUntilMs }) => hotUntilMs ?? []),
  ];
  return {
    alerts: wallAlerts(words, kitchen, me),
    tiles,
    lanes,
    marks: axisMarks(kitchen, nowMs),
    orders: orderStrip(kitchen, forecasts, nowMs),
    air: airLine(words, kitchen, forecasts),
    change: closingLine(words, kitchen, forecasts, nowMs) ?? changeLine(words, kitchen, forecasts, nowMs),
    tools: toolsLine(words, kitchen, nowMs),
    /** Until then the view stays as it is, if nothing happens: a tray comes in, one cools. Ms. */
    holdsUntilMs: Math.min(nowMs + LOOK_AGAIN_MS, ...due.filter((atMs) => atMs > nowMs)),
  };
}
