/** A long piece of work, a short step at a time. A step gives what has to come before the next is worth taking, if anything has. */
export type Steps<Result> = Generator<Promise<unknown> | void, Result>;

/** Takes steps that wait for nothing to their end. */
export function atOnce<Result>(steps: Generator<unknown, Result>): Result {
  let step = steps.next();
  while (step.done !== true) step = steps.next();
  return step.value;
}
