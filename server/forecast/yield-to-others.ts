import { readlinkSync } from "node:fs";
import { setPriority } from "node:os";

/** How much others go before this thread where processors are short: 0 not at all, 19 the most. */
const NICENESS = 10;

/**
 * Lets the server's own thread, which answers taps and raises alarms, go before this one. Linux names each thread and takes a priority
 * for each; elsewhere, or where that is not allowed, all stay as they are.
 */
export function yieldToOthers(): void {
  try {
    const thread = /\d+$/.exec(readlinkSync("/proc/thread-self"))?.[0];
    if (thread !== undefined) setPriority(Number(thread), NICENESS);
  } catch {
    // Nothing is lost but a head start.
  }
}
