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
