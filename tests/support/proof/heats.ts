import { asId } from "#shared/ids.ts";
import type { SyncPhone } from "../crash/sync-phone.ts";
import type { Screens } from "./screens.ts";

/** Heat that is let run past its stop-by, tool after tool, so that an alarm falls due every few seconds. */
export interface Heats {
  /** What became of each whose alarm was due long enough ago: ms after its stop-by at which the first and the last screen showed it. */
  lateness: () => {
    startId: string;
    dueMs: number;
    firstMs: number | undefined;
    lastMs: number | undefined;
  }[];
  stop: () => void;
}

const EVERY_MS = 3000;
/** How long an alarm stands before someone ends the heat. */
const STANDS_MS = 6000;

/** Tools "heat-1" … in turn, and trays "h1" … used up one by one, by this person's phone. */
export function runHeats(
  phone: SyncPhone,
  screens: Screens,
  { tools, trays }: { tools: number; trays: number },
): Heats {
  const started: { startId: string; trayId: string; dueMs?: number; isEnded?: true }[] = [];
  const clockToMonotonic = (kitchenMs: number): number =>
    performance.now() + (kitchenMs - phone.link.kitchenNow().nowMs);

  function begin(): void {
    const k = started.length;
    if (k === trays) return;
    const trayId = `h${k + 1}`;
    phone.act({ type: "flooded", trayId: asId(trayId), acceptRisk: true });
    const { commandId } = phone.act({
      type: "start-heat-set",
      trayId: asId(trayId),
      toolId: asId(`heat-${(k % tools) + 1}`),
    });
    started.push({ startId: commandId, trayId });
  }
  function look(): void {
    for (const heat of started) {
      const status = phone.link.confirmed()?.kitchen.trays[heat.trayId]?.status;
      if (heat.dueMs === undefined && status?.stage === "heat-set") {
        const { lapFromMs, limits } = status.heat;
        heat.dueMs = clockToMonotonic(lapFromMs + 1000 * Math.min(limits.stopByS, limits.capS));
      }
      if (heat.isEnded || heat.dueMs === undefined || performance.now() < heat.dueMs + STANDS_MS) continue;
      heat.isEnded = true;
      phone.act({ type: "end-heat-set", trayId: asId(heat.trayId), result: "not yet" });
    }
  }
  begin();
  const starting = setInterval(begin, EVERY_MS);
  const looking = setInterval(look, 100);
  return {
    lateness: () =>
      started.flatMap(({ startId, dueMs }) => {
        if (dueMs === undefined || performance.now() < dueMs + STANDS_MS) return [];
        const { firstMs, lastMs } = screens.alarmShown(startId);
        return [
          {
            startId,
            dueMs,
            firstMs: firstMs === undefined ? undefined : firstMs - dueMs,
            lastMs: lastMs === undefined ? undefined : lastMs - dueMs,
          },
        ];
      }),
    stop: () => {
      clearInterval(starting);
      clearInterval(looking);
    },
  };
}
