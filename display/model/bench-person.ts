import { type Accessor, createMemo, createSignal, onCleanup } from "solid-js";
import { compareNames } from "#shared/collections.ts";
import type { Timer } from "#shared/client/sync/timer.ts";
import type { PersonId } from "#shared/ids.ts";
import { handsHere } from "#shared/kitchen/model/people.ts";
import type { Kitchen } from "#shared/kitchen/model/state.ts";
import type { Person } from "#shared/kitchen/model/vocabulary.ts";
import { MIN_MS } from "#shared/time.ts";

/** So long without a tap it is not known any more who stands at the bench. */
const IDLE_MS = 15 * MIN_MS;

/** Who taps at a bench screen: asked once, until another is chosen or nobody tapped for a while. */
export interface BenchPerson {
  people: Accessor<readonly Person[]>;
  is: Accessor<PersonId | undefined>;
  name: Accessor<string | undefined>;
  choose(id: PersonId): void;
  /** It is still them. */
  tapped(): void;
}

/** `me`: whom the bench itself acts as. A bench that joined under a person's name has nobody to ask for. */
export function createBenchPerson(kitchen: Accessor<Kitchen>, me: PersonId, timer: Timer): BenchPerson {
  const [chosen, setChosen] = createSignal<PersonId>();
  const people = createMemo(() =>
    kitchen().people[me]?.isBench === true ? handsHere(kitchen()).toSorted(compareNames) : [],
  );
  let cancel = (): void => undefined;
  onCleanup(() => cancel());
  function tapped(): void {
    cancel();
    cancel = timer.after(IDLE_MS, () => setChosen(undefined));
  }
  const person = createMemo(() => people().find(({ id }) => id === chosen()));
  return {
    people,
    is: () => person()?.id,
    name: () => person()?.name,
    choose(id) {
      setChosen(id);
      tapped();
    },
    tapped,
  };
}
