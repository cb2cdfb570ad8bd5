import fc from "fast-check";
import { expect, test } from "vitest";
import { Scheduler } from "#shared/scheduling/schedule.ts";
import { ALWAYS, type Pool, type Task, type Work, type WorkHours, waitsOf } from "#shared/scheduling/work.ts";
import { improved } from "#shared/scheduling/priorities.ts";
import { atOnce } from "#shared/steps.ts";
import { byLatestStart } from "#tests/support/latest-start.ts";
import { randomFrom } from "#tests/support/random.ts";

const minutes = (min: number, max: number) => fc.integer({ min, max });

/** Every day for a month. */
const daily = (opens: number, open: number): WorkHours => ({
  fromMin: Array.from({ length: 30 }, (_, day) => day * 1440 + opens),
  toMin: Array.from({ length: 30 }, (_, day) => day * 1440 + opens + open),
});

/** Hours that are every day at least as long as the longest task, and those of people within them. */
const pools: fc.Arbitrary<Pool[]> = fc.array(
  fc
    .record({
      units: minutes(1, 3),
      opening: fc.option(fc.tuple(minutes(0, 300), minutes(60, 600)), { nil: undefined }),
      shifts: fc.option(
        fc.array(fc.option(fc.tuple(minutes(0, 100), minutes(0, 100)), { nil: undefined }), {
          minLength: 3,
          maxLength: 3,
        }),
        { nil: undefined },
      ),
    })
    .map(({ units, opening, shifts }): Pool => {
      const [opens, open] = opening ?? [0, 1440];
      const within = ([later, sooner]: [number, number]): WorkHours => {
        const from = Math.floor((later / 100) * (open - 60));
        return daily(opens + from, open - from - Math.floor((sooner / 100) * (open - from - 60)));
      };
      return {
        units,
        hours: opening === undefined ? ALWAYS : daily(opens, open),
        ...(shifts !== undefined && {
          unitHours: shifts.slice(0, units).map((shift) => (shift === undefined ? undefined : within(shift))),
        }),
      };
    }),
  { minLength: 1, maxLength: 3 },
);

const works: fc.Arbitrary<Work> = fc
  .tuple(pools, minutes(1, 14), minutes(0, 4))
  .chain(([pools, count, changeMin]) =>
    fc.record({
      pools: fc.constant(pools),
      changeMin: fc.constant(changeMin),
      tasks: fc.tuple(
        ...Array.from({ length: count }, (_, task) =>
          fc
            .record({
              pool: minutes(0, pools.length - 1),
              also: fc.option(minutes(0, pools.length - 1), { nil: undefined }),
              durationMin: minutes(0, 50),
              fromMin: minutes(0, 200),
              after: fc.array(
                fc.record({ task: minutes(0, Math.max(0, task - 1)), waitMin: minutes(0, 900) }),
                {
                  maxLength: task === 0 ? 0 : 2,
                },
              ),
              icing: fc.option(minutes(0, 2), { nil: undefined }),
              isDivisible: fc.boolean(),
              isAssigned: fc.boolean(),
            })
            .map(({ also, isAssigned, icing, ...task }): Task => ({
              ...task,
              ...(also !== undefined && also !== task.pool && { alsoPool: also }),
              ...(icing !== undefined && { icing }),
              ...(isAssigned && { unit: 0 }),
            })),
        ),
      ),
    }),
  );

test("K45 every schedule is one that hands could keep: units, waits, hours and moments hold", () => {
  fc.assert(
    fc.property(works, fc.infiniteStream(fc.double({ min: 0, max: 1, noNaN: true })), (work, ranks) => {
      const isPatient = (ranks.next().value as number) < 0.5;
      const scheduler = new Scheduler(work);
      const rank = Float64Array.from(work.tasks, () => ranks.next().value as number);
      scheduler.run({ rank, isPatient });
      const { startMin, endMin, unit } = scheduler;
      for (const [
        k,
        { pool, alsoPool, durationMin, fromMin = 0, after, unit: own, isDivisible },
      ] of work.tasks.entries()) {
        // All of these can be done: what never begins would be lost.
        expect(endMin[k]).toBeLessThan(Infinity);
        expect(startMin[k]).toBeGreaterThanOrEqual(fromMin);
        expect(endMin[k]! - startMin[k]!).toBeGreaterThanOrEqual(durationMin);
        for (const { task, waitMin } of after)
          expect(startMin[k]).toBeGreaterThanOrEqual(endMin[task]! + waitMin);
        if (own !== undefined) expect(unit[k]).toBe(own);
        const { hours, unitHours } = work.pools[pool]!;
        const { fromMin: opens, toMin: closes } = unitHours?.[unit[k]!] ?? hours;
        const spell = opens.findIndex((open, i) => startMin[k]! >= open && startMin[k]! <= closes[i]!);
        expect(spell).toBeGreaterThanOrEqual(0);
        if (isDivisible !== true) {
          expect(endMin[k]).toBeLessThanOrEqual(closes[spell]!);
          expect(endMin[k]! - startMin[k]!).toBeLessThanOrEqual(durationMin + work.changeMin);
        }
        const overlaps = (j: number): boolean =>
          startMin[j]! < endMin[k]! && startMin[k]! < endMin[j]! && endMin[j]! > startMin[j]!;
        const beside = [...work.tasks.keys()].filter((j) => j !== k && overlaps(j));
        for (const j of beside)
          if (work.tasks[j]!.pool === pool && endMin[k]! > startMin[k]!) expect(unit[j]).not.toBe(unit[k]);
        if (alsoPool !== undefined && endMin[k]! > startMin[k]!) {
          const using = [...work.tasks.keys()].filter(
            (j) =>
              (work.tasks[j]!.pool === alsoPool || work.tasks[j]!.alsoPool === alsoPool) &&
              startMin[j]! <= startMin[k]! &&
              endMin[j]! > startMin[k]!,
          );
          expect(using.length).toBeLessThanOrEqual(work.pools[alsoPool]!.units);
        }
      }
    }),
    { numRuns: 300 },
  );
});

test("K45 the same work and list give the same schedule, however often it was run before", () => {
  fc.assert(
    fc.property(works, (work) => {
      const scheduler = new Scheduler(work);
      const rank = Float64Array.from(work.tasks.keys());
      scheduler.run({ rank });
      const ends = [...scheduler.endMin];
      scheduler.run({ rank: rank.toReversed(), isPatient: true });
      scheduler.run({ rank });
      expect([...scheduler.endMin]).toEqual(ends);
    }),
    { numRuns: 100 },
  );
});

test("K54 a figure that is no number leaves a hole in the schedule, never a hang", () => {
  const figures = fc.infiniteStream(fc.constantFrom(0, 5, NaN, Infinity));
  fc.assert(
    fc.property(works, figures, (work, more) => {
      const spoiled = (list: readonly number[]): Float64Array =>
        Float64Array.from(list, (minute) => minute + (more.next().value as number));
      const scheduler = new Scheduler(work);
      scheduler.run(
        { rank: Float64Array.from(work.tasks.keys()) },
        {
          durationsMin: spoiled(work.tasks.map(({ durationMin }) => durationMin)),
          fromMin: spoiled(work.tasks.map(({ fromMin = 0 }) => fromMin)),
          waitsMin: spoiled([...waitsOf(work)]),
        },
      );
      expect(scheduler.endMin).toHaveLength(work.tasks.length);
    }),
    { numRuns: 300 },
  );
});

/** Lateness, in all, of the tasks that are due. */
const lateness = (endMin: ArrayLike<number>, dueMin: readonly number[]): number =>
  dueMin.reduce((sum, due, task) => sum + Math.max(0, endMin[task]! - due), 0);

/** The least lateness of all: each order of the tasks, every task as early as those before it in that order leave room. */
function leastLateness(work: Work, dueMin: readonly number[]): number {
  let least = Infinity;
  const count = work.tasks.length;
  const endMin = Array.from({ length: count }, () => 0);
  const place = (done: readonly number[]): void => {
    if (done.length === count) {
      least = Math.min(least, lateness(endMin, dueMin));
      return;
    }
    for (let task = 0; task < count; task++) {
      const { after, pool, durationMin, fromMin = 0 } = work.tasks[task]!;
      if (done.includes(task) || after.some((before) => !done.includes(before.task))) continue;
      const ready = Math.max(fromMin, ...after.map((before) => endMin[before.task]! + before.waitMin));
      const busy = done
        .filter((other) => work.tasks[other]!.pool === pool)
        .map((other) => [endMin[other]! - work.tasks[other]!.durationMin, endMin[other]!] as const);
      const starts = [ready, ...busy.map(([, end]) => Math.max(ready, end))].toSorted((a, b) => a - b);
      const isFree = (at: number): boolean => {
        const marks = [at, ...busy.map(([start]) => start)].filter((m) => m >= at && m < at + durationMin);
        return marks.every(
          (m) => busy.filter(([start, end]) => start <= m && m < end).length < work.pools[pool]!.units,
        );
      };
      endMin[task] = starts.find(isFree)! + durationMin;
      place([...done, task]);
    }
  };
  place([]);
  return least;
}

test("K46 in small kitchens the plan is as little late as the best of all plans, nine times in ten", () => {
  const random = randomFrom(11);
  const upTo = (most: number): number => Math.floor(random() * (most + 1));
  let asGood = 0;
  const kitchens = 120;
  for (let k = 0; k < kitchens; k++) {
    const count = 2 + upTo(4);
    const tasks = Array.from({ length: count }, (_, task): Task => ({
      pool: upTo(1),
      durationMin: 5 + upTo(30),
      fromMin: upTo(20),
      after: task > 0 && random() < 0.5 ? [{ task: upTo(task - 1), waitMin: upTo(60) }] : [],
    }));
    const work: Work = {
      tasks,
      pools: [
        { units: 1 + upTo(1), hours: ALWAYS },
        { units: 1, hours: ALWAYS },
      ],
      changeMin: 0,
    };
    const dueMin = tasks.map(() => 20 + upTo(80));
    const cost = ({ endMin }: Scheduler): number => lateness(endMin, dueMin);
    const best = atOnce(improved(work, [byLatestStart(work, dueMin)], cost, 400, random));
    if (best.cost <= leastLateness(work, dueMin) + 1e-9) asGood += 1;
  }
  expect(asGood / kitchens).toBeGreaterThanOrEqual(0.9);
});
