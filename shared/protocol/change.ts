import type { ActiveAlert } from "#shared/kitchen/model/alert.ts";
import type { KitchenEvent } from "#shared/kitchen/model/event.ts";
import type { Forecasts } from "#shared/kitchen/model/forecast.ts";
import type { ServerProblem } from "#shared/kitchen/model/server-problem.ts";
import type { Presence } from "./presence.ts";

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
