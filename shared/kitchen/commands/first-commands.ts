import { decideAlertSeen } from "./alert-seen.ts";
import { type CommandTable, noUndo, takeBack, team } from "./definition.ts";
import { decideTray } from "./tray.ts";

/** What hands do on a phone's first screen and on a tray's: these a phone decides before all others have been loaded. */
export const FIRST_COMMANDS = {
  "assign-tray": { senders: team, undo: takeBack, decide: decideTray },
  "start-flooding": { senders: team, undo: takeBack, decide: decideTray },
  flooded: { senders: team, undo: takeBack, decide: decideTray },
  "touch-test": { senders: team, undo: takeBack, decide: decideTray },
  "move-tray": { senders: team, undo: takeBack, decide: decideTray },
  "report-problem": { senders: team, undo: takeBack, decide: decideTray },
  pack: { senders: team, undo: takeBack, decide: decideTray },

  "acknowledge-alert": { senders: team, undo: noUndo, decide: decideAlertSeen },
  "put-off-alert": { senders: team, undo: noUndo, decide: decideAlertSeen },
} satisfies Partial<CommandTable>;
