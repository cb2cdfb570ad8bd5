import { inLog, type Report, wordsIn } from "#server/words.ts";
import { afterEach, beforeEach, describe, expect, test } from "vitest";
import { type KitchenService, openKitchenService } from "#server/live/kitchen-service.ts";
import { memoryEventLog } from "#server/log/memory-event-log.ts";
import { firstSeenMs } from "#server/practice/house.ts";
import { makePractice, type Practice } from "#server/practice/practice.ts";
import { type Forecasting, quickForecasts } from "#server/practice/quick-forecasts.ts";
import { rehearse } from "#server/practice/rehearsal.ts";
import { type RunningPractice, startPractice } from "#server/practice/start.ts";
import { asId, type PersonId } from "#shared/ids.ts";
import { nextAct } from "#shared/kitchen/tray/route.ts";
import type { Command } from "#shared/kitchen/model/command.ts";
import { aliveTrays, roomLeft } from "#shared/kitchen/model/lookups.ts";
import { type HandDriven, handDriven } from "../support/server-timers.ts";

const MIN_MS = 60_000;
const HOUR_MS = 60 * MIN_MS;
const US = { units: "us", timeZone: "Europe/Dublin" } as const;

/** A practice kitchen two hours into its life, on a real service over a log in memory; time passes by hand. */
describe("people of a practice kitchen at work on a server", () => {
  let practice: Practice;
  let hands: HandDriven;
  let service: KitchenService;
  let running: RunningPractice;
  let reports: string[];

  beforeEach(async () => {
    practice = makePractice({ seed: 4, opensMs: firstSeenMs(Date.UTC(2026, 4, 8)) });
    const rehearsal = rehearse(practice);
    await rehearsal.playUntil(practice.beginsMs + 2 * HOUR_MS);
    hands = handDriven(rehearsal.nowMs());
    const log = memoryEventLog("practice");
    await log.append(rehearsal.decided(), 0);
    reports = [];
    const report: Report = (say) => void reports.push(inLog(say));
    const forecasts = (): Forecasting => forecasting;
    service = await openKitchenService({
      log,
      nowMs: hands.clock.nowMs,
      forecasts: () => forecasts().current(),
      lostPeople: () => new Set(),
      nextTurn: setImmediate,
      report,
    });
    const forecasting = quickForecasts(service.kitchen, hands.clock.nowMs);
    forecasting.refresh();
    service.onCommitted(({ events }) => forecasting.touch(events));
    running = startPractice({
      practice,
      service,
      forecasts: forecasting.current,
      clock: hands.clock,
      timers: hands.timers,
      report,
    });
  });
  afterEach(() => running.stop());

  /** Lets kitchen time pass in steps, each played to its end. */
  async function pass(ms: number): Promise<void> {
    for (let passed = 0; passed < ms; passed += MIN_MS) {
      await jump(MIN_MS);
    }
  }

  /** Lets kitchen time pass at once, and what is then due be played to its end. */
  async function jump(ms: number): Promise<void> {
    hands.jump(ms);
    while (practice.scheduler.nextMs() <= hands.clock.nowMs())
      await new Promise((resolve) => setImmediate(resolve));
  }

  test("they go on from where the rehearsal left them", async () => {
    const before = service.seq();
    await pass(HOUR_MS);
    const floods = service.recentSince(before)?.filter(({ type }) => type === "flooded") ?? [];
    expect(floods.length).toBeGreaterThan(4);
    expect(reports).toEqual([]);
  });

  test("they work beside somebody who joins, and put up with refusals", async () => {
    const visitor = { by: asId<never>("visitor"), role: "lead" as const };
    let taken = 0;
    for (let minute = 0; minute < 60; minute += 2) {
      const tray = aliveTrays(service.kitchen()).find((one) =>
        nextAct(service.kitchen(), one).kind.startsWith("flood"),
      );
      if (tray !== undefined) {
        const answer = await service.submit(
          { type: "flooded", commandId: asId(`v${minute}`), trayId: tray.id, acceptRisk: true },
          visitor,
        );
        if (answer.ok) taken += 1;
      }
      await pass(2 * MIN_MS);
    }
    expect(taken).toBeGreaterThan(0);
    expect(reports).toEqual([]);
  });

  test("an act is stamped with its own moment, however late the step comes", async () => {
    const before = service.seq();
    await jump(6 * MIN_MS);
    const readings = service.recentSince(before)?.filter(({ type }) => type === "reading-taken") ?? [];
    expect(readings.length).toBeGreaterThanOrEqual(2);
    // A line every four minutes from a millisecond after the kitchen's beginning, as the hygrometers are written.
    for (const { atMs } of readings) expect((atMs - practice.beginsMs - 1) % (4 * MIN_MS)).toBe(0);
  });

  test("after the machine slept they go on from now instead of catching up", async () => {
    const before = service.seq();
    await jump(20 * HOUR_MS);
    const late = service.recentSince(before)?.filter(({ atMs }) => hands.clock.nowMs() - atMs > 10 * MIN_MS);
    expect(late).toEqual([]);
  });

  test("C39 the story's damp comes into the air, its trays are left to whoever is told it, and the cabinet keeps room", async () => {
    const to = asId<PersonId>("visitor");
    const telling = practice.tellStory("damp", to, hands.clock.nowMs());
    await pass(3 * MIN_MS);
    const { orderId, trayIds, placeId } = await telling;
    expect(service.kitchen().orders[orderId]?.cookies).toBe(60);
    expect(service.kitchen().readings["rack-a"]?.at(-1)?.rhPct).toBe(80);
    await pass(4 * MIN_MS);
    const { trays, places } = service.kitchen();
    expect(trayIds.map((id) => [trays[id]?.films.length, trays[id]?.placements.length])).toEqual(
      trayIds.map(() => [2, 1]),
    );
    expect(places[placeId]?.kind).toBe("rack");
    expect(roomLeft(service.kitchen(), "cabinet")).toBeGreaterThanOrEqual(trayIds.length);
    expect(reports).toEqual([]);
  });

  test("C39 the story's heat runs past its stop-by until it is stopped, or the story is ended", async () => {
    const to = asId<PersonId>("visitor");
    const telling = practice.tellStory("heat", to, hands.clock.nowMs());
    await pass(3 * MIN_MS);
    const { trayId } = await telling;
    const tray = () => service.kitchen().trays[trayId]!;
    const { status } = tray();
    if (status.stage !== "heat-set") throw new Error(status.stage);
    const { lapFromMs, limits } = status.heat;
    expect(hands.clock.nowMs() - lapFromMs).toBeGreaterThan(limits.stopByS * 1000);
    const ended = practice.tellStory("end", to, hands.clock.nowMs());
    await pass(MIN_MS);
    expect(await ended).toEqual({ ok: true });
    expect(tray().heats.map(({ result }) => result)).toEqual(["not yet"]);
    expect(reports).toEqual([]);
  });

  test("P29 its places, tools and rules are named anew in another language, and it goes over to other units", async () => {
    const speak = () => practice.speakAs(service.kitchen(), wordsIn("es", US), "us");
    for (const [k, asked] of speak().entries()) {
      const command = { ...asked, commandId: asId(`speak-${k}`) } as Command;
      expect(await service.system(command)).toMatchObject({ ok: true });
    }
    const { settings, places, tools, trays } = service.kitchen();
    expect(settings.units).toBe("us");
    expect([places["rack-a"]?.name, tools["oven"]?.name]).toEqual(["Estante A", "Horno bajo"]);
    expect(Object.keys(trays).length).toBeGreaterThan(0);
    expect(speak()).toEqual([]);
  });

  test("stopped, they do nothing more", async () => {
    running.stop();
    const before = service.seq();
    hands.jump(HOUR_MS);
    await running.step(hands.clock.nowMs());
    expect(service.seq()).toBe(before);
  });
});
