import { formatStopwatch } from "#shared/units.ts";
import { leadNames } from "#shared/kitchen/alerts/heat.ts";
import type { AlertKind, ActiveAlert } from "#shared/kitchen/model/alert.ts";
import type { PersonId } from "#shared/ids.ts";
import { forScreen, forWall } from "#shared/kitchen/alerts/due.ts";
import { sayNumbers } from "#shared/words/tray-numbers.ts";
import { heatHolder, standsAt, type HeatSet, type Kitchen } from "#shared/kitchen/model/state.ts";

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

/** Told in their own place: the change line, the lane, the tile and the order's card. */
const TOLD_ELSEWHERE: ReadonlySet<AlertKind> = new Set([
  "air-changed",
  "sensor-silent",
  "will-not-dry-here",
  "waiting-long",
  "pick-up-at-risk",
]);

/**
 * Alerts for the top of the wall: urgent first, of these what nobody has acknowledged, then by how long they have stood; of a
 * warm cabinet, which overheats nothing, last of these. A bench (`me`) has those of whatever is done there as well.
 */
export function wallAlerts(kitchen: Kitchen, me?: PersonId): WallAlert[] {
  return Object.values(kitchen.alerts)
    .filter((alert) => forScreen(alert, me) && !TOLD_ELSEWHERE.has(alert.kind))
    .toSorted(
      (a, b) =>
        Number(a.class !== "urgent") - Number(b.class !== "urgent") ||
        Number(a.acknowledged !== undefined) - Number(b.acknowledged !== undefined) ||
        Number(isOfCabinet(kitchen, a)) - Number(isOfCabinet(kitchen, b)) ||
        countFrom(a) - countFrom(b) ||
        (a.key < b.key ? -1 : 1),
    )
    .map((alert) => itemOf(kitchen, alert));
}

const isOfCabinet = (kitchen: Kitchen, alert: ActiveAlert): boolean =>
  heatOf(kitchen, alert)?.toolKind === "warm-cabinet";

const countFrom = (alert: ActiveAlert): number => alert.sinceMs ?? alert.raisedAtMs;

function itemOf(kitchen: Kitchen, alert: ActiveAlert): WallAlert {
  const { acknowledged, trayId, trayNumber } = alert;
  return {
    key: alert.key,
    class: alert.class,
    ...(trayId === undefined ? {} : { trayId }),
    ...(trayNumber === undefined ? {} : { trayNumber }),
    ...wordsOf(kitchen, alert),
    countFromMs: countFrom(alert),
    ...(acknowledged === undefined
      ? {}
      : { acknowledgedBy: kitchen.people[acknowledged.by]?.name ?? "someone" }),
  };
}

/**
 * What has no box of its own, in as many `letters`: "and 3 more · Stop the heat 3, 4 · Switch it off"; where that is too long
 * the trays alone, then as many as there is room for, the first of the alerts before all others.
 */
export function moreAlertsWords(more: readonly WallAlert[], letters: number): string {
  if (more.length === 0) return "";
  const counted = `and ${more.length} more`;
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
  return ways.find((words) => words.length <= letters) ?? counted;
}

/** What to do, in as few words as can be read across the room. */
const HEADS: Readonly<Partial<Record<AlertKind, string>>> = {
  "heat-running-long": "Stop the heat",
  "heat-near-stop": "Touch it now",
  "heat-unwatched": "Watch this heat",
  "set-check-by-touch": "Check by touch",
  "tool-left-on": "Switch it off",
  "oven-too-hot": "Oven too hot",
  "bubbles-last-chance": "Needle bubbles",
  "will-sink": "Heat-set it now",
  "icing-too-old": "Take fresh icing",
};

function headOf(kitchen: Kitchen, alert: ActiveAlert, isInChamber: boolean): string {
  if (isInChamber && alert.kind === "heat-near-stop") return "Take it out";
  if (isHotAirTooHot(kitchen, alert)) return "Too hot";
  return HEADS[alert.kind] ?? alert.what;
}

/** Hot air has no trays in it to take out, and nothing to turn down while it stands. */
const isHotAirTooHot = (kitchen: Kitchen, { kind, toolId }: ActiveAlert): boolean =>
  kind === "oven-too-hot" && kitchen.tools[toolId ?? ""]?.kind === "hot-air";

/** The head across the room, the rest beside it. */
function wordsOf(kitchen: Kitchen, alert: ActiveAlert): { head: string; body: string } {
  const heat = heatOf(kitchen, alert);
  const isInChamber = heat !== undefined && heat.toolKind !== "hot-air";
  const head = headOf(kitchen, alert, isInChamber);
  // What only a bench is told is its own: no phone out of earshot.
  const body = (forWall(alert) ? wallBody(kitchen, alert, heat, isInChamber) : undefined) ?? alert.todo;
  return { head, body: [whereWords(kitchen, alert), body].filter((part) => part.length > 0).join(" · ") };
}

/** What the wall says beside the head, shorter than a phone does. */
function wallBody(
  kitchen: Kitchen,
  alert: ActiveAlert,
  heat: HeatSet | undefined,
  isInChamber: boolean,
): string | undefined {
  const words: Partial<Record<AlertKind, string>> = {
    "heat-running-long": alert.told.leads
      ? `over a minute too long: ${leadNames(kitchen)}, go and end it`
      : "",
    "heat-near-stop": `${isInChamber ? "with dry mitts, then touch: " : ""}heat nearly at its limit, phone out of earshot`,
    "heat-unwatched": `phone out of earshot, stop by ${formatStopwatch(heat?.limits.stopByS ?? 0)}`,
    "tool-left-on": "on, no tray under it",
    "oven-too-hot": isHotAirTooHot(kitchen, alert)
      ? "switch it off, let it cool"
      : "trays out with dry mitts, turn it down",
  };
  return words[alert.kind];
}

function heatOf(kitchen: Kitchen, { trayId }: ActiveAlert): HeatSet | undefined {
  const standing = kitchen.trays[trayId ?? ""]?.standing;
  return standing?.stage === "heat-set" ? standing.heat : undefined;
}

/** Who has it in hand, and the tool, or else the place. */
function whereWords(kitchen: Kitchen, alert: ActiveAlert): string {
  const tray = kitchen.trays[alert.trayId ?? ""];
  const heat = heatOf(kitchen, alert);
  const tool = kitchen.tools[alert.toolId ?? heat?.toolId ?? ""];
  const toolHolder = tool?.use.status === "on" ? tool.use.holder : undefined;
  const holder = heat === undefined ? toolHolder : heatHolder(kitchen, heat);
  const place = kitchen.places[alert.placeId ?? (tray === undefined ? "" : standsAt(tray).placeId)];
  const parts = [kitchen.people[holder ?? ""]?.name, tool?.name ?? place?.name];
  return parts.filter((part) => part !== undefined).join(" · ");
}
