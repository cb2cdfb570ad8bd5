import type { FoundBeside, StripPart } from "#shared/kitchen/calibration/tray-strip.ts";
import type { DueAct, Surface } from "#shared/kitchen/day-sheet/hand-over.ts";
import type { LikelyCause } from "#shared/kitchen/day-sheet/problems.ts";
import type { ProblemKind } from "#shared/kitchen/model/vocabulary.ts";
import type { LaidBy } from "#shared/kitchen/tray/route.ts";
import { unreachable } from "#shared/outcome.ts";
import type { Formats, Plural } from "#shared/words/formats.ts";
import { sayNumbers } from "#shared/words/tray-numbers.ts";
import { terms } from "./terms.ts";
import { type NamedBatch, trace } from "./trace.ts";
import { trays as trayWords } from "./trays.ts";

const TRAYS: Plural = { one: "tray", other: "trays" };
const LAYING: Record<LaidBy, string> = { pipe: "piping", flood: "flooding", "top-coat": "top-coating" };
const BEGUN: Record<LaidBy, string> = { pipe: "piping", flood: "flooding", "top-coat": "top-coat" };

/** What happened: a tray's way, the day's problems and hands, and what a shift leaves to the next. */
export const happened = (format: Formats) => {
  const { name, when, number } = format;
  const { cookies } = terms(format);
  /** Every one of them. */
  const trays = (numbers: readonly number[]): string =>
    `${format.plural(numbers.length, TRAYS)} ${sayNumbers(numbers)}`;
  const stage = ({ stage, how, layer }: StripPart): string => {
    switch (stage) {
      case "laying":
        return `${LAYING[how]} layer ${layer + 1}`;
      case "heat":
        return `heat on layer ${layer + 1}`;
      case "crusting":
        return "crusting";
      case "full-dry":
        return "drying through";
      default:
        return unreachable(stage);
    }
  };
  const range = (fromMs: number, toMs: number, nowMs: number): string =>
    format.bandTimes({ earliestMs: fromMs, latestMs: toMs }, nowMs);
  const foundWhen = ({ notYetMs, byMs }: FoundBeside, nowMs: number): string => {
    const by = byMs === undefined ? undefined : `by ${when(byMs, nowMs)}`;
    if (notYetMs === undefined) return by ?? "";
    const notYet = `not yet ${when(notYetMs, nowMs)}`;
    return by === undefined ? notYet : `${notYet}, ${by}`;
  };
  return {
    // A tray's way.
    title: "What happened",
    /** "12:10–12:20 piping layer 1" */
    part: (part: StripPart, nowMs: number) => `${range(part.fromMs, part.toMs, nowMs)} ${stage(part)}`,
    begun: ({ how, fromMs }: StripPart, nowMs: number) => `${when(fromMs, nowMs)} ${BEGUN[how]}`,
    packedAt: (atMs: number, nowMs: number) => `packed ${when(atMs, nowMs)}`,
    now: "now",
    asList: "Stage by stage",
    legend: {
      laying: "laying",
      heat: "heat",
      crusting: "crusting",
      "full-dry": "drying through",
    } satisfies Record<StripPart["stage"], string>,
    /** "Layer 1, cocoa, skin: forecast 12:50–13:20, found not yet 12:55, by 13:05. Fits the forecast." */
    found: (found: FoundBeside, nowMs: number) => {
      const { layer, icing, quantity, shown, is } = found;
      const of = icing === undefined ? "" : `, ${name(icing)}`;
      const what = quantity === "skin" ? "skin" : "dry through";
      const verdict = {
        inside: "Fits the forecast",
        sooner: "Sooner than forecast",
        later: "Later than forecast",
      }[is];
      return `Layer ${layer + 1}${of}, ${what}: forecast ${format.bandTimes(shown, nowMs)}, found ${format.stop(foundWhen(found, nowMs))} ${verdict}.`;
    },
    // The day's problems and hands.
    problems: "Problems today",
    noProblems: "No problem was reported today.",
    likely: "Likely causes, not proven:",
    problemKinds: {
      bled: "bled",
      sunk: "sunk",
      cracked: "cracked",
      swollen: "swollen by heat",
      dented: "dented",
      smeared: "smeared",
      burned: "burned",
      broken: "broken",
    } satisfies Record<ProblemKind, string>,
    /** "14 cookies bled, on trays 7 and 9" */
    problem: (kind: string, count: number, numbers: readonly number[]) =>
      `${cookies(count)} ${kind}, on ${trays(numbers)}`,
    cause: (cause: LikelyCause, batch: NamedBatch | undefined, nowMs: number): string => {
      const on = trays(cause.trays);
      switch (cause.code) {
        case "damp-air":
          return `damp air, ${format.percent(cause.rhPct)} RH: ${on}`;
        case "laid-early":
          return `laid before its wait was over: ${on}`;
        case "not-set-in-time":
          return `not heat-set in time: ${on}`;
        case "overheated":
          return `heated too long: ${on}`;
        case "batch": {
          const which = batch === undefined ? "one batch" : `batch of ${trace(format).batch(batch, nowMs)}`;
          return `${which}${cause.isWrong ? ", found wrong" : ""}: ${on}`;
        }
        default:
          return unreachable(cause);
      }
    },
    unexplained: (numbers: readonly number[]) => `no cause seen: ${trays(numbers)}`,
    hands: "Hands a layer, today",
    handsColumns: { layer: "layer", tray: "a tray", cookie: "a cookie", timed: "trays timed" },
    noHands: "No layer was timed today: tap start before laying, then laid.",
    // Handing over.
    handOver: "Shift hand-over",
    noteTitle: "For the next shift",
    noNote: "No note was left.",
    noteBy: (by: string | undefined, atMs: number, nowMs: number) =>
      `${name(by ?? "the kitchen")}, ${when(atMs, nowMs)}`,
    note: "Note",
    noteHint: "Everyone sees it until someone says that it is dealt with.",
    leaveNote: "Leave a note",
    changeNote: "Change the note",
    keepNote: "Save the note",
    noteLeft: "Note left",
    dealtWith: "It is dealt with",
    noteDone: "Note dealt with",
    wet: "What is wet, and where",
    nothingIced: "No icing is wet or drying.",
    surfaces: {
      "in hand": "being iced",
      "under heat": "under heat",
      wet: "wet",
      skinned: "with a skin, drying through",
    } satisfies Record<Surface, string>,
    surface: (surface: string, numbers: readonly number[]) => `${surface}: ${trays(numbers)}`,
    due: "Due next",
    noneDue: "Nothing is due.",
    dueAct: ({ act, tray }: DueAct) => `Tray ${tray}: ${trayWords(format).act(act)}`,
    dueAt: (atMs: number | undefined, nowMs: number) =>
      atMs === undefined ? "no forecast" : atMs <= nowMs ? "now" : when(atMs, nowMs),
    moreDue: (count: number) => `and ${number(count)} more`,
    pickUps: "Next pick-ups",
    toolsOn: "Tools that are on",
    noToolsOn: "No tool is on.",
    outOfService: (tool: string, reason: string) => `${name(tool)} is out of service: ${reason}`,
    asOf: (atMs: number) => `As of ${format.dayTime(atMs)}`,
    print: "Print this page",
  };
};
