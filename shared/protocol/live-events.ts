import type { Command } from "#shared/kitchen/model/command.ts";
import type { CanAlert } from "./can-alert.ts";
import type { Change } from "./change.ts";
import type { ClockTimes } from "./clock.ts";
import type { CommandAnswer } from "./command.ts";
import type { Hello } from "./hello.ts";
import type { Snapshot } from "./snapshot.ts";

/** What the server sends on `/live`, by its name for socket.io. */
export interface DownEvents {
  snapshot: (snapshot: Snapshot) => void;
  change: (change: Change) => void;
}

/** What a screen sends. */
export interface UpEvents {
  hello: (hello: Hello) => void;
  canAlert: (canAlert: CanAlert) => void;
  command: (command: Command, answer: (answer: CommandAnswer) => void) => void;
  clock: (answer: (times: ClockTimes) => void) => void;
}
