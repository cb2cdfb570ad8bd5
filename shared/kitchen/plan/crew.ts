import { aliveTrays, heatHolder, inHandOf } from "#shared/kitchen/model/lookups.ts";
import type { Kitchen, Tray } from "#shared/kitchen/model/state.ts";
import { handsHere } from "#shared/kitchen/model/people.ts";
import type { PersonId } from "#shared/ids.ts";
import { commonHours, isEverAtWork, openHours } from "./hours.ts";
import type { WorkHours } from "#shared/scheduling/work.ts";

/** A pair of hands: whose, where that is known, and when they work, where that is not all opening hours. */
export interface Hands {
  id?: PersonId;
  hours?: WorkHours;
}
export type Crew = readonly Hands[];

/**
 * As many pairs of hands as a lead said, else everyone who joined and works at all; where there is nobody, one pair. Those who were
 * given a tray or have one in hand are surely among them, and come last: what anyone may do is done by the others first. Of fewer
 * hands than people it is not known who else works.
 */
export function crewOf(kitchen: Kitchen, opening: WorkHours, nowMs: number): Crew {
  const here = handsHere(kitchen).flatMap(({ id, hours: week }): Hands[] => {
    if (week === undefined) return [{ id }];
    if (week.every((day) => day === null)) return [];
    const own = openHours({ timeZone: kitchen.settings.timeZone, opening: week }, nowMs);
    const hours = commonHours(opening, own);
    return isEverAtWork(hours) ? [{ id, hours }] : [];
  });
  const bound = new Set<string | undefined>(
    aliveTrays(kitchen).flatMap((tray) => [
      givenTo(tray),
      inHandOf(tray)?.by,
      tray.status.stage === "heat-set" ? heatHolder(kitchen, tray.status.heat) : undefined,
    ]),
  );
  const isBound = ({ id }: Hands): boolean => id !== undefined && bound.has(id);
  const surely = here.filter(isBound);
  const hands = Math.max(1, kitchen.settings.hands ?? here.length, surely.length);
  const others = here.length <= hands ? here.filter((one) => !isBound(one)) : [];
  return [...Array.from({ length: hands - surely.length }, (_, unit) => others[unit] ?? {}), ...surely];
}

/** Whom a tray was given to, and nobody else took it up since; whoever laid a layer is not bound to lay the next. */
export function givenTo({ history, assignedTo }: Tray): PersonId | undefined {
  const last = history.findLast(
    ({ act, takenBack }) => act.type === "tray-assigned" && takenBack === undefined,
  );
  const to = last?.act.type === "tray-assigned" ? last.act.to : null;
  return to !== null && to === assignedTo ? to : undefined;
}

/** A person's own pair of hands; undefined for anyone else's. */
export function unitOf(crew: Crew, personId: string | null | undefined): number | undefined {
  const unit = crew.findIndex(({ id }) => id !== undefined && id === personId);
  return unit < 0 ? undefined : unit;
}
