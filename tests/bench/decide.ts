import { PLAN_IN_TURN } from "#tests/support/plan-in-turn.ts";
import { decide, type Decision } from "#shared/kitchen/commands/decide.ts";
import { COMMAND_TABLE } from "#shared/kitchen/commands/table.ts";
import type { Command, CommandType } from "#shared/kitchen/model/command.ts";
import { createForecaster } from "#server/forecast/forecaster.ts";
import type { Forecasts } from "#shared/kitchen/model/forecast.ts";
import type { Kitchen } from "#shared/kitchen/model/state.ts";
import { bigBoard } from "../support/big-board.ts";
import { playEveryCommand } from "../support/golden-kitchen.ts";
import { Scene } from "../support/scene.ts";
import { said } from "../support/said.ts";

const TRAYS = 290;
const RUNS = 25;
const WARM_RUNS = 4;

/** What one command's `decide` takes, real ms: each of its occasions by the median of its runs, so that the machine's hiccups stay out. */
export interface CommandTime {
  type: CommandType;
  medianMs: number;
  /** Of its occasions, the slowest. */
  worstMs: number;
}

export interface DecideBench {
  trays: number;
  commands: readonly CommandTime[];
  /** The yardstick: the board's trays written out as JSON. */
  jsonMs: number;
}

/** Every command decided on a full, forecast kitchen, each time as on a state that was never asked about. */
export async function benchDecide(): Promise<DecideBench> {
  const full = bigBoard(TRAYS);
  const forecasts = await forecastsOf(full);
  const play = (): TimedScene => {
    const scene = new TimedScene(full, forecasts);
    playEveryCommand(scene);
    return scene;
  };
  // A server runs all day: what is measured is code that has run before.
  for (let warm = 0; warm < WARM_RUNS; warm += 1) play();
  const { took } = play();
  const commands = (Object.keys(COMMAND_TABLE) as CommandType[]).map((type) => {
    const times = took.get(type) ?? [];
    if (times.length === 0) throw new Error(`${type} was never decided`);
    return { type, medianMs: medianOf(times), worstMs: Math.max(...times) };
  });
  const written = Array.from({ length: RUNS }, () => timed(() => JSON.stringify(full.kitchen.trays)));
  return { trays: TRAYS, commands, jsonMs: medianOf(written) };
}

const medianOf = (times: readonly number[]): number =>
  times.toSorted((a, b) => a - b)[Math.floor(times.length / 2)]!;

/** A small scene whose commands are decided on the full kitchen too, and timed there. */
class TimedScene extends Scene {
  readonly took = new Map<CommandType, number[]>();
  readonly #full: Kitchen;
  readonly #forecasts: Forecasts;

  constructor({ kitchen, nowMs }: Scene, forecasts: Forecasts) {
    super();
    this.nowMs = nowMs;
    this.#full = kitchen;
    this.#forecasts = forecasts;
  }

  override send(command: Command): Decision {
    const { nowMs, by, role, lostPeople } = this;
    const times: number[] = [];
    for (let run = 0; run < RUNS; run += 1) {
      const kitchen = both(this.#full, this.kitchen);
      let decision: Decision | undefined;
      const context = { nowMs, by, role, forecasts: this.#forecasts, lostPeople };
      times.push(timed(() => (decision = decide(kitchen, command, context))));
      if (decision?.ok === false) throw new Error(`${command.type} refused: ${said(decision.refusal)}`);
    }
    this.took.set(command.type, [...(this.took.get(command.type) ?? []), medianOf(times)]);
    return super.send(command);
  }
}

/** The trays and readings of the full kitchen beside all of the small one, whose racks have room for them. */
function both(full: Kitchen, small: Kitchen): Kitchen {
  const crowd = Object.fromEntries(Object.entries(full.trays).filter(([, { number }]) => number >= 100));
  return {
    ...small,
    people: { ...full.people, ...small.people },
    designs: { ...full.designs, ...small.designs },
    icings: { ...full.icings, ...small.icings },
    orders: { ...full.orders, ...small.orders },
    trays: { ...crowd, ...small.trays },
    readings: { ...full.readings, ...small.readings },
    places: Object.fromEntries(
      Object.entries({ ...full.places, ...small.places }).map(([id, place]) => [
        id,
        place.kind === "rack" ? { ...place, capacity: 400 } : place,
      ]),
    ),
  };
}

async function forecastsOf(scene: Scene): Promise<Forecasts> {
  const forecaster = createForecaster({
    kitchen: () => scene.kitchen,
    nowMs: () => scene.nowMs,
    monotonicMs: () => performance.now(),
    publish: () => undefined,
    planner: PLAN_IN_TURN,
    defer: (act) => void setImmediate(act),
  });
  await forecaster.idle();
  forecaster.stop();
  return forecaster.current();
}

function timed(act: () => unknown): number {
  const startMs = performance.now();
  act();
  return performance.now() - startMs;
}
