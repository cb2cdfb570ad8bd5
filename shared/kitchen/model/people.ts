import { own } from "#shared/collections.ts";
import { heatHolder } from "./lookups.ts";
import type { Kitchen, ToolState, Tray } from "./state.ts";
import type { Person } from "./vocabulary.ts";

/** Everyone, wall, bench and sensor too, who was not removed. */
export const peopleHere = ({ people }: Pick<Kitchen, "people">): Person[] =>
  Object.values(people).filter(({ leftAtMs }) => leftAtMs === undefined);

/** Who has this id and was not removed. */
export function personHere({ people }: Pick<Kitchen, "people">, id: string): Person | undefined {
  const person = own(people, id);
  return person?.leftAtMs === undefined ? person : undefined;
}

/** Who is here under this name, whatever its case. */
export function personNamed(kitchen: Pick<Kitchen, "people">, name: string): Person | undefined {
  const wanted = name.toLowerCase();
  return peopleHere(kitchen).find((person) => person.name.toLowerCase() === wanted);
}

export const hasLeft = ({ people }: Pick<Kitchen, "people">, id: string): boolean =>
  own(people, id)?.leftAtMs !== undefined;

/** Everyone here to lay, heat and pack: leads and decorators, and no bench screen, which others tap. */
export const handsHere = (kitchen: Pick<Kitchen, "people">): Person[] =>
  peopleHere(kitchen).filter(
    ({ role, isBench }) => (role === "lead" || role === "decorator") && isBench !== true,
  );

export const leadsHere = (kitchen: Pick<Kitchen, "people">): Person[] =>
  peopleHere(kitchen).filter(({ role }) => role === "lead");

/** A tool that is on in this person's hands, where there is one. */
export const toolHeldBy = ({ tools }: Kitchen, personId: string): ToolState | undefined =>
  Object.values(tools).find(({ use }) => use.status === "on" && use.holder === personId);

/** A tray under heat that is in this person's hands, where there is one. */
export const trayHeatedBy = (kitchen: Kitchen, personId: string): Tray | undefined =>
  Object.values(kitchen.trays).find(
    ({ status }) => status.stage === "heat-set" && heatHolder(kitchen, status.heat) === personId,
  );

/** Those of whom nothing is known but that they joined: no tray, tool, icing or alert bears their name. */
export function peopleWithoutActs(kitchen: Kitchen): Person[] {
  const busy = new Set<string>();
  for (const { history, assignedTo } of Object.values(kitchen.trays)) {
    for (const { act, takenBack } of history) for (const by of [act.by, takenBack?.by]) if (by) busy.add(by);
    if (assignedTo) busy.add(assignedTo);
  }
  for (const { use, outOfService } of Object.values(kitchen.tools)) {
    for (const by of [use.status === "on" ? use.holder : use.by, outOfService?.by]) if (by) busy.add(by);
  }
  for (const { by } of Object.values(kitchen.batches)) busy.add(by);
  for (const { acknowledged } of Object.values(kitchen.alerts)) if (acknowledged) busy.add(acknowledged.by);
  for (const key of Object.keys(kitchen.cautionsRead)) busy.add(key.slice(0, key.lastIndexOf("/")));
  return handsHere(kitchen).filter(({ id, role }) => role !== "lead" && !busy.has(id));
}
