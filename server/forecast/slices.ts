import type { Steps } from "#shared/steps.ts";
import { asError } from "#server/error-message.ts";

/** What a long piece of work needs of its host to leave the event loop free. */
export interface Slicing {
  /** Runs an act in a later turn of the event loop (setImmediate). */
  defer: (act: () => void) => void;
  /** A real clock that only goes forward, to cut the work by. */
  monotonicMs: () => number;
}

/** A slice ends with the step that passes this. Steps take up to some ms. */
const SLICE_MS = 2;

/** Takes steps until the slice is over, the work is done or has to wait; the last step's result. */
export function runSlice<Result>(
  work: Steps<Result>,
  { monotonicMs }: Slicing,
): IteratorResult<Promise<unknown> | void, Result> {
  const startMs = monotonicMs();
  let step = work.next();
  while (step.done !== true && !(step.value instanceof Promise) && monotonicMs() - startMs < SLICE_MS)
    step = work.next();
  return step;
}

/** Does the work a slice at a time, the first in a later turn. */
export const inSlices = <Result>(work: Steps<Result>, slicing: Slicing): Promise<Result> =>
  new Promise((resolve, reject) => {
    const slice = (): void => {
      try {
        const step = runSlice(work, slicing);
        if (step.done === true) resolve(step.value);
        else if (step.value instanceof Promise) void step.value.then(slice, reject);
        else slicing.defer(slice);
      } catch (error) {
        reject(asError(error));
      }
    };
    slicing.defer(slice);
  });
