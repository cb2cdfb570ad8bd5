import { dryingPlaceOf } from "#shared/kitchen/model/lookups.ts";
import type { Tray } from "#shared/kitchen/model/state.ts";
import type { Layer } from "#shared/kitchen/model/vocabulary.ts";
import { givenTo, unitOf } from "./crew.ts";
import { likelyMin, type PlanFilm } from "./plan-films.ts";
import type { FilmWait } from "./plan-films.ts";
import type { PlanTask } from "./plan-work.ts";
import { HANDS, type Resources } from "./resources.ts";

/** The plan's tasks and films as they are put together, tray by tray. */
export class TaskList {
  readonly tasks: PlanTask[] = [];
  readonly films: PlanFilm[] = [];
  readonly #icings = new Map<string, number>();
  readonly #resources: Resources;

  constructor(resources: Resources) {
    this.#resources = resources;
  }

  /** The needs of a task: of films laid already, and of layers that a task before it lays or sets. */
  waits(
    needs: readonly { layer: number; need: FilmWait["need"] }[],
    firstFilm: number,
    laidBy: ReadonlyMap<number, number>,
    setBy: ReadonlyMap<number, number>,
    before: number | undefined,
  ): Pick<PlanTask, "after" | "waits"> {
    const after: PlanTask["after"] = before === undefined ? [] : [{ task: before, waitMin: 0 }];
    const waits: FilmWait[] = [];
    for (const { layer, need } of needs) {
      if (need === "wet") continue;
      const ends = { film: firstFilm + layer, need };
      const set = need === "skin" ? setBy.get(layer) : undefined;
      const task = set ?? laidBy.get(layer);
      if (task === undefined) waits.push(ends);
      else if (set === undefined)
        after.push({ task, waitMin: likelyMin(this.films[ends.film]!, need), ends });
      else if (set !== before) after.push({ task, waitMin: 0 });
    }
    return { after, waits };
  }

  /** Another task; its number. */
  put(tray: Tray, task: Partial<PlanTask> & Pick<PlanTask, "act" | "durationMin">): number {
    const placeId = task.placeId ?? dryingPlaceOf(tray).placeId;
    const pool = task.pool ?? HANDS;
    const waits = task.waits ?? [];
    const fromMin = waits.reduce((most, { film, need }) => {
      const { clockMin = 0 } = this.films[film]!;
      return Math.max(most, clockMin + likelyMin(this.films[film]!, need));
    }, 0);
    const unit = pool === HANDS ? (task.unit ?? unitOf(this.#resources.crew, givenTo(tray))) : undefined;
    const isLong = pool === HANDS && this.#resources.isLong(task.durationMin, unit);
    this.tasks.push({
      heatMin: 0,
      begunMin: 0,
      ...task,
      trayId: tray.id,
      placeId,
      pool,
      fromMin,
      waits,
      after: task.after ?? [],
      ...(unit === undefined ? {} : { unit }),
      ...(isLong ? { isDivisible: true } : {}),
      ...(isLong && task.act === "lay"
        ? { leastMin: this.#resources.leastMin(task.durationMin / tray.count, unit) }
        : {}),
    });
    return this.tasks.length - 1;
  }

  /** A number for an icing in a consistency: hands that go on with another take time to change. */
  icingOf({ icingId, consistency }: Layer): number {
    const key = `${icingId} ${consistency}`;
    const known = this.#icings.get(key) ?? this.#icings.size;
    this.#icings.set(key, known);
    return known;
  }
}
