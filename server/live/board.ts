import type { Forecasts } from "#shared/kitchen/model/forecast.ts";
import type { Change } from "#shared/protocol/change.ts";
import type { Hello } from "#shared/protocol/hello.ts";
import type { Snapshot } from "#shared/protocol/snapshot.ts";
import { PROTOCOL_VERSION } from "#shared/protocol/version.ts";
import type { ServerProblem } from "#shared/kitchen/model/server-problem.ts";
import type { Clock } from "./clock.ts";
import type { KitchenService } from "./kitchen-service.ts";
import type { PresenceBook } from "./presence.ts";

export interface BoardDeps {
  service: KitchenService;
  forecasts: () => Forecasts;
  presence: PresenceBook;
  clock: Clock;
  isPractice: boolean;
  problems: () => readonly ServerProblem[];
}

/** What screens are sent, put together from the service, the forecasts and who is here. */
export interface Board {
  snapshot: () => Snapshot;
  /** What a snapshot is made of: while each part is the same, so is the snapshot, but for the time. */
  version: () => readonly unknown[];
  /** A change at the present sequence number: the heartbeat when nothing is given. */
  change: (what?: Partial<Change>) => Change;
  /** What brings a screen at this point of this log up to now, or undefined when only a snapshot can. */
  catchUp: (held: Pick<Hello, "epoch" | "seq" | "hash">) => Change | undefined;
}

export function createBoard({ service, forecasts, presence, clock, isPractice, problems }: BoardDeps): Board {
  const unsaved = (): Pick<Change, "unsaved"> => {
    const alerts = service.unsaved();
    return alerts === undefined ? {} : { unsaved: alerts };
  };
  const troubled = (): Pick<Change, "problems"> => {
    const now = problems();
    return now.length === 0 ? {} : { problems: now };
  };
  const change: Board["change"] = (what = {}) => ({
    epoch: service.epoch,
    fromSeq: service.seq(),
    fromHash: service.hash(),
    seq: service.seq(),
    hash: service.hash(),
    serverNowMs: clock.nowMs(),
    events: [],
    ...unsaved(),
    ...troubled(),
    ...what,
  });
  return {
    change,
    version: () => [
      service.epoch,
      service.seq(),
      service.kitchen(),
      forecasts(),
      JSON.stringify([presence.now(service.kitchen()), unsaved(), troubled()]),
    ],
    snapshot: () => ({
      protocol: PROTOCOL_VERSION,
      epoch: service.epoch,
      seq: service.seq(),
      hash: service.hash(),
      serverNowMs: clock.nowMs(),
      clock: clock.fact,
      kitchen: service.kitchen(),
      forecasts: forecasts(),
      alerts: service.unsaved() ?? Object.values(service.kitchen().alerts),
      ...unsaved(),
      ...troubled(),
      presence: presence.now(service.kitchen()),
      practice: isPractice,
    }),
    catchUp: ({ epoch, seq, hash }) => {
      if (epoch !== service.epoch || seq === undefined || hash === undefined) return undefined;
      const events = service.recentSince(seq, hash);
      if (events === undefined) return undefined;
      const now = forecasts();
      return change({
        fromSeq: seq,
        fromHash: hash,
        events,
        // Whole tables: what is gone meanwhile has no row to say so.
        // A server that has just started has worked out none: what the screen holds is better than nothing.
        ...(now.atMs > 0 && { forecasts: { ...now, change: now.change ?? null, isWhole: true } }),
        presence: presence.now(service.kitchen()),
      });
    },
  };
}
