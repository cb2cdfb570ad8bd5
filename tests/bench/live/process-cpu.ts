import { readdirSync, readFileSync } from "node:fs";

/** Processor time of a process so far, ms: all its threads, and its main thread alone. */
export interface Cpu {
  allMs: number;
  mainMs: number;
}

/** From Linux's scheduler, to the nanosecond. A thread that has ended meanwhile is not in it. */
export function cpuOf(pid: number): Cpu {
  const ofThread = (thread: string): number => {
    const [ns = "0"] = readFileSync(`/proc/${pid}/task/${thread}/schedstat`, "utf8").split(" ");
    return Number(ns) / 1e6;
  };
  const threads = readdirSync(`/proc/${pid}/task`);
  return {
    allMs: threads.reduce((sum, thread) => sum + ofThread(thread), 0),
    mainMs: ofThread(String(pid)),
  };
}

const OWN = `/proc/${process.pid}/task/${process.pid}/schedstat`;
/** How long this process's main thread has stood in line for a processor so far, ms; 0 where the system does not tell. */
function inLineMs(): number {
  try {
    return Number(readFileSync(OWN, "utf8").split(" ")[1]) / 1e6;
  } catch {
    return 0;
  }
}

/** How long an act holds the main thread, ms, less what others on the machine kept it waiting for a processor meanwhile. */
export function heldMs(act: () => void): number {
  const lineMs = inLineMs();
  const startMs = performance.now();
  act();
  const tookMs = performance.now() - startMs;
  return Math.max(0, tookMs - (inLineMs() - lineMs));
}
