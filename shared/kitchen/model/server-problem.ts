import { unreachable } from "#shared/outcome.ts";
import type { AlertGroup } from "./alert-kinds.ts";

export type SaveTrouble = "disk-full" | "read-only" | "folder-gone" | "unknown";

/** What keeps the server from doing all that it is relied on for. */
export type ServerProblem =
  | { code: "cannot-save"; why: SaveTrouble }
  /** The log ended sooner than it once did: the events after `heldSeq` are missing. */
  | { code: "log-cut-short"; heldSeq: number; knownSeq: number }
  /** No alarm was looked for these last seconds. */
  | { code: "alerts-stopped" }
  | { code: "rule-failed"; group: AlertGroup }
  /** The machine's clock jumped ahead just now; whole seconds. */
  | { code: "clock-jumped"; byS: number }
  /** The machine's clock was set back, or is wrong: the kitchen's time is this much ahead of it, whole seconds. */
  | { code: "clock-behind"; byS: number };

const SAVE_REMEDIES: Readonly<Record<SaveTrouble, string>> = {
  "disk-full": "Its disk is full: free some space on it.",
  "read-only": "Its data folder cannot be written: make it writable.",
  "folder-gone": "Its data folder was deleted or replaced: put it back and restart the server.",
  unknown: "Look at its disk and restart it.",
};

/** What to do so that the server can save again, in a sentence. */
export const saveRemedy = (problems: readonly ServerProblem[]): string =>
  SAVE_REMEDIES[problems.find((problem) => problem.code === "cannot-save")?.why ?? "unknown"];

const UNCHECKED: Readonly<Record<AlertGroup, string>> = {
  heat: "heat alarms: watch the tools yourselves",
  tools: "the tools' alarms: check by hand that each is off",
  films: "films for bubbles and sinking: watch them yourselves",
  icing: "how old icing is: look at its use-by",
  orders: "pick-ups: look through the orders yourselves",
  air: "the air: look at the hygrometers",
};

/** What is wrong and what to do, in a sentence. */
export function problemWords(problem: ServerProblem): string {
  switch (problem.code) {
    case "cannot-save":
      return `The server cannot save: nothing is acknowledged until it can. ${SAVE_REMEDIES[problem.why]}`;
    case "log-cut-short":
      return `The log ends at event ${problem.heldSeq}, though ${problem.knownSeq} were saved: the last are missing. Check the trays against the board, or stop the server and put a newer copy of its data folder back.`;
    case "alerts-stopped":
      return "Traytide has stopped checking for alarms: watch heat and tools yourselves, and restart the server.";
    case "rule-failed":
      return `Traytide cannot check ${UNCHECKED[problem.group]}.`;
    case "clock-jumped":
      return `The server's clock jumped ahead by ${spanWords(problem.byS)}: check its time, and what was under heat.`;
    case "clock-behind":
      return `The server's clock is ${spanWords(problem.byS)} behind the kitchen's time. Set it right.`;
    default:
      return unreachable(problem);
  }
}

function spanWords(s: number): string {
  if (s < 120) return `${s} s`;
  return s < 7200 ? `${Math.round(s / 60)} min` : `${Math.round(s / 3600)} h`;
}
