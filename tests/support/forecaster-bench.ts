import { PLAN_IN_TURN } from "#tests/support/plan-in-turn.ts";
import { type Advice, type AdviceFor, adviceSteps } from "#shared/kitchen/advice/advice.ts";
import { inLog } from "#server/words.ts";
import { patched } from "#shared/client/sync/replica.ts";
import type { KitchenEvent } from "#shared/kitchen/model/event.ts";
import { type Forecasts, NO_FORECASTS } from "#shared/kitchen/model/forecast.ts";
import { createForecaster, type Forecaster } from "#server/forecast/forecaster.ts";
import type { ForecastPatch } from "#shared/protocol/change.ts";
import { atOnce } from "#shared/steps.ts";
import type { Scene } from "./scene.ts";

/** A forecaster driven by hand: each deferred slice waits to be run; every look at the real clock costs a millisecond. */
export class ForecasterBench {
  readonly deferred: (() => void)[] = [];
  readonly patches: ForecastPatch[] = [];
  /** What whoever looks after the server was told. */
  readonly reports: string[] = [];
  readonly scene: Scene;
  readonly forecaster: Forecaster;
  realMs = 0;
  /** What a screen holds that took in every patch. */
  seen: Forecasts = NO_FORECASTS;

  constructor(scene: Scene) {
    this.scene = scene;
    this.forecaster = createForecaster({
      kitchen: () => scene.kitchen,
      nowMs: () => scene.nowMs,
      defer: (act) => void this.deferred.push(act),
      monotonicMs: () => (this.realMs += 1),
      planner: PLAN_IN_TURN,
      report: (say) => void this.reports.push(inLog(say)),
      publish: (patch) => {
        this.patches.push(patch);
        this.seen = patched(this.seen, patch);
      },
    });
  }

  /** What would help, worked out at once. */
  advice(subject: AdviceFor, forecasts = this.forecaster.current()): Advice | undefined {
    const { kitchen, nowMs } = this.scene;
    const ground = { kitchen, forecasts, learned: this.forecaster.learned(), nowMs };
    return atOnce(adviceSteps(ground, subject, PLAN_IN_TURN.outlook));
  }

  /** Runs slices until none waits; returns how many. */
  settle(): number {
    let slices = 0;
    for (let slice = this.deferred.shift(); slice !== undefined; slice = this.deferred.shift()) {
      slice();
      slices += 1;
    }
    return slices;
  }

  /** Acts on the scene and tells the forecaster, as the service does after a commit. */
  act(type: Parameters<Scene["act"]>[0], fields: object): readonly KitchenEvent[] {
    const before = this.scene.events.length;
    this.scene.act(type, fields);
    const events = this.scene.events.slice(before);
    this.forecaster.touch(events);
    return events;
  }

  read(rhPct: number): void {
    this.act("enter-reading", { reading: { placeId: "rack-a", tempC: 22, rhPct, source: "typed" } });
  }
}
