import { createEffect, createMemo, untrack } from "solid-js";
import type { Accessor } from "solid-js";
import { createSounder } from "#shared/client/screen/sounder.ts";
import type { ActiveAlert } from "#shared/kitchen/model/alert.ts";
import { forPerson, isShown } from "#shared/kitchen/alerts/shown.ts";
import { sayNumbers } from "#shared/words/tray-numbers.ts";
import { isOfHeat } from "#shared/kitchen/model/active-alert.ts";
import { laterThing } from "#phone/app/later.tsx";
import { useFirst } from "#phone/app/phone.tsx";

const RANK = { urgent: 0, prompt: 1, note: 2 } as const;
export const isSeen = ({ acknowledged }: ActiveAlert): boolean => acknowledged !== undefined;

/** Runs of tray numbers that keep to one line. */
const MOST_RUNS = 3;
/** Which trays alerts are about: "3–5, 9"; nothing where none is about a tray. */
export const trayRuns = (alerts: readonly ActiveAlert[]): string =>
  sayNumbers(
    alerts.flatMap(({ trayNumber }) => trayNumber ?? []),
    MOST_RUNS,
  );

/** What a phone warns of by itself: no heat begins on one before this is here. */
const offline = laterThing(async () => (await import("#shared/kitchen/alerts/offline.ts")).offlineAlerts);

/**
 * What is abnormal and for this person, the most urgent first; heard as well. Over a heat timer (`heatOf`: of which tray)
 * only what is urgent elsewhere, and other trays' heat: the timer itself says what is wrong with its own tray.
 */
export function createShownAlerts(heatOf: Accessor<number | undefined>): Accessor<ActiveAlert[]> {
  const { board, alarm } = useFirst();
  // Once anything is hot this waits for no quiet moment: the server may be gone in the next second.
  const isHeatOn = createMemo(() => {
    const { trays, tools } = board.kitchen();
    return (
      Object.values(tools).some(({ use }) => use.status === "on") ||
      Object.values(trays).some(({ status }) => status.stage === "heat-set")
    );
  });
  const isLive = createMemo(() => board.connection().is === "live");
  createEffect(() => {
    // Where it cannot be had, it is asked for again with the connection.
    if (isHeatOn() && isLive()) offline.load().catch(() => undefined);
  });
  // The server carries the alarms. When nothing is heard from it, this phone warns of its holder's heat by itself.
  const alerts = createMemo(() => {
    const offlineAlerts = isLive() ? undefined : offline.thing();
    return offlineAlerts === undefined
      ? Object.values(board.kitchen().alerts)
      : offlineAlerts(board.kitchen(), board.me.personId, board.nowMs());
  });
  const mine = createMemo(() =>
    alerts()
      .filter((alert) => forPerson(alert, board.me.personId, board.role()))
      .toSorted(
        (a, b) =>
          RANK[a.class] - RANK[b.class] ||
          Number(isSeen(a)) - Number(isSeen(b)) ||
          b.raisedAtMs - a.raisedAtMs,
      ),
  );
  const sounder = createSounder((kind) => alarm.play(kind));
  createEffect(() => {
    const [told, nowMs, speed] = [mine(), board.nowMs(), board.speed()];
    untrack(() => sounder(told, nowMs, speed));
  });
  return createMemo(() =>
    mine().filter((alert) => {
      const own = heatOf();
      if (!isShown(alert, board.nowMs())) return false;
      return own === undefined || ((alert.class === "urgent" || isOfHeat(alert)) && alert.trayNumber !== own);
    }),
  );
}
