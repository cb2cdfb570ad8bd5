import { PLAN_IN_TURN } from "#tests/support/plan-in-turn.ts";
import { pathToFileURL } from "node:url";
import type { AlertKind } from "#shared/kitchen/model/alert.ts";
import { activeAlert } from "#shared/kitchen/model/active-alert.ts";
import { forPerson } from "#shared/kitchen/alerts/shown.ts";
import type { EventOf } from "#shared/kitchen/model/event.ts";
import { aliveTrays } from "#shared/kitchen/model/lookups.ts";
import type { Person } from "#shared/kitchen/model/vocabulary.ts";
import { createForecaster } from "#server/forecast/forecaster.ts";
import { firstSeenMs } from "#server/practice/house.ts";
import { makePractice } from "#server/practice/practice.ts";
import { type Forecasting, quickForecasts } from "#server/practice/quick-forecasts.ts";
import { rehearse } from "#server/practice/rehearsal.ts";

const MIN_MS = 60_000;
const HOUR_MS = 60 * MIN_MS;
const WINDOW_MS = 10 * MIN_MS;
/** Comes to about forty alive through the day. */
const TRAYS = 30;
const DECORATORS = 4;
/** Long-run average 1 in 10 min a person (HSE CHIS6 citing EEMUA 191), flood above 10 in 10 min (ISA-18.2). */
export const ALERT_LIMITS = { anHour: 6, inTenMinutes: 10 } as const;

export interface PersonLoad {
  name: string;
  does: string;
  anHour: number;
  inTenMinutes: number;
  urgent: number;
  kinds: Readonly<Partial<Record<AlertKind, number>>>;
}

export interface AlertLoad {
  hours: number;
  /** Mean over the day. */
  trays: number;
  people: readonly PersonLoad[];
  /** Mean over the four who had most: the decorators, nearly always. */
  anHour: number;
  mostAnHour: number;
  inTenMinutes: number;
}

export interface AlertLoadOptions {
  seed: number;
  hours: number;
  /** Kitchen time between refreshed forecasts, as the server does each minute, and between looks at the alerts. */
  refreshEveryMs: number;
  tendEveryMs: number;
}

/** As the server does it, but for the alerts, which it looks at four times a second. */
const AS_SERVED: AlertLoadOptions = {
  seed: 1,
  hours: 8,
  refreshEveryMs: MIN_MS,
  tendEveryMs: 10_000,
};

/**
 * A day (eight hours) of a practice kitchen with everybody at work, on the bare core with the server's own forecaster. Counts
 * what each person's phone was told; a wall is nobody's phone.
 */
export async function alertLoad(options: Partial<AlertLoadOptions> = {}): Promise<AlertLoad> {
  const { seed, hours, refreshEveryMs, tendEveryMs } = { ...AS_SERVED, ...options };
  const opensMs = firstSeenMs(Date.UTC(2026, 4, 8)) - 4 * HOUR_MS;
  const practice = makePractice({ seed, opensMs, trays: TRAYS, shifts: 1 });
  let forecasting: Forecasting | undefined;
  const history = rehearse(practice, {
    tendEveryMs,
    refreshEveryMs,
    forecasting: (kitchen, nowMs) => {
      const quick = quickForecasts(kitchen, nowMs);
      const now = (): Forecasting =>
        nowMs() < opensMs - MIN_MS
          ? quick
          : (forecasting ??= createForecaster({
              kitchen,
              nowMs,
              defer: setImmediate,
              monotonicMs: () => 0,
              publish: () => undefined,
              planner: PLAN_IN_TURN,
            }));
      return {
        current: () => now().current(),
        touch: (events) => now().touch(events),
        refresh: () => now().refresh(),
        idle: () => now().idle(),
      };
    },
  });
  await history.playUntil(opensMs);
  const before = history.decided().length;
  const trays: number[] = [];
  for (let minute = 10; minute <= hours * 60; minute += 10) {
    await history.playUntil(opensMs + minute * MIN_MS);
    trays.push(aliveTrays(history.kitchen()).length);
  }
  const raised = history
    .decided()
    .slice(before)
    .flatMap(({ events }) => events)
    .filter((event) => event.type === "alert-raised");
  const people = Object.values(history.kitchen().people).map((person) => loadOf(person, raised, hours));
  const rates = people.map(({ anHour }) => anHour).toSorted((a, b) => b - a);
  return {
    hours,
    trays: mean(trays),
    people,
    anHour: mean(rates.slice(0, DECORATORS)),
    mostAnHour: Math.max(...rates),
    inTenMinutes: Math.max(...people.map(({ inTenMinutes }) => inTenMinutes)),
  };
}

function loadOf(person: Person, raised: readonly EventOf<"alert-raised">[], hours: number): PersonLoad {
  const own = raised.filter(({ alert, atMs }) => forPerson(activeAlert(alert, atMs), person.id, person.role));
  const kinds: Partial<Record<AlertKind, number>> = {};
  for (const { alert } of own) kinds[alert.kind] = (kinds[alert.kind] ?? 0) + 1;
  const inWindow = (fromMs: number): number =>
    own.filter(({ atMs }) => atMs >= fromMs && atMs < fromMs + WINDOW_MS).length;
  return {
    name: person.name,
    does: person.role,
    anHour: own.length / hours,
    inTenMinutes: Math.max(0, ...own.map(({ atMs }) => inWindow(atMs))),
    urgent: own.filter(({ alert }) => alert.class === "urgent").length,
    kinds,
  };
}

const mean = (values: readonly number[]): number =>
  values.reduce((sum, value) => sum + value, 0) / Math.max(1, values.length);

/** The load as a table for people. */
export function sayAlertLoad(load: AlertLoad): string {
  const row = (cells: readonly string[]): string =>
    cells.map((cell, k) => (k === 0 ? cell.padEnd(10) : cell.padStart(k === 1 ? 10 : 9))).join(" ");
  const lines = load.people.map((person) =>
    [
      row([
        person.name,
        person.does,
        person.anHour.toFixed(1),
        String(person.inTenMinutes),
        String(person.urgent),
      ]),
      Object.entries(person.kinds)
        .toSorted((a, b) => b[1] - a[1])
        .map(([kind, count]) => `${kind} ${count}`)
        .join(", "),
    ].join("   "),
  );
  return [
    `Alerts on each person's phone, ${load.hours} h, ${load.trays.toFixed(0)} trays alive on average`,
    row(["person", "role", "an hour", "10 min", "urgent"]),
    ...lines,
    `mean of the busiest four ${load.anHour.toFixed(1)} an hour (limit ${ALERT_LIMITS.anHour}), most ${load.mostAnHour.toFixed(1)}, busiest 10 minutes ${load.inTenMinutes} (limit ${ALERT_LIMITS.inTenMinutes})`,
  ].join("\n");
}

if (import.meta.url === pathToFileURL(process.argv[1] ?? "").href) {
  const load = await alertLoad({ seed: Number(process.argv[2] ?? AS_SERVED.seed) });
  console.log(sayAlertLoad(load));
  const isWithin = load.anHour <= ALERT_LIMITS.anHour && load.inTenMinutes <= ALERT_LIMITS.inTenMinutes;
  process.exitCode = isWithin ? 0 : 1;
}
