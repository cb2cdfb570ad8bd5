/** A long piece of work, a short step at a time. A step gives what has to come before the next is worth taking, if anything has. */
export type Steps<Result> = Generator<Promise<unknown> | void, Result>;
