import { type Forecasts, NO_FORECASTS } from "#shared/kitchen/model/forecast.ts";
import type { Command } from "#shared/kitchen/model/command.ts";
import type { DecideContext, Decision } from "#shared/kitchen/commands/deciding.ts";
import { evolve } from "#shared/kitchen/events/evolve.ts";
import type { Kitchen } from "#shared/kitchen/model/state.ts";
import type { Change, ForecastPatch } from "#shared/protocol/change.ts";
import type { ClockFact } from "#shared/protocol/clock.ts";
import type { Presence } from "#shared/protocol/presence.ts";
import type { Snapshot } from "#shared/protocol/snapshot.ts";

/** What the server has said, up to one sequence number. Alerts that stand are in `kitchen.alerts`. */
export interface Confirmed {
  epoch: string;
  seq: number;
  /** The log's running hash at `seq`, as the server told it. */
  hash: string;
  clock: ClockFact;
  kitchen: Kitchen;
  forecasts: Forecasts;
  presence: Presence;
  practice: boolean;
  /** Alerts that the server could not write down; undefined while it can write. */
  unsaved?: Change["unsaved"];
  problems?: Change["problems"];
}

export function fromSnapshot(snapshot: Snapshot): Confirmed {
  const { epoch, seq, hash, clock, kitchen, forecasts, presence, practice, unsaved, problems } = snapshot;
  return { epoch, seq, hash, clock, kitchen, forecasts, presence, practice, unsaved, problems };
}

/** What became of a change: taken in; nothing new in it; something between was missed; or it makes no sense to this page. */
export type Taken =
  | { is: "taken"; confirmed: Confirmed }
  | { is: "known" }
  | { is: "gap" }
  | { is: "unreadable" };

/** Takes in a change that starts where the replica stands, in the same course of events. Never throws. */
export function applyChange(held: Confirmed, change: Change): Taken {
  const { epoch, seq, fromSeq, fromHash, hash, unsaved, problems } = change;
  if (epoch !== held.epoch) return { is: "gap" };
  if (seq < held.seq || (seq === held.seq && fromSeq !== held.seq)) return { is: "known" };
  if (fromSeq !== held.seq || fromHash !== held.hash) return { is: "gap" };
  try {
    const kitchen = change.events.reduce(evolve, held.kitchen);
    const forecasts = change.forecasts ? patched(held.forecasts, change.forecasts) : held.forecasts;
    const presence = change.presence ?? held.presence;
    return {
      is: "taken",
      confirmed: { ...held, seq, hash, kitchen, forecasts, presence, unsaved, problems },
    };
  } catch {
    // An event of a kind this page does not know.
    return { is: "unreadable" };
  }
}

/** Forecasts with a patch laid over them: null takes a key away. Whole tables replace them. */
export function patched(held: Forecasts, patch: ForecastPatch): Forecasts {
  const forecasts = patch.isWhole === true ? NO_FORECASTS : held;
  const change = patch.change === undefined ? forecasts.change : (patch.change ?? undefined);
  return {
    atMs: patch.atMs,
    films: patchedTable(forecasts.films, patch.films),
    trays: patchedTable(forecasts.trays, patch.trays),
    orders: patchedTable(forecasts.orders, patch.orders),
    places: patchedTable(forecasts.places, patch.places),
    ...(change === undefined ? {} : { change }),
  };
}

type Table<Row> = Readonly<Record<string, Row>>;
function patchedTable<Row>(table: Table<Row>, patch: Table<Row | null | undefined> | undefined): Table<Row> {
  if (patch === undefined) return table;
  const rows = Object.entries({ ...table, ...patch });
  return Object.fromEntries(rows.filter((entry): entry is [string, Row] => (entry[1] ?? null) !== null));
}

/** The confirmed kitchen, with the alerts as they stand though they could not be written down. */
export const kitchenOf = ({ kitchen, unsaved }: Pick<Confirmed, "kitchen" | "unsaved">): Kitchen =>
  unsaved === undefined
    ? kitchen
    : { ...kitchen, alerts: Object.fromEntries(unsaved.map((alert) => [alert.key, alert])) };

/**
 * The confirmed kitchen with what this screen did and the server has not confirmed replayed over it, in order. What `decide` cannot
 * decide here, or refuses, is not seen in it.
 */
export function optimisticState(
  confirmed: Confirmed,
  unconfirmed: readonly Command[],
  context: Omit<DecideContext, "forecasts">,
  decide: (kitchen: Kitchen, command: Command, context: DecideContext) => Decision | undefined,
): Kitchen {
  return unconfirmed.reduce((kitchen, command) => {
    if (isApplied(kitchen, command)) return kitchen;
    const outcome = decide(kitchen, command, { ...context, forecasts: confirmed.forecasts });
    return outcome?.ok === true ? outcome.value.reduce(evolve, kitchen) : kitchen;
  }, kitchenOf(confirmed));
}

/** Whether a tray's history has this command's act already (its answer was lost, or is still under way). */
function isApplied(kitchen: Kitchen, command: Command): boolean {
  if (!("trayId" in command)) return false;
  const history = kitchen.trays[command.trayId]?.history ?? [];
  return history.some((entry) => entry.act.actId === command.commandId);
}
