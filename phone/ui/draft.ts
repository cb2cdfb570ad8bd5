import { createStore, type SetStoreFunction, unwrap } from "solid-js/store";
import { mergeChanges } from "./merge.ts";

/** A thing as a form changes it. What was cleared is not there meanwhile: the form's fields keep it from being saved so. */
export interface Draft<Thing extends object> {
  draft: Partial<Thing>;
  set: SetStoreFunction<Partial<Thing>>;
  /** What was changed in it since `opened`, laid over the thing as it now stands; all of it where there is none. */
  changesOn: (stands: Thing | undefined) => Thing;
}

/** `first`: what it begins with, where that is not the thing as it is opened. */
export function createDraft<Thing extends object>(opened: Thing, first: Thing = opened): Draft<Thing> {
  const [draft, set] = createStore<Partial<Thing>>(copyOf(first));
  const written = (): Thing => copyOf(unwrap(draft)) as Thing;
  return {
    draft,
    set,
    changesOn: (stands) => (stands === undefined ? written() : mergeChanges(stands, opened, written())),
  };
}

/** Of what is sent as JSON. No part of it is in two places, as one that is cloned may be. */
const copyOf = <Value>(value: Value): Value => JSON.parse(JSON.stringify(value)) as Value;
