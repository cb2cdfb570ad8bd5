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
