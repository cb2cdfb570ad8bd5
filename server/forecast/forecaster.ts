import { MIN_MS } from "#shared/time.ts";
import { adviceSteps } from "#shared/kitchen/advice/advice.ts";
import type { Report } from "#server/words.ts";
import { learn, type Learned, learningSteps, type Lessons } from "#shared/drying/uncertainty/learning.ts";
import { teachingOf } from "#shared/kitchen/forecast/evidence.ts";
import { makeUpFor, type MakeUpStart, makeUpStartSteps } from "#shared/kitchen/orders/make-up.ts";
import type { Kitchen } from "#shared/kitchen/model/state.ts";
import type { Steps } from "#shared/steps.ts";
import type { ForecastPatch } from "#shared/protocol/change.ts";
import { type DayPlan, NO_PLAN } from "#shared/kitchen/plan/plan.ts";
import type { Timers } from "#server/live/clock.ts";
import { makeAirNews } from "./air-news.ts";
import { makeForecastCache } from "./forecast-cache.ts";
import type { Forecasting } from "./forecasting.ts";
import { makeKnownStays } from "./known-stays.ts";
import type { Planner } from "./planner.ts";
import { makeForecastTables } from "./tables.ts";
import { makeForecastTasks } from "./tasks.ts";
import { teachesTheSame } from "./teaches-the-same.ts";
import { makeToDo } from "./to-do.ts";
import { inSlices, runSlice, type Slicing } from "./slices.ts";

export interface ForecasterDeps extends Slicing {
  kitchen: () => Kitchen;
  /** The kitchen's clock. */
  nowMs: () => number;
  publish: (patch: ForecastPatch) => void;
  planner: Planner;
  /** Runs an act after so many real ms. Without it one plan follows the other. */
  after?: Timers["after"];
  /** A line for whoever looks after the server. */
  report?: Report;
}

/** Works the forecasts out in slices that leave the event loop free. */
export interface Forecaster extends Forecasting {
  /** What the kitchen has taught so far. */
  learned: () => Learned;
  plan: () => DayPlan;
}

/** Patches are gathered for this long, unless a touched tray waits for its own. */
const GATHER_MS = 200;
/**
 * Plans begin so far apart at least, and rest for twice as long as the last one took: taps that come without pause are learned from and
 * planned together.
 */
const PLANS_APART_MS = 800;
const PLAN_REST = 2;

/** Starts forecasting everything there is. */
export function createForecaster(deps: ForecasterDeps): Forecaster {
  const answers = makeForecastCache(() => [deps.kitchen(), learned, Math.floor(deps.nowMs() / MIN_MS)]);
  const tables = makeForecastTables();
  const news = makeAirNews();
  const stays = makeKnownStays();
  const todo = makeToDo({ kitchen: deps.kitchen, tables, stays });
  const { touched, routine, places, due } = todo;
  const waiting: (() => void)[] = [];
  /** What the forecasts go by; `lessons` are the newest learned from, which may have moved too little to tell. */
  let learned = learn([]);
  let lessons: Lessons = { evidence: [], learned };
  const tasks = makeForecastTasks({
    ...deps,
    learned: () => learned,
    solve: answers.solve,
    tables,
    news,
    stays,
  });
  let plan = NO_PLAN;
  let restUntilMs = -Infinity;
  let sentMs = deps.monotonicMs();
  let work: Steps<void> | undefined;
  let isQueued = false;
  let isStopped = false;

  function refresh(): void {
    answers.sweep();
    everything();
  }

  function everything(): void {
    todo.everything();
    start();
  }

  function start(): void {
    if (isStopped) return;
    work ??= steps();
    next();
  }

  /** Goes on in a later turn; what waits for a plan goes on as well, since trays may be done meanwhile. */
  function next(): void {
    if (isQueued) return;
    isQueued = true;
    deps.defer(slice);
  }

  function slice(): void {
    isQueued = false;
    if (isStopped || work === undefined) return;
    try {
      const step = runSlice(work, deps);
      if (step.done === true) work = undefined;
      else if (step.value instanceof Promise) {
        send();
        return void step.value.then(next);
      }
    } catch (error) {
      // What failed has left the queue already: the rest goes on without it.
      deps.report?.(({ server }) => server.log.forecastFailed, error);
      work = steps();
    }
    if (work !== undefined) return next();
    send();
    for (const resolve of waiting.splice(0)) resolve();
  }

  function send(): void {
    sentMs = deps.monotonicMs();
    const patch = tables.take(deps.nowMs());
    if (patch !== undefined) deps.publish(patch);
  }

  /** All there is to do, a step at a time. What is touched meanwhile comes next. */
  function* steps(): Steps<void> {
    for (;;) {
      const isHeld = isResting();
      const next = due.learning && !isHeld ? undefined : first(routine);
      const place = first(places);
      if (touched.size > 0) yield* touchedTrays();
      else if (next !== undefined) {
        routine.delete(next);
        yield* tasks.tray(next, false);
      } else if (due.learning && !isHeld) {
        due.learning = false;
        yield* learnAgain();
      } else if (place !== undefined) {
        places.delete(place);
        yield* tasks.place(place);
      } else if (isHeld && (due.plan || due.learning)) yield rest();
      else if (due.plan) {
        due.plan = false;
        yield* planAgain();
      } else if (due.news) {
        tables.putChange(news.after(deps.kitchen(), deps.nowMs(), due.reading));
        due.news = false;
        due.reading = false;
      } else return;
      if (deps.monotonicMs() - sentMs >= GATHER_MS) send();
      yield;
    }
  }

  function* touchedTrays(): Generator<void> {
    for (let next = first(touched); next !== undefined; next = first(touched)) {
      touched.delete(next);
      routine.delete(next);
      yield* tasks.tray(next, true);
      if (touched.size === 0) send();
      yield;
    }
  }

  const isResting = (): boolean => deps.after !== undefined && deps.monotonicMs() < restUntilMs;
  const rest = (): Promise<void> =>
    new Promise((resolve) => deps.after?.(Math.max(1, restUntilMs - deps.monotonicMs()), resolve));

  /** A plan takes a while: trays touched meanwhile have their forecasts first, and the next plan knows of them. */
  function* planAgain(): Steps<void> {
    const planning = tasks.plan();
    const startMs = deps.monotonicMs();
    for (let step = planning.next(); ; step = planning.next()) {
      if (step.done === true) {
        plan = step.value;
        const endMs = deps.monotonicMs();
        restUntilMs = Math.max(startMs + PLANS_APART_MS, endMs + PLAN_REST * (endMs - startMs));
        return;
      }
      if (touched.size > 0) yield* touchedTrays();
      yield step.value;
    }
  }

  /** Learns from the newest findings; forecasts move only if it changes them. */
  function* learnAgain(): Generator<void> {
    const kitchen = deps.kitchen();
    const evidence = teachingOf(kitchen);
    yield;
    const next = yield* learningSteps(evidence, lessons);
    lessons = { evidence, learned: next };
    if (teachesTheSame(kitchen, learned, next)) return;
    learned = next;
    news.forgetAll();
    everything();
  }

  const isIdle = (): boolean => work === undefined || isStopped;
  const idle = (): Promise<void> =>
    isIdle() ? Promise.resolve() : new Promise((resolve) => void waiting.push(resolve));

  /** Worked out once everything done so far is known. */
  const whenIdle = <Answer>(work: () => Promise<Answer>): Promise<Answer> =>
    isIdle() ? work() : idle().then(work);

  function makeUpStart(orderId: string): Promise<MakeUpStart | undefined> {
    const kitchen = deps.kitchen();
    const order = kitchen.orders[orderId];
    const makeUp = order && makeUpFor(kitchen, order);
    return makeUp === undefined
      ? Promise.resolve(undefined)
      : inSlices(makeUpStartSteps(kitchen, learned, order!, makeUp, deps.nowMs()), deps);
  }

  everything();
  return {
    current: tables.current,
    learned: () => learned,
    touch: (events) => {
      if (todo.touch(events)) start();
    },
    refresh,
    startOver: () => {
      due.learning = true;
      everything();
    },
    advise: (subject) =>
      whenIdle(() =>
        inSlices(
          adviceSteps(
            { kitchen: deps.kitchen(), forecasts: tables.current(), learned, nowMs: deps.nowMs() },
            subject,
            deps.planner.outlook,
          ),
          deps,
        ),
      ),
    makeUpStart: (orderId) => whenIdle(() => makeUpStart(orderId)),
    plan: () => plan,
    idle,
    stop: () => {
      isStopped = true;
      for (const resolve of waiting.splice(0)) resolve();
    },
  };
}

const first = (names: ReadonlySet<string>): string | undefined => names.values().next().value;
