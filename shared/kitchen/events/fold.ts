import type { KitchenEvent } from "#shared/kitchen/model/event.ts";
import type { Kitchen } from "#shared/kitchen/model/state.ts";
import { evolveWith } from "./evolve.ts";
import { type PutTray, putTray } from "./tables.ts";

/** A kitchen that takes in one event after another and is looked at once, at the end. */
export interface Fold {
  /** One that throws leaves the kitchen as it was. */
  add: (event: KitchenEvent) => void;
  /** As it stands; what is added from then on changes a copy. */
  kitchen: () => Kitchen;
}

/**
 * The same as `evolve`, event for event, for a long log: nobody sees the states between, so the table of trays is copied once
 * and written in place from then on, where `evolve` copies all trays to change one.
 */
export function foldFrom(start: Kitchen): Fold {
  let kitchen = start;
  /** Tables made here that nobody else has seen. */
  let own = new WeakSet<Kitchen["trays"]>();
  /** What the event under way wrote in place, so that it can be put back. */
  let undo: (() => void)[] = [];

  const putInPlace: PutTray = (trays, tray) => {
    const before = Object.hasOwn(trays, tray.id) ? trays[tray.id] : undefined;
    // A key that every object inherits cannot be written to in place.
    if (!own.has(trays) || (before === undefined && tray.id in trays)) {
      const copy = putTray(trays, tray);
      own.add(copy);
      return copy;
    }
    const table = trays as Record<string, typeof tray>;
    table[tray.id] = tray;
    undo.push(() => {
      if (before === undefined) delete table[tray.id];
      else table[tray.id] = before;
    });
    return trays;
  };

  return {
    add: (event) => {
      undo = [];
      try {
        kitchen = evolveWith(kitchen, event, putInPlace);
      } catch (error) {
        for (const put of undo.toReversed()) put();
        throw error;
      }
    },
    kitchen: () => {
      own = new WeakSet();
      return kitchen;
    },
  };
}
