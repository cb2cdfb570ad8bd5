import { MOST } from "#shared/limits.ts";
import type { CommandOf } from "#shared/kitchen/model/command.ts";
import { no, yes, type Deciding, type Decision } from "./deciding.ts";
import type { KitchenEvent } from "#shared/kitchen/model/event.ts";
import {
  leadsHere,
  peopleHere,
  personHere,
  personNamed,
  toolHeldBy,
  trayHeatedBy,
} from "#shared/kitchen/model/people.ts";
import type { Person } from "#shared/kitchen/model/vocabulary.ts";
import { aliveTrays } from "#shared/kitchen/model/lookups.ts";

/** Who is in the kitchen, and who leads it. */
export function addPerson({ person }: CommandOf<"add-person">, { kitchen, stamp }: Deciding): Decision {
  if (!Object.hasOwn(kitchen.people, person.id) && peopleHere(kitchen).length >= MOST.people)
    return no("no-room", { code: "table-full", thing: "person", most: MOST.people });
  // Two servers of one kitchen may be asked by the same name at the same moment.
  const namesake = personNamed(kitchen, person.name);
  if (namesake !== undefined && namesake.id !== person.id)
    return no("taken", { code: "person-name-taken", name: namesake.name });
  return yes({ type: "person-added", ...stamp, person });
}

export function setRole({ personId, role }: CommandOf<"set-role">, { kitchen, stamp }: Deciding): Decision {
  const person = personHere(kitchen, personId);
  if (person === undefined) return no("unknown", { code: "no-such", thing: "person", id: personId });
  const screen = screenOf(person);
  if (screen !== undefined) return no("not-allowed", { code: "not-a-person", name: person.name, is: screen });
  if (role !== "lead" && role !== "decorator") return no("not-allowed", { code: "role-not-given" });
  if (person.role === "lead" && role !== "lead" && leadsHere(kitchen).length === 1)
    return no("in-use", { code: "only-lead", name: person.name });
  return yes({ type: "role-changed", ...stamp, personId: person.id, role });
}

export function setHours(
  { personId, hours }: CommandOf<"set-hours">,
  { kitchen, stamp }: Deciding,
): Decision {
  const person = personHere(kitchen, personId);
  if (person === undefined) return no("unknown", { code: "no-such", thing: "person", id: personId });
  const screen = screenOf(person);
  if (screen !== undefined) return no("not-allowed", { code: "no-hours", name: person.name, is: screen });
  return yes({ type: "hours-set", ...stamp, personId: person.id, hours });
}

/** What is no person but a screen or a sensor. */
function screenOf({ role, isBench }: Person): "wall" | "sensor" | "bench" | undefined {
  if (role === "wall" || role === "sensor") return role;
  return isBench === true ? "bench" : undefined;
}

/** All of them or none. Trays that were given to them are everyone's again. */
export function removePeople(
  { personIds }: CommandOf<"remove-people">,
  { kitchen, stamp }: Deciding,
): Decision {
  const going = new Set<string>(personIds);
  const events: KitchenEvent[] = [];
  for (const personId of new Set(personIds)) {
    const person = personHere(kitchen, personId);
    if (person === undefined) return no("unknown", { code: "no-such", thing: "person", id: personId });
    const held = toolHeldBy(kitchen, personId);
    if (held !== undefined) return no("in-use", { code: "holds-tool", name: person.name, tool: held.name });
    const heated = trayHeatedBy(kitchen, personId);
    if (heated !== undefined)
      return no("in-use", { code: "heats-tray", name: person.name, tray: heated.number });
    events.push({ type: "person-removed", ...stamp, personId });
  }
  if (leadsHere(kitchen).every(({ id }) => going.has(id))) return no("in-use", { code: "last-lead" });
  for (const tray of aliveTrays(kitchen)) {
    if (typeof tray.assignedTo === "string" && going.has(tray.assignedTo))
      events.push({ type: "tray-assigned", ...stamp, trayId: tray.id, to: null });
  }
  return yes(...events);
}

/** What whoever works next should know. */
export const leaveNote = ({ text }: CommandOf<"leave-note">, { stamp }: Deciding): Decision =>
  yes({ type: "note-left", ...stamp, text });
