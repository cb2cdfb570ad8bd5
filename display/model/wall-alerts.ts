import type { PersonId } from "#shared/ids.ts";
import { forScreen } from "#shared/kitchen/alerts/due.ts";
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
  trayId?: string;
  trayNumber?: number;
  /** What to do, in a few words. */
  head: string;
  /** Who, where, and what is the matter. */
  body: string;
  countFromMs: number;
  acknowledgedBy?: string;
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
  const { acknowledged, trayId, trayNumber } = alert;
  const { act, what, todo, where } = wordAlert(words, kitchen, alert);
  return {
    key: alert.key,
    class: alert.class,
    ...(trayId !== undefined && { trayId }),
    ...(trayNumber !== undefined && { trayNumber }),
    head: act,
    body: [...where, ...(what === act ? [] : [what]), todo].join(" · "),
    countFromMs: countFrom(alert),
    ...(acknowledged !== undefined && {
      acknowledgedBy: kitchen.people[acknowledged.by]?.name ?? words.alerts.someone,
    }),
  };
}

/**
 * What has no box of its own, in as many `letters`: "and 3 more · Stop the heat 3, 4 · Switch it off"; where that is too long
 * the trays alone, then as many as there is room for, the first of the alerts before all others.
 */
export function moreAlertsWords(words: Words, more: readonly WallAlert[], letters: number): string {
  if (more.length === 0) return "";
  const counted = words.wall.more(more.length);
  const numbers = more.flatMap(({ trayNumber }) => trayNumber ?? []);
  const acts = [...new Set(more.map(({ head }) => head))].map((head) => {
    const trays = more.flatMap((alert) => (alert.head === head ? (alert.trayNumber ?? []) : []));
    return trays.length === 0 ? head : `${head} ${sayNumbers(trays)}`;
  });
  const ways = [
    [counted, ...acts].join(" · "),
    ...numbers.map((_, k) => {
      const left = k === 0 ? "" : ` +${k}`;
      return `${counted}: ${sayNumbers(numbers.slice(0, numbers.length - k))}${left}`;
    }),
  ];
  return ways.find((way) => way.length <= letters) ?? counted;
}
