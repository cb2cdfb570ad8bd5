import { type Accessor, createEffect, createMemo, createSignal, on, onCleanup } from "solid-js";
import type { Timer } from "#shared/client/sync/timer.ts";

/** A thumb that tapped twice does so within this time. */
const SECOND_TAP_MS = 700;

/**
 * Whether what is shown has stood long enough to be meant by a tap: false for a moment after it appears, and again whenever
 * `what` becomes another, so that the second tap of a thumb does not land on what came under it.
 */
export const createTapGuard = (timer: Timer, what: Accessor<unknown> = () => undefined): Accessor<boolean> =>
  settledFrom(false, timer, what);

/** The same of what may be meant as soon as it is opened: only where it becomes another does it take no tap for a moment. */
export const createChangeGuard = (timer: Timer, what: Accessor<unknown>): Accessor<boolean> =>
  settledFrom(true, timer, what);

function settledFrom(isAtOnce: boolean, timer: Timer, what: Accessor<unknown>): Accessor<boolean> {
  const [settled, setSettled] = createSignal(isAtOnce);
  createEffect(
    on(
      createMemo(what),
      () => {
        setSettled(false);
        onCleanup(timer.after(SECOND_TAP_MS, () => setSettled(true)));
      },
      { defer: isAtOnce },
    ),
  );
  return settled;
}
