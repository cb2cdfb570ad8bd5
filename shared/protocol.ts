import * as v from "valibot";
import { READING_RANGE } from "#shared/drying/air-record/readings.ts";
import { type BadField, line, moment, oneOf, within } from "./fields.ts";
import type { Advice } from "#shared/kitchen/advice/advice.ts";
import type { ActiveAlert } from "#shared/kitchen/model/alert.ts";
import type { Command } from "#shared/kitchen/model/command.ts";
import type { KitchenEvent } from "#shared/kitchen/model/event.ts";
import type { Forecasts } from "#shared/kitchen/model/forecast.ts";
import type { Refusal } from "#shared/kitchen/model/refusal.ts";
import type { ServerProblem } from "#shared/kitchen/model/server-problem.ts";
import type { Kitchen } from "#shared/kitchen/model/state.ts";
import type { Role } from "#shared/kitchen/model/vocabulary.ts";

/** Raised whenever what is sent or stored changes shape; a page that differs from its server is told to reload. */
export const PROTOCOL_VERSION = 3;

/** What a screen gives when it connects to `/live`. A page from before the version was asked for gives none. */
export interface LiveAuth {
  token: string;
  protocol: typeof PROTOCOL_VERSION;
}

/** Why a connection was turned away, where it was for its page's version. The error's `data`. */
export const OUTDATED = { reason: "protocol" } as const;

/** socket.io namespace of the live board. */
export const LIVE_NAMESPACE = "/live";

/** `POST /api/join`. `as` says what this screen is; a phone when absent. */
export const JoinRequest = v.object({
  code: line(20),
  name: line(40),
  as: v.optional(oneOf(["phone", "wall", "bench", "sensor"])),
});
export type JoinRequest = v.InferOutput<typeof JoinRequest>;
export interface JoinAnswer {
  token: string;
  deviceId: string;
  role: Role;
  personId: string;
}

/** `POST /api/readings`: a hygrometer's line; `place` is a place's id or its name. */
export const ReadingRequest = v.object({
  place: line(40),
  tempC: within(READING_RANGE.tempC),
  rhPct: within(READING_RANGE.rhPct),
  atMs: v.optional(moment),
});
export type ReadingRequest = v.InferOutput<typeof ReadingRequest>;

/** `GET /api/sensors`, for a lead: how the hygrometers' broker is doing. Times are kitchen time. */
export interface SensorsAnswer {
  connected: boolean;
  lastMessageAtMs?: number;
  /** Why it is not connected, or hears nothing. */
  error?: string;
  /** The newest message of each hygrometer, newest first. `match` is what a mapping to a place would name. */
  heard: readonly {
    topic: string;
    match: string;
    atMs: number;
    outcome: "taken" | "no such place" | "refused" | "waiting";
    result: string;
  }[];
}

/** `GET /api/advice?tray=NUMBER` or `?order=ID`: what would help, or why there is nothing to say. Kitchen time. */
export type AdviceAnswer = { atMs: number; advice: Advice } | { atMs: number; why: string };

/** The answer to a command, the same however often it is sent. */
export type CommandAnswer = { ok: true; seq: number } | RefusedAnswer;
/** Facts; over HTTP a `message` says them in words. `field`: of a malformed command, the first bad one. */
export type RefusedAnswer = { ok: false; field?: string } & Refusal;

/** The answer to something that is no command. */
export const malformed = (bad: BadField): RefusedAnswer => ({
  ok: false,
  reason: "malformed",
  field: bad.field,
  fact: { code: "bad-field", bad },
});

/** How the kitchen's clock runs: kitchen now = kitchenMs + (real now − realMs) × speed. Speed is 1 but in practice. */
export interface ClockFact {
  speed: number;
  realMs: number;
  kitchenMs: number;
}

/** Which phones can be heard from right now. */
export interface Presence {
  devices: readonly { deviceId: string; personId: string; role: Role; name: string; canAlert: boolean }[];
}

/** The whole board at one sequence number. Down the socket as `snapshot`; over HTTP as `/api/board`. */
export interface Snapshot {
  protocol: typeof PROTOCOL_VERSION;
  /** Changes when the log is another one: then nothing a screen holds can be kept. */
  epoch: string;
  seq: number;
  /** The log's running hash at `seq`: kept by a screen, and told in its hello. */
  hash: string;
  /** The log no longer holds what this screen's hello told of: it is an earlier copy that was put back, or another log. */
  isReplaced?: boolean;
  serverNowMs: number;
  clock: ClockFact;
  kitchen: Kitchen;
  forecasts: Forecasts;
  alerts: readonly ActiveAlert[];
  presence: Presence;
  practice: boolean;
  unsaved?: Change["unsaved"];
  problems?: Change["problems"];
}

/**
 * What happened since, at least every second (an empty one is the heartbeat). Apply when `fromSeq` and `fromHash` equal
 * what is held; a gap asks for a snapshot.
 */
export interface Change {
  epoch: string;
  fromSeq: number;
  fromHash: string;
  seq: number;
  hash: string;
  serverNowMs: number;
  events: readonly KitchenEvent[];
  forecasts?: ForecastPatch;
  presence?: Presence;
  /** Given only while the server cannot write its log: the alerts as they stand all the same, in place of the kitchen's. */
  unsaved?: readonly ActiveAlert[];
  /** What is wrong with the server now; absent where nothing is. */
  problems?: readonly ServerProblem[];
}

type Patch<Table> = { readonly [Key in keyof Table]?: Table[Key] | null };
/** Keys with null are gone. Of whole tables, every row that is not there is gone too. */
export interface ForecastPatch {
  atMs: number;
  isWhole?: boolean;
  films?: Patch<Forecasts["films"]>;
  trays?: Patch<Forecasts["trays"]>;
  orders?: Patch<Forecasts["orders"]>;
  places?: Patch<Forecasts["places"]>;
  change?: Forecasts["change"] | null;
}

/** Up: where the screen's replica stands (to be caught up; nothing asks for a snapshot), and whether it can be heard. */
export const Hello = v.object({
  epoch: v.optional(v.string()),
  seq: v.optional(v.number()),
  hash: v.optional(v.string()),
  canAlert: v.boolean(),
});
export type Hello = v.InferOutput<typeof Hello>;

/** socket.io's typed events. `clock` answers with the server's real receive and send times (RFC 5905 on-wire protocol). */
export interface DownEvents {
  snapshot: (snapshot: Snapshot) => void;
  change: (change: Change) => void;
}
export interface UpEvents {
  command: (command: Command, answer: (answer: CommandAnswer) => void) => void;
  hello: (hello: Hello) => void;
  clock: (answer: (times: { receivedMs: number; sentMs: number }) => void) => void;
}
