import { SETTINGS } from "#shared/kitchen/model/settings.ts";
import { aliveTrays } from "#shared/kitchen/model/lookups.ts";
import type { Kitchen, ToolState } from "#shared/kitchen/model/state.ts";
import { crewOf, type Crew, unitOf } from "./crew.ts";
import { longestSpellMin, openHours } from "./hours.ts";
import type { SetsBy } from "./plan-work.ts";
import { ALWAYS, type Pool, type Task, type Work, type WorkHours } from "#shared/scheduling/work.ts";

/** Pools: hands first, ovens and cabinets from `FIRST_CHAMBER` on. */
export const HANDS = 0;
/** Acts begun before closing that go on after it. */
const LATE_HANDS = 1;
export const HOT_AIR = 2;
const FIRST_CHAMBER = 3;
/** Minutes drawn may be longer than likely: a task that only just fits an opening is one that may go on over closing. */
const FITS_SHARE = 0.5;

/** What the kitchen's work is done with: hands and their hours, hot air, chambers. */
export class Resources {
  readonly crew: Crew;
  readonly hours: WorkHours;
  readonly #kitchen: Kitchen;
  readonly #hotAir: readonly ToolState[];
  readonly #ovens: readonly ToolState[];
  /** Places of chambers, by pool from `FIRST_CHAMBER` on. */
  readonly #chambers: readonly string[];
  /** Acts under way in hands that stay late. */
  #late = 0;

  constructor(kitchen: Kitchen, nowMs: number) {
    this.#kitchen = kitchen;
    this.hours = openHours(kitchen.settings, nowMs);
    this.crew = crewOf(kitchen, this.hours, nowMs);
    const busy = new Set(
      aliveTrays(kitchen).flatMap(({ status }) =>
        status.stage === "heat-set" ? [status.heat.toolId as string] : [],
      ),
    );
    const usable = Object.values(kitchen.tools).filter(
      ({ id, outOfService }) => outOfService === undefined || busy.has(id),
    );
    this.#hotAir = usable.filter(({ kind }) => kind === "hot-air");
    this.#ovens = usable.filter(({ kind, placeId }) => kind === "oven" && placeId !== undefined);
    this.#chambers = [
      ...new Set(usable.flatMap(({ kind, placeId }) => (kind === "hot-air" ? [] : (placeId ?? [])))),
    ];
  }

  /** What there is to set a layer with, as wanted where there is that; else hot air before an oven. */
  setsBy(wanted: SetsBy | undefined): SetsBy | undefined {
    const has = { "hot-air": this.#hotAir.length > 0, oven: this.#ovens.length > 0 };
    return [wanted ?? "hot-air", "hot-air" as const, "oven" as const].find((kind) => has[kind]);
  }

  /** The oven that holds most. */
  inOven(): { pool: number; placeId: string } {
    const room = ({ placeId }: ToolState): number => this.#kitchen.places[placeId ?? ""]?.capacity ?? 0;
    const oven = this.#ovens.toSorted((a, b) => room(b) - room(a))[0]!;
    const placeId = oven.placeId!;
    return { pool: FIRST_CHAMBER + this.#chambers.indexOf(placeId), placeId };
  }

  /** The chamber that this tool heats; undefined of one in nobody's place. */
  chamberOf(toolId: string): number | undefined {
    const chamber = this.#chambers.indexOf(this.#kitchen.tools[toolId]?.placeId ?? "");
    return chamber < 0 ? undefined : FIRST_CHAMBER + chamber;
  }

  /** Whether so much work of hands may go on over closing, since it does not surely fit into any one spell. */
  isLong(durationMin: number, unit: number | undefined): boolean {
    return durationMin > FITS_SHARE * this.#longestMin(unit);
  }

  /** How much of such a layer is done before closing, or it is not begun: a cookie, and never too little to be told to the minute. */
  leastMin(cookieMin: number, unit: number | undefined): number {
    return Math.min(Math.max(cookieMin, 1), FITS_SHARE * this.#longestMin(unit));
  }

  #longestMin(unit: number | undefined): number {
    const own = unit === undefined ? this.crew : [this.crew[unit]!];
    return Math.max(...own.map(({ hours }) => longestSpellMin(hours ?? this.hours)));
  }

  /** In the hands it began in, if these work for as long; else in hands that stay late. */
  underWay(by: string | undefined, durationMin: number): Pick<Task, "pool" | "unit" | "isUnderWay"> {
    const unit = unitOf(this.crew, by);
    const { fromMin, toMin } = this.crew[unit ?? -1]?.hours ?? this.hours;
    const isAtWork = fromMin[0]! <= 0 && toMin[0]! > durationMin * (1 + FITS_SHARE);
    if (isAtWork) return { pool: HANDS, isUnderWay: true, ...(unit === undefined ? {} : { unit }) };
    return this.#staysLate();
  }

  /** In its chamber, if that is open for as long; else in hands that stay late to take it out. */
  underHeat(chamber: number, durationMin: number): Pick<Task, "pool" | "isUnderWay"> {
    const { fromMin, toMin } = this.hours;
    const isOpen = fromMin[0]! <= 0 && toMin[0]! > durationMin;
    return isOpen ? { pool: chamber, isUnderWay: true } : this.#staysLate();
  }

  #staysLate(): Pick<Task, "pool" | "isUnderWay"> {
    this.#late += 1;
    return { pool: LATE_HANDS, isUnderWay: true };
  }

  work(): Pick<Work, "pools" | "changeMin"> {
    const { places, settings } = this.#kitchen;
    const unitHours = this.crew.map(({ hours }) => hours);
    const pools: Pool[] = [
      {
        units: this.crew.length,
        hours: this.hours,
        ...(unitHours.some((hours) => hours !== undefined) && { unitHours }),
      },
      { units: Math.max(1, this.#late), hours: ALWAYS },
      { units: Math.max(1, this.#hotAir.length), hours: ALWAYS },
      ...this.#chambers.map((placeId) => ({
        units: Math.max(1, places[placeId]?.capacity ?? 1),
        hours: this.hours,
      })),
    ];
    return { pools, changeMin: settings.icingChangeMin ?? SETTINGS.icingChangeMin.usual };
  }
}
