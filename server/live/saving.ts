import type { Report } from "#server/words.ts";

/** Whether the log can be written, by the last attempt. */
export interface Saving {
  isOn: () => boolean;
  /** Why it cannot, while it cannot. */
  failedFor: () => unknown;
  can: () => void;
  cannot: (cause: unknown) => void;
}

/** Says so, and tells `onTurn`, whenever it turns. */
export function watchSaving(report: Report, onTurn: () => void): Saving {
  let isOn = true;
  let failedFor: unknown;
  function set(next: boolean, cause?: unknown): void {
    if (isOn === next) return;
    report(({ server: { log } }) => (next ? log.canWrite : log.cannotWrite), cause);
    isOn = next;
    onTurn();
  }
  return {
    isOn: () => isOn,
    failedFor: () => failedFor,
    can: () => set(true),
    cannot: (cause) => {
      failedFor = cause;
      set(false, cause);
    },
  };
}
