/** Why a command was refused: a closed list (SPEC K-rules), each with a sentence a decorator understands. */
export type RefusalReason =
  | "not-allowed"
  | "unknown"
  | "wrong-stage"
  /** May be sent again with `acceptRisk: true`: the message names the risk. */
  | "risk"
  | "no-room"
  | "taken"
  | "in-use"
  | "out-of-range"
  | "bad-time"
  | "out-of-service"
  | "too-late";

export interface Refusal {
  reason: RefusalReason;
  message: string;
}
