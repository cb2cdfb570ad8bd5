/** How the kitchen's clock runs: kitchen now = kitchenMs + (real now − realMs) × speed. Speed is 1 but in practice. */
export interface ClockFact {
  speed: number;
  realMs: number;
  kitchenMs: number;
}

/** The answer to `clock`: the server's real receive and send times (RFC 5905 on-wire protocol). */
export interface ClockTimes {
  receivedMs: number;
  sentMs: number;
}
