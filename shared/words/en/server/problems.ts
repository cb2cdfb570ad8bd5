import { unreachable } from "#shared/outcome.ts";
import type { AlertGroup } from "#shared/kitchen/model/alert-kinds.ts";
import type { BackupTrouble, SaveTrouble, ServerProblem } from "#shared/kitchen/model/server-problem.ts";

const REMEDIES: Readonly<Record<SaveTrouble, string>> = {
  "disk-full": "Its disk is full: free some space on it.",
  "read-only": "Its data folder cannot be written: make it writable.",
  "folder-gone": "Its data folder was deleted or replaced: put it back and restart the server.",
  "database-away":
    "Its database cannot be reached: look at PostgreSQL and the network. It goes on by itself.",
  "database-read-only": "Its database can only be read: make it writable, or promote its standby.",
  unknown: "Look at its disk and restart it.",
};

const NO_BACKUP: Readonly<Record<BackupTrouble, string>> = {
  "folder-missing": "their folder is not there. Connect its disk, or make the folder.",
  "folder-lost-backups": "their folder holds none of those made before. Connect its disk.",
  "disk-full": "their disk is full. Free some space on it.",
  "read-only": "their folder cannot be written. Make it writable.",
  damaged: "the copy is not whole. Run npm run verify on the server.",
  unknown: "something failed. The server's log says what.",
};

const UNCHECKED: Readonly<Record<AlertGroup, string>> = {
  heat: "heat alarms: watch the tools yourselves",
  tools: "the tools' alarms: check by hand that each is off",
  films: "films for bubbles and sinking: watch them yourselves",
  icing: "how old icing is: look at its use-by",
  orders: "pick-ups: look through the orders yourselves",
  air: "the air: look at the hygrometers",
  people: "which phones wait to be let in: look in Room",
};

/** What keeps the server from its work, and what to do about it. */
export const problems = () => {
  /** What to do so that the server can save again. */
  const remedy = (why: SaveTrouble): string => REMEDIES[why];

  function say(problem: ServerProblem): string {
    switch (problem.code) {
      case "cannot-save":
        return `The server cannot save: nothing is acknowledged until it can. ${remedy(problem.why)}`;
      case "log-cut-short":
        return `The log ends at event ${problem.heldSeq}, though ${problem.knownSeq} were saved: the last are missing. Check the trays against the board, or stop the server and put a newer copy of its data folder back.`;
      case "alerts-stopped":
        return "Traytide has stopped checking for alarms: watch heat and tools yourselves, and restart the server.";
      case "rule-failed":
        return `Traytide cannot check ${UNCHECKED[problem.group]}.`;
      case "clock-jumped":
        return `The server's clock jumped ahead by ${span(problem.byS)}: check its time, and what was under heat.`;
      case "clock-behind":
        return `The server's clock is ${span(problem.byS)} behind the kitchen's time. Set it right.`;
      case "backup-old":
        return problem.hours === null
          ? "There is no backup of this kitchen yet."
          : `The last good backup is ${span(problem.hours * 3600)} old.`;
      case "backup-failed":
        return `No backup can be made: ${NO_BACKUP[problem.why]}`;
      case "disk-low":
        return `Only ${problem.freeMb} MB are free on ${problem.disk === "data" ? "the server's disk" : "the disk of the backups"}: free some space on it.`;
      default:
        return unreachable(problem);
    }
  }

  return { remedy, say };
};

function span(s: number): string {
  if (s < 120) return `${s} s`;
  return s < 7200 ? `${Math.round(s / 60)} min` : `${Math.round(s / 3600)} h`;
}
