import type { WhyNever } from "#shared/drying/film/film.ts";
import type { ActName, LaidBy } from "#shared/kitchen/tray/route.ts";
import type { SinkAdvice } from "#shared/kitchen/model/forecast.ts";
import type { Consistency, ProblemKind, TouchFinding } from "#shared/kitchen/model/vocabulary.ts";
import { unreachable } from "#shared/outcome.ts";
import type { Formats } from "#shared/words/formats.ts";
import { drying } from "./drying.ts";
import { terms } from "./terms.ts";

const LAY: Record<LaidBy, string> = { pipe: "Pipe", flood: "Flood", "top-coat": "Top-coat" };
const TO_LAY: Record<LaidBy, string> = { pipe: "pipe", flood: "flood", "top-coat": "top-coat" };
const LAID: Record<LaidBy, string> = { pipe: "Piped", flood: "Flooded", "top-coat": "Top-coated" };

/** A tray, and the list of trays. */
export const trays = (format: Formats) => {
  const { name, span, sentence } = format;
  const { cookies, consistencies } = terms(format);
  const act = (named: ActName): string => {
    switch (named.kind) {
      case "flood":
        return `${LAY[named.how]} layer ${named.layer + 1}`;
      case "flooding":
        return `${LAID[named.how]}: start the drying clock`;
      case "heat":
        return "Set to the touch: stop";
      case "pack":
        return `Pack ${named.count}`;
      case "packed":
        return "Packed";
      case "touch":
        return "Check by touch";
      default:
        return unreachable(named);
    }
  };
  /** The same in the midst of a sentence. */
  const toAct = (named: ActName): string =>
    named.kind === "flood" ? `${TO_LAY[named.how]} layer ${named.layer + 1}` : act(named).toLowerCase();
  const heatBy = (what: string, atMs: number, leftMin: number): string =>
    `heat-set ${what} by ${format.time(atMs)}, ${span(leftMin)} left`;
  const heatOver = (what: string): string => `the minutes to heat-set ${what} are over. Watch the middle`;
  return {
    act,
    /** The same with the risk named first. */
    sooner: (named: ActName) => `${act(named)} sooner`,
    thenAct: (named: ActName) => `then ${toAct(named)}`,
    /** `untilMs`: a time; the tray's number where it is needed. */
    hot: (untilMs: number, number?: number) =>
      `Tray ${number === undefined ? "" : `${number} `}hot until about ${format.time(untilMs)}: dry mitts.`,
    startBy: (byMs: number, nowMs: number) => `start by ${format.when(byMs, nowMs)}`,
    startNow: "start now",
    /** What it is to be begun for: its pick-up. */
    forPickUp: (pickUp: string) => `for ${pickUp}`,
    giveTo: "Give it to",
    given: (tray: number, person: string) => `Tray ${tray} is ${format.name(person)}'s now`,
    likeliest: (when: string) => `likeliest ${when}`,
    latest: "latest",
    layersLaid: (laid: number, layers: number) =>
      `${format.number(laid)} of ${format.number(layers)} layers laid`,
    heatPaused: "Waiting for “Heat on”",
    someNotGood: "Some are not good",
    secondsAre: (count: number) => `${format.number(count)} sold as seconds`,
    // The list.
    yoursNext: "Yours next",
    everyonesNext: "Everyone's next",
    whose: "Whose trays",
    mine: "Mine",
    everyones: "Everyone's",
    toStart: (isMine: boolean) => `To start${isMine ? " · nobody's yet" : ""} · by the day's plan`,
    moreToStart: (count: number) => `and ${format.number(count)} more to start`,
    noneYet: "There are no trays yet.",
    noneMine: "No tray is yours, and none waits to be started.",
    allPacked: "Every tray is packed.",
    addOrder: "Add an order and its trays",
    appearHere: "They appear here as soon as a lead adds an order with its trays.",
    noTray: (typed: string) => `No tray ${typed}`,
    asLastHeard: "as last heard",
    // A card.
    waitToStart: "to start",
    pastLatest: "past its latest time",
    readyNow: "ready now",
    waiting: (minutes: number) => `${span(minutes)} waiting`,
    readyTo: (named: ActName, when: string) =>
      `ready to ${named.kind === "pack" ? "pack" : toAct(named)}, ${when}`,
    willNotDry: "Will not dry here",
    moveIt: "move it",
    noForecast: "no forecast yet: go by touch",
    fullDry: "Drying through",
    crusting: (layer: number) => `Crusting, layer ${layer}`,
    underHeat: (layer: number) => `Heat-set, layer ${layer}`,
    inHand: (layer: number) => `Being iced, layer ${layer}`,
    needleUntil: (inWords: string) => `needle bubbles: skin closes in ${inWords}`,
    needle: "needle bubbles while it is wet",
    someone: "someone",
    // A tray's page.
    noTrayNow: "No tray has this number now. It may have been packed and archived.",
    pickUp: (when: string) => `pick-up ${when}`,
    oneLayerLaid: "Its one layer is laid",
    allLaid: (layers: number) => `All ${layers} layers laid`,
    layerOf: (layer: number, layers: number) => `Layer ${layer} of ${layers}`,
    /** "butter, flood, smallest section 12 mm". */
    layer: (icing: string | undefined, consistency: Consistency, narrowestMm: number) =>
      `${name(icing ?? "icing")}, ${consistencies[consistency]}, smallest section ${format.length(narrowestMm)}`,
    willNotDryWhy: (why: WhyNever) => `Will not dry here: ${drying(format).why(why)}`,
    notKept: "as last heard: not kept up to date",
    bands: { ready: "ready", skin: "skin", dry: "dry" },
    dryThrough: (earliest: string, latest: string, likely: string) =>
      `Dry through ${earliest}–${latest}, likeliest ${likely}`,
    ifLaidNow: "if laid now",
    noAir: "no reading of the air here: times are less sure",
    stuckAir: "the hygrometer here seems stuck: times are less sure",
    oldAir: (when: string) => `no reading since ${when}: times are less sure`,
    airElsewhere: (place: string) => `no reading here lately: air as at ${name(place)}`,
    touchPast: (when: string) => `Check by touch: past its latest time, ${when}`,
    /** What to do about a section that may sink. */
    sink: (
      { risk, setWithinMin, floodBeforeSetting, floodBeforeOven = 0 }: SinkAdvice,
      count: number,
    ): string => {
      const likely = risk === "most" ? "Likely to sink in the middle" : "May sink in the middle";
      const batch =
        floodBeforeSetting < count
          ? `: flood ${cookies(floodBeforeSetting)}, then heat-set, each`
          : ": heat-set";
      const oven =
        floodBeforeOven <= floodBeforeSetting
          ? ""
          : `; for an oven flood ${floodBeforeOven < count ? cookies(floodBeforeOven) : "the whole tray"} first`;
      return `${likely}${batch} within ${span(setWithinMin)} of flooding${oven}`;
    },
    /** How far the heat-setting is, and until when the rest is to be set. `left` is absent once nothing is to be said of it. */
    setBy: ({ layer, set, count, isLaid, dueMs, leftMin }: SetByFact): string => {
      const what =
        set === undefined ? (isLaid ? "it" : "the first cookie") : isLaid ? "the rest" : "the next";
      const how =
        dueMs === undefined || leftMin === undefined
          ? undefined
          : leftMin > 0
            ? heatBy(what, dueMs, leftMin)
            : heatOver(what);
      if (set !== undefined) {
        const soFar = `${isLaid ? `Layer ${layer + 1}: ` : ""}${set} of ${count} set`;
        return how === undefined ? soFar : `${soFar}. ${sentence(how)}`;
      }
      if (how === undefined) return "";
      return isLaid ? `Layer ${layer + 1} may sink: ${how}` : sentence(how);
    },
    // Acts.
    undoHint: "one tap, undo for 20 s",
    riskHint: "a second tap names the risk",
    takeInHand: (named: ActName) => `Start icing it: ${toAct(named)}`,
    toTimer: "Under heat: to the timer",
    toTimerHint: "count-up, next cookie, stop",
    goodAndSpoiled: (good: number, spoiled: number) => `${good} good, ${spoiled} spoiled`,
    packedAt: (atMs: number, by: string | undefined) =>
      `Packed ${format.time(atMs)} by ${name(by ?? "the kitchen")}`,
    said: {
      inHand: (tray: number) => `Tray ${tray} being iced`,
      clockStarted: (tray: number) => `Tray ${tray} clock started`,
      packed: (tray: number) => `Tray ${tray} packed`,
      found: (tray: number, layer: number, finding: TouchFinding) =>
        `Tray ${tray}, layer ${layer} found ${finding}`,
      givenBack: (tray: number) => `Tray ${tray} given back`,
      taken: (tray: number) => `Tray ${tray} taken`,
      moved: (tray: number, place: string) => `Tray ${tray} to ${name(place)}`,
      movedMany: (count: number, place: string) =>
        `${format.count(count, { one: "tray", other: "trays" })} to ${name(place)}`,
      problem: (tray: number, count: number, problem: ProblemKind) => `Tray ${tray}: ${count} ${problem}`,
      takenBack: "Taken back",
    },
    touchTest: "touch test",
    touchLayer: (layer: number) => `touch, layer ${layer}`,
    touchedLayer: (layer: number) => `Touched layer ${layer}`,
    whichTouched: "Which layer was touched",
    heatSet: "Heat-set",
    move: "Move",
    problem: "Problem",
    yours: "Yours",
    nobodys: "Nobody's yet",
    someones: (person: string) => `${name(person)}'s`,
    giveBack: "Give it back",
    takeIt: "Take it",
    takeOver: "Take it over",
    // Moving.
    moveTray: (tray: number) => `Move tray ${tray}`,
    slot: "Shelf or slot, if you use them",
    standsHere: "it stands here",
    wouldHelp: "this would help",
    roomFor: (count: number) => `room for ${format.number(count)}`,
    full: "full",
    toPlace: (place: string | undefined) => `To ${name(place ?? "there")}`,
    there: "there",
    tapEach: "Tap each tray as it stands there.",
    allThere: (count: number) => `All ${format.number(count)} stand there now`,
    // A problem.
    whatWrong: (tray: number) => `What went wrong on tray ${tray}?`,
    cookies: "Cookies",
    note: "A note, if it helps",
    nothing: "Nothing",
    // The history.
    history: (count: number) => `History · ${format.number(count)}`,
    theKitchen: "the kitchen",
    you: "you",
    accepted: (risk: string) => `accepted: ${risk}`,
    waitingToSend: "waiting to be sent",
    takenBackBy: (who: string) => `taken back by ${name(who)}`,
    takeBack: "Take back",
  };
};

/** How far heat-setting what may sink is. Layers count from 0. */
export interface SetByFact {
  layer: number;
  /** Cookies that hot air has set, where it set some and not all. */
  set: number | undefined;
  count: number;
  isLaid: boolean;
  dueMs?: number | undefined;
  /** Absent once it is long over. */
  leftMin?: number | undefined;
}
