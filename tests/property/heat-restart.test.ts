import { inLog } from "#server/words.ts";
import fc from "fast-check";
import { expect, it } from "vitest";
import type { Actor } from "#server/live/actor.ts";
import type { EventLog } from "#server/log/event-log.ts";
import { NotSaved, openKitchenService, type KitchenService } from "#server/live/kitchen-service.ts";
import { memoryEventLog } from "#server/log/memory-event-log.ts";
import { asId } from "#shared/ids.ts";
import type { Command } from "#shared/kitchen/model/command.ts";
import { NO_FORECASTS } from "#shared/kitchen/model/forecast.ts";
import { aKitchen, T0 } from "../support/scene.ts";

const SECOND = 1000;
const WREN: Actor = { by: asId("wren"), role: "decorator" };
const notSaved = (error: unknown): { ok: false } => {
  expect(error).toBeInstanceOf(NotSaved);
  return { ok: false };
};

/** A tap, one taken back, a stretch of nothing, a phone lost or found, a disk full or not, or the server gone and back. */
const step = fc.oneof(
  {
    weight: 3,
    arbitrary: fc.record({
      do: fc.constant("tap"),
      type: fc.constant("start-heat-set"),
      trayId: fc.constantFrom("t1", "t2", "t3"),
      toolId: fc.constantFrom("hot-1", "oven-1"),
    }),
  },
  {
    weight: 2,
    arbitrary: fc.record({
      do: fc.constant("tap"),
      type: fc.constantFrom("next-cookie", "heat-on"),
      trayId: fc.constantFrom("t1", "t2", "t3"),
    }),
  },
  {
    weight: 1,
    arbitrary: fc.record({
      do: fc.constant("tap"),
      type: fc.constant("end-heat-set"),
      trayId: fc.constantFrom("t1", "t2", "t3"),
      result: fc.constant("set"),
    }),
  },
  {
    weight: 1,
    arbitrary: fc.record({
      do: fc.constant("tap"),
      type: fc.constantFrom("tool-off", "hand-over-tool"),
      toolId: fc.constantFrom("hot-1", "oven-1"),
      to: fc.constant("sol"),
    }),
  },
  { weight: 1, arbitrary: fc.record({ do: fc.constant("take back") }) },
  { weight: 1, arbitrary: fc.record({ do: fc.constant("acknowledge") }) },
  { weight: 5, arbitrary: fc.record({ do: fc.constant("wait"), seconds: fc.integer({ min: 1, max: 240 }) }) },
  { weight: 2, arbitrary: fc.record({ do: fc.constant("lose"), isLost: fc.boolean() }) },
  { weight: 2, arbitrary: fc.record({ do: fc.constant("disk"), isFull: fc.boolean() }) },
  {
    weight: 2,
    arbitrary: fc.record({ do: fc.constant("restart"), awayS: fc.integer({ min: 0, max: 300 }) }),
  },
);

it("A1 A13 over any taps, taps taken back, lost phones, full disks and restarts, a heat-set past its cap has an urgent alert within 1 s of server time", async () => {
  let pastCap = 0;
  let restarts = 0;
  let untold = 0;
  await fc.assert(
    fc.asyncProperty(fc.array(step, { minLength: 5, maxLength: 25 }), async (steps) => {
      const log = memoryEventLog("heat");
      const seed = aKitchen();
      for (const trayId of ["t1", "t2", "t3"]) seed.act("flooded", { trayId });
      await log.append(
        [{ commandId: asId("seed"), answer: { ok: true, seq: seed.events.length }, events: seed.events }],
        0,
      );
      let isFull = false;
      const disk: EventLog = {
        ...log,
        append: async (...batch) => (isFull ? Promise.reject(new Error("disk full")) : log.append(...batch)),
      };
      let nowMs = T0;
      let lost: ReadonlySet<string> = new Set();
      let sent = 0;
      const heatActs: { trayId: string; actId: string }[] = [];
      let tookBack = false;
      const open = (): Promise<KitchenService> =>
        openKitchenService({
          log: disk,
          nowMs: () => nowMs,
          forecasts: () => NO_FORECASTS,
          lostPeople: () => lost,
          nextTurn: (act) => queueMicrotask(act),
          report: (say) => expect(inLog(say)).toMatch(/^The log can/),
        });
      let service = await open();
      const raised = new Map<string, number>();
      const give = (command: object): Command =>
        ({ ...command, commandId: `c${(sent += 1)}` }) as unknown as Command;

      async function second(): Promise<void> {
        nowMs += SECOND;
        await service.system(give({ type: "reconcile-alerts" })).catch(notSaved);
        const kitchen = service.kitchen();
        const told = service.unsaved() ?? Object.values(kitchen.alerts);
        untold += told.filter(({ key }) => kitchen.alerts[key] === undefined).length;
        for (const { id, status } of Object.values(kitchen.trays)) {
          if (status.stage !== "heat-set") continue;
          expect(kitchen.tools[status.heat.toolId]?.use.status).toBe("on");
          if (status.heat.pausedSinceMs !== undefined) continue;
          if (nowMs - status.heat.lapFromMs < (status.heat.limits.capS + 1) * SECOND) continue;
          pastCap += 1;
          const urgent = told.filter((alert) => alert.trayId === id && alert.class === "urgent");
          expect(urgent.map(({ kind }) => kind)).toEqual(["heat-running-long"]);
          expect(urgent[0]?.recipients).toMatchObject({ wall: true, everyone: true });
        }
      }

      service.onCommitted(count);
      function count({ events }: { events: readonly { type: string; alert?: { key: string } }[] }): void {
        for (const event of events)
          if (event.type === "alert-raised" && event.alert !== undefined)
            raised.set(event.alert.key, (raised.get(event.alert.key) ?? 0) + 1);
      }

      for (const one of steps) {
        if (one.do === "wait") for (let s = 0; s < one.seconds; s += 1) await second();
        else if (one.do === "lose") lost = new Set(one.isLost ? ["wren"] : []);
        else if (one.do === "disk") ({ isFull } = one);
        else if (one.do === "acknowledge") {
          const [key] = Object.keys(service.kitchen().alerts);
          if (key !== undefined)
            await service.submit(give({ type: "acknowledge-alert", key }), WREN).catch(notSaved);
        } else if (one.do === "restart") {
          restarts += 1;
          nowMs += one.awayS * SECOND;
          service = await open();
          service.onCommitted(count);
        } else if (one.do === "take back") {
          const last = heatActs.pop();
          if (last === undefined) continue;
          const answer = await service.submit(give({ type: "take-back", ...last }), WREN).catch(notSaved);
          tookBack ||= answer.ok;
        } else {
          const { do: _tap, ...fields } = one;
          const command = give(fields);
          const answer = await service.submit(command, WREN).catch(notSaved);
          if (answer.ok && "trayId" in fields)
            heatActs.push({ trayId: fields.trayId, actId: command.commandId });
        }
        await second();
      }
      const heats = [...raised].filter(([key]) => key.startsWith("heat-running-long"));
      // A heat-set whose end is taken back past its cap is told again.
      if (tookBack) return;
      expect(heats.filter(([, times]) => times > 1)).toEqual([]);
    }),
    { numRuns: 120 },
  );
  expect(pastCap).toBeGreaterThan(0);
  expect(restarts).toBeGreaterThan(0);
  expect(untold).toBeGreaterThan(0);
}, 60_000);
