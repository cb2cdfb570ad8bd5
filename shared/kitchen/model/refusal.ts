import type { DrawingFault } from "#shared/drawing/drawing-fault.ts";
import type { PlaceKind, Role, ToolKind } from "./vocabulary.ts";
import type { ActFact } from "./act-fact.ts";
import type { LayerFact, RiskFact } from "./risk.ts";
import type { BadField, Must } from "#shared/fields.ts";

/** Why a command was refused: a closed list. */
export type RefusalReason =
  | "not-allowed"
  | "unknown"
  | "wrong-stage"
  /** May be sent again with `acceptRisk: true`. */
  | "risk"
  | "no-room"
  | "taken"
  | "in-use"
  | "out-of-range"
  | "bad-time"
  | "out-of-service"
  | "too-late"
  | "malformed";

/** A refusal holds facts; `shared/words` makes the sentence where it is shown. */
export interface Refusal {
  reason: RefusalReason;
  fact: RefusalFact;
}

export type Thing = "tray" | "tool" | "place" | "icing" | "recipe" | "design" | "order" | "person";
export type Table = Exclude<Thing, "tray" | "person">;

/** Why no tray may come under a tool's heat. */
export type UnfitFact =
  | { why: "out of service"; tool: string; note: string }
  | { why: "read too hot"; tool: string; readC: number; maxC: number }
  | { why: "in use"; tool: string; tray: number }
  | { why: "full"; place: string; capacity: number }
  | { why: "gone" }
  | { why: "another kind"; tool: string };

/** What is wrong, with names as they were typed, moments in ms since 1970 and trays by their number. */
export type RefusalFact =
  /** Of an answer that was stored as a sentence, before answers were facts. */
  | { code: "said"; text: string }
  | { code: "no-such"; thing: Thing; id: string }
  | { code: "must-name"; field: string; thing: Table }
  | { code: "must-name-chamber"; field: string; kind: Exclude<ToolKind, "hot-air"> }
  | { code: "must-name-place-not-oven" | "must-name-other-place"; field: string }
  | { code: "field"; field: string; must: Must }
  /** A command that is none: its first bad field. */
  | { code: "bad-field"; bad: BadField }
  | { code: "no-place-named"; field: string; named: string }
  | { code: "server-failed" | "answer-unreadable" | "not-saved" }
  | { code: "bad-drawing"; field: string; fault: DrawingFault }
  | { code: "name-taken"; thing: Table; name: string }
  | { code: "table-full"; thing: Table | "tray" | "batch" | "person"; most: number }
  | { code: "place-full"; place: string; capacity: number }
  | { code: "unfit"; unfit: UnfitFact }
  // Who may.
  | {
      code:
        | "kitchen-only"
        | "sensor-only-reads"
        | "wall-only-shows"
        | "leads-only"
        | "give-is-leads"
        | "removed"
        | "not-for-others";
    }
  | { code: "needs-hands"; what: "tool" | "heat-set" }
  | { code: "wrong-source"; source: "typed" | "sensor"; role: Role | "kitchen" }
  | { code: "no-hours"; name: string; is: "wall" | "sensor" | "bench" }
  | { code: "not-a-person"; name: string; is: "wall" | "sensor" | "bench" }
  | { code: "role-not-given" }
  | { code: "only-lead"; name: string }
  | { code: "person-name-taken"; name: string }
  | { code: "no-such-device"; id: string }
  | { code: "too-many-wait"; most: number }
  | { code: "device-is-in" | "own-device" }
  | { code: "last-lead" }
  | { code: "holds-tool"; name: string; tool: string }
  | { code: "heats-tray"; name: string; tray: number }
  | { code: "no-hands"; name: string; tool: string }
  | { code: "not-yours"; name?: string }
  // When.
  | { code: "in-future" | "too-far-back" | "id-used" }
  | { code: "before"; what: BeforeWhat; fromMs: number; tray?: number }
  | { code: "lap-too-short" }
  | { code: "set-too-soon"; leastS: number }
  | { code: "tool-used-since"; tool: string }
  | { code: "pick-up-past" | "use-by-range" | "mixed-too-long-ago" }
  // A tray's way.
  | {
      code: "tray-packed" | "under-heat" | "not-under-heat" | "heat-running" | "nothing-to-set";
      tray: number;
    }
  | { code: "all-layers-laid" | "flooding-already" | "still-flooding" | "stands-there"; tray: number }
  | { code: "has-icing" | "number-taken" | "order-gone" | "place-gone" | "no-such-act"; tray: number }
  | { code: "still-needs"; tray: number; layer: LayerFact }
  | { code: "nothing-drying"; tray: number; layer?: number }
  | { code: "is-oven" | "is-oven-add" | "is-cabinet-add"; place: string }
  | { code: "holds-fewer"; field: "count" | "spoiled"; tray: number; count: number }
  | { code: "holds-fewer-good"; tray: number; count: number }
  /** `next`: the layer to be laid. */
  | { code: "risk"; risk: RiskFact; next?: number }
  | { code: "owner-left"; name: string; tray: number }
  | { code: "no-next-cookie" }
  | { code: "heat-paused" }
  | { code: "heat-on-already" }
  | { code: "all-had-heat"; tray: number; count: number }
  // Taking back.
  | { code: "taken-back" }
  | { code: "heat-ended-long-ago"; minutes: number }
  | { code: "heat-started-long-ago"; seconds: number; isRunning: boolean }
  | { code: "cookie-set-long-ago"; seconds: number }
  | { code: "tool-cold"; unfit: UnfitFact }
  | { code: "take-back-first"; act: ActFact; atMs: number }
  // Alerts.
  | { code: "alert-cleared" | "alert-seen" | "alert-urgent" | "alert-of-heat" }
  // Tools.
  | { code: "tool-on" | "tool-not-on" | "tool-in-service" | "turn-off-first"; tool: string }
  | { code: "over-tray"; tool: string; tray: number; first: "stop" | "end" }
  | { code: "not-on-to-hand-over"; tool: string }
  | { code: "holds-already"; name: string; tool: string }
  | { code: "still-hot"; tool: string; untilMs: number }
  | { code: "read-too-high"; tool: string; most: number; tempC: number }
  // Set-up.
  | { code: "place-holds"; place: string; trays: number[] }
  | { code: "place-has-tool"; place: string; tool: string }
  | { code: "place-fixed"; field: "kind" | "setTempC" | "airSpeedMs"; tool: string; tray: number }
  | { code: "place-kind-fixed"; kind: PlaceKind; tool: string }
  | { code: "set-temp-missing"; place: string }
  | { code: "set-temp-over-tool"; tool: string; maxC: number }
  | { code: "set-temp-not-here"; kind: PlaceKind }
  | { code: "limit-under-air"; tool: string; airC: number; maxC: number }
  | { code: "iced-with"; design: string; icing: string }
  | { code: "stands-mixed"; icing: string }
  | { code: "made-by"; recipe: string; icing: string }
  | { code: "design-earlier"; design: string }
  /** A layer covers what its design's drawing does not have. */
  | { code: "not-drawn"; field: string; of: "areas" | "lines" }
  | { code: "design-on-trays"; design: string; trays: number[] }
  | { code: "order-not-here" }
  | { code: "order-has-trays"; order: string; trays: number[] }
  | { code: "gives-itself"; order: string }
  | { code: "has-fewer-over"; order: string; count: number }
  | { code: "order-packed"; order: string; cookies: number }
  | { code: "tray-id-taken"; field: string }
  | { code: "tray-number-in-use"; tray: number }
  | { code: "batch-gone" | "batch-recorded" };

/** What an act of that moment would come before. */
export type BeforeWhat = "flooding" | "laid" | "drying" | "placed" | "heat-set" | "icing laid";
