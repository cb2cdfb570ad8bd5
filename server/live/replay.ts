import * as v from "valibot";
import { EMPTY_KITCHEN } from "#shared/kitchen/events/empty-kitchen.ts";
import { foldFrom } from "#shared/kitchen/events/fold.ts";
import { changedTo } from "#shared/kitchen/model/active-alert.ts";
import { StoredAlert } from "#shared/kitchen/model/alert.ts";
import type { Kitchen } from "#shared/kitchen/model/state.ts";
import { errorMessage } from "#server/error-message.ts";
import type { EventLog, Recorded, SetAside } from "#server/log/event-log.ts";
import { EMPTY_LOG_HASH } from "#server/log/log-hash.ts";
import type { Report } from "#server/words.ts";
import { RECENT_MOST, type RecentEvents, recentEvents } from "./recent-events.ts";

/** A kitchen as its log tells it. */
export interface Opened {
  kitchen: Kitchen;
  seq: number;
  recent: RecentEvents;
  /** The moment of the newest event; 0 without one. */
  latestMs: number;
  savedSeq: number;
}

const REPLAY_PAGE = 1000;

/** Reads the newest whole snapshot, then every event after it; sets aside what cannot be read. */
export async function replay(log: EventLog, report: Report): Promise<Opened> {
  const { snapshot, damaged, unreadable } = await log.loadSnapshot();
  if (unreadable !== undefined) report(({ server }) => server.log.snapshotsUnreadable(unreadable));
  for (const seq of damaged) report(({ server }) => server.log.snapshotDamaged(seq));
  const savedSeq = snapshot?.seq ?? 0;
  // A snapshot made before a table was thought of lacks it.
  const saved: Kitchen = { ...EMPTY_KITCHEN, ...snapshot?.kitchen };
  // An earlier version let what is no alert stand among them, where a key was inherited by every object.
  const alerts = Object.entries(saved.alerts).flatMap(([key, alert]) =>
    v.is(StoredAlert, alert) ? [[key, changedTo(alert, alert)] as const] : [],
  );
  const fold = foldFrom({ ...saved, alerts: Object.fromEntries(alerts) });
  let recent: Recorded[] = [];
  const aside = async (record: SetAside): Promise<void> => {
    await log.setAside(record);
    report(({ server }) => server.log.eventSetAside(record.seq, record.type, record.reason));
  };
  // The last events before the snapshot are read too: they are what screens that were away a moment may lack.
  let seq = Math.max(0, savedSeq - RECENT_MOST);
  for (;;) {
    const page = await log.since(seq, REPLAY_PAGE);
    for (const record of page.setAside) await aside(record);
    for (const record of page.records) {
      if (record.seq <= savedSeq) continue;
      try {
        fold.add(record.event);
      } catch (error) {
        await aside({ seq: record.seq, type: record.event.type, reason: errorMessage(error) });
      }
    }
    recent = [...recent, ...page.records].slice(-RECENT_MOST);
    if (page.toSeq === seq) break;
    seq = page.toSeq;
  }
  // Only an unbroken run up to the latest can be counted back from.
  const whole = recent.filter((record, k) => record.seq === seq - (recent.length - 1 - k));
  const hashes = [(await log.hashAt(seq - whole.length)) ?? EMPTY_LOG_HASH, ...whole.map(({ hash }) => hash)];
  const events = whole.map(({ event }) => event);
  const latestMs = Math.max(0, ...events.map(({ atMs }) => atMs));
  return { kitchen: fold.kitchen(), seq, recent: recentEvents(events, hashes), latestMs, savedSeq };
}
