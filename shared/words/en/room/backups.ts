import type { BackupHolds, BackupProgress, BackupReason } from "#shared/kitchen/model/backup.ts";
import type { Formats, Plural } from "#shared/words/formats.ts";
import { fileSize } from "#shared/words/sizes.ts";

const EVENTS: Plural = { one: "event", other: "events" };
const TRAYS: Plural = { one: "tray", other: "trays" };

const REASONS: Readonly<Record<BackupReason, string>> = {
  nightly: "made at night",
  upgrade: "made before an upgrade",
  "by-hand": "taken by hand",
};

/** A lead's page about backups. */
export const backups = (format: Formats) => {
  const size = (bytes: number): string => fileSize(format, bytes);
  const holds = ({ events, trays }: BackupHolds): string =>
    `${format.count(events, EVENTS)}, ${format.count(trays, TRAYS)} on the board`;
  return {
    explained:
      "A backup is one file with everything in it: trays, orders, designs with their photos, people and history.",
    lastTitle: "Last good backup",
    none: "None yet",
    age: (min: number): string => (min < 1 ? "Just now" : `${format.span(min)} ago`),
    made: (when: string, reason: BackupReason): string => `${when}, ${REASONS[reason]}`,
    sizeOf: (bytes: number, held: BackupHolds | undefined): string =>
      held === undefined ? size(bytes) : `${size(bytes)}: ${holds(held)}`,
    labels: { made: "Made", size: "Size", file: "File", folder: "Folder", kept: "Kept" },
    kept: (count: number, depth: number): string =>
      `${format.number(count)}; the newest ${format.number(depth)} of each kind stay`,
    next: (when: string): string => `The next one is made by itself: ${when}.`,
    take: "Take a backup now",
    progress: ({ stage, part }: BackupProgress): string =>
      `${stage === "copying" ? "Copying" : "Looking the copy through"}: ${format.percent(Math.floor(part * 100))}`,
    done: "The backup was made and looked through.",
    onDataDisk:
      "They are on the same disk as the kitchen and are lost with it. Name a folder on another disk where the server runs: TRAYTIDE_BACKUPS.",
    putBack: "To put one back, stop the server and run there: npm run restore -- FILE",
    asking: "Asking the server…",
  };
};
