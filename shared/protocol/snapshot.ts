import type { ActiveAlert } from "#shared/kitchen/model/alert.ts";
import type { Forecasts } from "#shared/kitchen/model/forecast.ts";
import type { Kitchen } from "#shared/kitchen/model/state.ts";
import type { Change } from "./change.ts";
import type { ClockFact } from "./clock.ts";
import type { Presence } from "./presence.ts";
import type { PROTOCOL_VERSION } from "./version.ts";

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
