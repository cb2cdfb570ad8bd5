import type { PersonId } from "#shared/ids.ts";
import { forScreen } from "#shared/kitchen/alerts/shown.ts";
import type { ActiveAlert } from "#shared/kitchen/model/alert.ts";
import { definitionOf } from "#shared/kitchen/model/alert-kinds.ts";
import type { Kitchen } from "#shared/kitchen/model/state.ts";
import { wordAlert } from "#shared/words/alert-text.ts";
import { sayNumbers } from "#shared/words/tray-numbers.ts";
import type { Words } from "#shared/words/words.ts";

/** An alert at the top of the wall. */
export interface WallAlert {
  key: string;
  class: ActiveAlert["class"];
  trayId: string | undefined;
  trayNumber: number | undefined;
  /** What to do, in a few words. */
  head: string;
  /** Who, where, and what is the matter. */
  body: string;
  countFromMs: number;
  acknowledgedBy: string | undefined;
}

/**
 * Alerts for the top of the wall: urgent first, of these what nobody has acknowledged, then by how long they have been
 * active; of a warm cabinet, which overheats nothing, last of these. A bench (`me`) has those of whoever taps there as well.
 */
export function wallAlerts(words: Words, kitchen: Kitchen, me?: PersonId): WallAlert[] {
  return Object.values(kitchen.alerts)
    .filter((alert) => forScreen(alert, me) && definitionOf(alert.kind).isElsewhereOnWall !== true)
    .toSorted(
      (a, b) =>
        Number(a.class !== "urgent") - Number(b.class !== "urgent") ||
        Number(a.acknowledged !== undefined) - Number(b.acknowledged !== undefined) ||
        Number(isOfCabinet(a)) - Number(isOfCabinet(b)) ||
        countFrom(a) - countFrom(b) ||
        (a.key < b.key ? -1 : 1),
    )
    .map((alert) => itemOf(words, kitchen, alert));
}

const isOfCabinet = ({ toolKind }: ActiveAlert): boolean => toolKind === "warm-cabinet";

const countFrom = (alert: ActiveAlert): number => alert.sinceMs ?? alert.raisedAtMs;

/** The act across the room; beside it whose and where, what is the matter, and what else to do. */
function itemOf(words: Words, kitchen: Kitchen, alert: ActiveAlert): WallAlert {
  const { key, acknowledged, trayId, trayNumber } = alert;
  const { act, what, todo, where } = wordAlert(words, kitchen, alert);
  return {
    key,
    class: alert.class,
    trayId,
    trayNumber,
    head: act,
    countFromMs: countFrom(alert),
    body: [...where, ...(what === act ? [] : [what]), todo].join(" · "),
    acknowledgedBy: acknowledged && (kitchen.people[acknowledged.by]?.name ?? words.alerts.someone),
  };
}

/**
 * Ways to say what has no box of its own: "and 3 more · Stop the heat 3, 4 · Switch it off"; where that is too long the trays
 * alone, then as many as there is room for, the first of the alerts before all others; at last only how many.
 */
export function moreAlertsWays(words: Words, more: readonly WallAlert[]): string[] {
  if (more.length === 0) return [];
  const counted = words.wall.more(more.length);
  const numbers = more.flatMap(({ trayNumber }) => trayNumber ?? []);
  const acts = [...new Set(more.map(({ head }) => head))].map((head) => {
    const trays = more.flatMap((alert) => (alert.head === head ? (alert.trayNumber ?? []) : []));
    return [head, sayNumbers(trays)].join(" ").trim();
  });
  const some = numbers.map(
    (_, k) => sayNumbers(numbers.slice(0, numbers.length - k)) + (k === 0 ? "" : ` +${k}`),
  );
  return [[counted, ...acts].join(" · "), ...some.map((trays) => `${counted}: ${trays}`), counted];
}
