import type { AlertGroup } from "./alert-kinds.ts";

export type SaveTrouble =
  | "disk-full"
  | "read-only"
  | "folder-gone"
  | "database-away"
  | "database-read-only"
  | "unknown";

/** Why a backup could not be made. */
export type BackupTrouble =
  | "folder-missing"
  /** None of the backups made before are in the folder: its disk may be unplugged. */
  | "folder-lost-backups"
  | "disk-full"
  | "read-only"
  /** The copy is not whole: the kitchen's own database may be damaged. */
  | "damaged"
  | "unknown";

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
  | { code: "clock-behind"; byS: number }
  /** The last good backup was made so many hours ago; null where there is none. */
  | { code: "backup-old"; hours: number | null }
  | { code: "backup-failed"; why: BackupTrouble }
  /** Little room is left on a disk; megabytes, rounded. */
  | { code: "disk-low"; disk: "data" | "backups"; freeMb: number };

/** What can wait until a lead has time for it. No wall and no decorator is told: they could do nothing about it. */
const LEADS_ONLY: ReadonlySet<ServerProblem["code"]> = new Set(["backup-old", "backup-failed", "disk-low"]);

export const isForLeads = ({ code }: ServerProblem): boolean => LEADS_ONLY.has(code);
