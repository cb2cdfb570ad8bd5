import type { Consistency, HeatResult, ProblemKind, ToolKind, TouchFinding } from "./vocabulary.ts";
import type { LayerFact } from "./risk.ts";

/** An act of a tray's history with the names it needs, for words; absent names are of what is gone. */
export type ActFact =
  | { act: "tray-assigned"; to?: string; isToEveryone: boolean }
  | { act: "flooding-started" | "flooded"; layer: LayerFact; consistency: Consistency }
  | { act: "touch-tested"; layer: LayerFact; finding: TouchFinding }
  | { act: "tray-moved"; place?: string; slot?: string }
  | { act: "heat-set-started"; tool?: string; kind: ToolKind }
  | { act: "cookie-set" | "cookie-heat-started"; cookie?: number }
  | { act: "heat-set-ended"; result: HeatResult }
  | { act: "problem-reported"; count: number; problem: ProblemKind }
  | { act: "packed" };
