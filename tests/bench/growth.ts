import { nanoid } from "nanoid";
import { createBoard } from "#server/live/board.ts";
import { openKitchenService } from "#server/live/kitchen-service.ts";
import { presenceBook } from "#server/live/presence.ts";
import { memoryEventLog } from "#server/log/memory-event-log.ts";
import { asId } from "#shared/ids.ts";
import type { Command } from "#shared/kitchen/model/command.ts";
import { NO_FORECASTS } from "#shared/kitchen/model/forecast.ts";
import { bigBoard } from "../support/big-board.ts";

export const GROWTH_TRAYS = [30, 100, 300, 1000] as const;
const COMMANDS = 400;
const COMMANDS_BEFORE = 200;
const SNAPSHOTS = 15;

/** What grows with the board, or should not: medians, ms. */
export interface Growth {
  trays: number;
  /** A tap decided, appended to a log in memory, and its change written as JSON. */
  commandMs: number;
  /** The whole board put together and written as JSON. */
  snapshotMs: number;
}

export async function benchGrowth(trays: number): Promise<Growth> {
  const scene = bigBoard(trays);
  const log = memoryEventLog(nanoid());
  await log.append([{ commandId: "board", answer: { ok: true, seq: 0 }, events: scene.events }], 0);
  const nowMs = (): number => scene.nowMs;
  const service = await openKitchenService({
    log,
    nowMs,
    forecasts: () => NO_FORECASTS,
    lostPeople: () => new Set(),
    nextTurn: setImmediate,
    report: () => undefined,
  });
  const board = createBoard({
    service,
    forecasts: () => NO_FORECASTS,
    presence: presenceBook(0),
    clock: { fact: { speed: 1, realMs: 0, kitchenMs: 0 }, realMs: nowMs, nowMs },
    isPractice: false,
    problems: () => [],
  });
  let written = 0;
  service.onCommitted((committed) => (written += JSON.stringify(board.change({ ...committed })).length));
  const wren = { by: asId<never>("wren"), role: "decorator" } as const;
  const tap = async (k: number): Promise<void> => {
    const told = written;
    const move = { type: "move-tray", placeId: "rack-a", slot: `${k % 97}` };
    const answer = await service.submit(
      { ...move, commandId: nanoid(), trayId: `x${(k * 7) % trays}` } as unknown as Command,
      wren,
    );
    await new Promise((resolve) => setImmediate(resolve));
    if (!answer.ok || written === told) throw new Error("a tap that did nothing");
  };
  for (let k = 0; k < COMMANDS_BEFORE; k += 1) await tap(k);
  const taps: number[] = [];
  for (let k = 0; k < COMMANDS; k += 1) taps.push(await timed(() => tap(COMMANDS_BEFORE + k)));
  const snapshots: number[] = [];
  for (let k = 0; k < SNAPSHOTS; k += 1)
    snapshots.push(await timed(() => void JSON.stringify(board.snapshot())));
  return { trays, commandMs: median(taps), snapshotMs: median(snapshots) };
}

async function timed(act: () => Promise<void> | void): Promise<number> {
  const startMs = performance.now();
  await act();
  return performance.now() - startMs;
}

const median = (values: readonly number[]): number =>
  values.toSorted((a, b) => a - b)[Math.floor(values.length / 2)] ?? Number.NaN;

/** How something grows with the trays: as their number to this power, from the least squares of its logarithms. */
export function exponentOf(points: readonly (readonly [trays: number, ms: number])[]): number {
  const logs = points.map(([trays, ms]) => [Math.log(trays), Math.log(ms)] as const);
  const mean = (k: 0 | 1): number => logs.reduce((sum, point) => sum + point[k], 0) / logs.length;
  const [x, y] = [mean(0), mean(1)];
  const over = logs.reduce((sum, [a, b]) => sum + (a - x) * (b - y), 0);
  return over / logs.reduce((sum, [a]) => sum + (a - x) ** 2, 0);
}
