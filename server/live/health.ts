import type { ServerProblem } from "#shared/kitchen/model/server-problem.ts";

/** A look at one thing that may be wrong; cheap, and asked every second. */
export type ProblemSource = () => ServerProblem | readonly ServerProblem[] | undefined;

/** Everything that is wrong with the server now, from whoever watches for it. */
export interface Health {
  watch: (source: ProblemSource) => void;
  problems: () => ServerProblem[];
}

export function createHealth(): Health {
  const sources: ProblemSource[] = [];
  return {
    watch: (source) => void sources.push(source),
    problems: () => sources.flatMap((source) => source() ?? []),
  };
}

/** Longer than this without a look for alarms, ms: it should be four times a second. */
const STOPPED_AFTER_MS = 2000;

/** Watches a loop that says `ran` each time round. */
export function watchLoop(monotonicMs: () => number): { ran: () => void; source: ProblemSource } {
  let ranMs = monotonicMs();
  return {
    ran: () => void (ranMs = monotonicMs()),
    source: () => (monotonicMs() - ranMs > STOPPED_AFTER_MS ? { code: "alerts-stopped" } : undefined),
  };
}
