import { unreachable } from "#shared/outcome.ts";
import type { HeatLimitsFact } from "#shared/kitchen/model/event.ts";
import type { ToolKind } from "#shared/heat/tool.ts";
import type { SinkingRecord } from "#shared/kitchen/tray/sinking.ts";
import { fallIn, touchTimes, type ToolFact } from "#shared/words/heat-facts.ts";
import type { Formats } from "#shared/words/formats.ts";

/** Heat-setting and tools on the phone. */
export const heat = (format: Formats) => {
  const { stopwatch, span, temp, name } = format;
  const use = (fact: ToolFact): string => {
    switch (fact.use) {
      case "on":
        return `on ${span(fact.onMin)}, ${name(fact.holder ?? "someone")}`;
      case "cooling":
        return `off, hot for about ${span(fact.leftMin)} more`;
      case "off":
        return "off";
      default:
        return unreachable(fact);
    }
  };
  return {
    title: "Heat",
    of: (tray: number) => `Heat-set tray ${tray}`,
    none: "No tray is under heat. Start a heat-set from a tray.",
    tools: "Tools",
    noTools: "None yet. A lead adds them under Room → Kitchen.",
    noToolsYet: "The kitchen has no heat tools yet. A lead adds them under Room → Kitchen.",
    set: (tempC: number) => `set ${temp(tempC)}`,
    underWhich: "Under which tool",
    start: "Start the heat",
    readAndStart: "Read: start the heat",
    startHint: (kind: ToolKind): string =>
      kind === "hot-air" ? "the first cookie's clock starts" : "the tray's clock starts as the door shuts",
    started: (tray: number) => `Tray ${tray} heat-set started`,
    ended: (tray: number) => `Tray ${tray} heat-set ended`,
    stoppedUnset: (tray: number) => `Tray ${tray} stopped, not set yet`,
    running: { stop: "Stop the heat", on: "Heat-set" },
    /** "Hot air 1 · Wren · stop by 2:40". */
    runningLine: (tool: string, who: string | undefined, stopByS: number) =>
      `${name(tool)} · ${name(who ?? "someone")} · stop by ${stopwatch(stopByS)}`,
    /** "on 12 min, Wren", "off, hot for about 8 min more", "off", "out of service: frayed cord · on 12 min, Wren". */
    tool: (fact: ToolFact): string => {
      const now = use(fact);
      if (fact.outOfService === undefined) return now;
      return fact.use === "off"
        ? `out of service: ${name(fact.outOfService)}`
        : `out of service: ${name(fact.outOfService)} · ${now}`;
    },
    read: (tempC: number, atMs: number) => `read ${temp(tempC)} at ${format.time(atMs)}`,
    cookieOf: (cookie: number, count: number) => `Cookie ${cookie} of ${count}`,
    cookieSet: (cookie: number) => `Cookie ${cookie} set`,
    /** "check touch 1:30–2:30"; of a chamber, "out with dry mitts, then touch 2:31–6:00". */
    touch: (kind: ToolKind, limits: HeatLimitsFact): string => {
      const isChamber = kind !== "hot-air";
      const touch = isChamber ? "out with dry mitts, then touch" : "check touch";
      return fallIn(touchTimes(limits), {
        already: `likely set already: ${touch}${isChamber ? "" : " now"}`,
        by: (toS) => `${touch} by ${stopwatch(toS)}`,
        at: (s) => `${touch} at ${stopwatch(s)}`,
        between: (fromS, toS) => `${touch} ${stopwatch(fromS)}–${stopwatch(toS)}`,
      });
    },
    mayNotSet: "it may not set",
    stopBy: (stopByS: number) => `stop by ${stopwatch(stopByS)}`,
    pastStopBy: (pastS: number, stopByS: number) => `${stopwatch(pastS)} past stop-by ${stopwatch(stopByS)}`,
    /** The cap is named only where it is another figure. */
    stopByLine: ({ stopByS, capS }: HeatLimitsFact, isHeard: boolean): string => {
      const [by, cap] = [stopwatch(stopByS), stopwatch(capS)];
      const then = isHeard
        ? ", when the whole room is alerted."
        : ": no connection, the room is not alerted.";
      return `Stop by ${by}${then}${cap === by ? "" : ` Hard cap ${cap}.`}`;
    },
    stopNow: (isHeard: boolean) =>
      `Stop now: ${isHeard ? "the whole room is alerted" : "no connection, the room is not alerted"}`,
    passed: ({ stopByS, why }: HeatLimitsFact) => `It passed ${stopwatch(stopByS)} (${why}).`,
    hints: {
      "skinned already": "Likely to have skinned already: touch before you heat.",
      "too hot before set":
        "Likely to get too hot before it sets: use less heat, or let it dry in moving air.",
      "will not set": "Not likely to set by stop-by: stop there and let it dry in moving air.",
    },
    nextCookie: "Set: next cookie",
    nextCookieHint: "its clock waits for “Heat on”",
    heatOn: "Heat on",
    heatOnHint: (cookie: number) => `cookie ${cookie}'s clock starts`,
    heatIsOn: (cookie: number) => `Heat on cookie ${cookie}`,
    nextUp: (cookie: number) => `Cookie ${cookie}: flood it if it is not, then tap “Heat on”.`,
    /** Of the phone that times a heat: why its screen may go dark, and what to do. */
    goesDark: {
      "no-lock":
        "This browser cannot keep the screen awake: touch it now and then. Once dark, it cannot alert you.",
      "plain-connection":
        "On this plain connection the screen may go dark: touch it now and then. Once dark, it cannot alert you.",
      refused:
        "This phone may let its screen go dark, as when its battery is low: touch it now and then. Once dark, it cannot alert you.",
    },
    noClock: "No clock runs. Point hot air at no icing until then.",
    /** Before the heat starts, and while hot air is on a cookie. */
    heldStill: (heldTooLongS: number) =>
      `Held still on one spot, icing is too hot in ${stopwatch(heldTooLongS)}: keep it moving.`,
    setStop: "Set to the touch: stop",
    restDries: (had: number, count: number) => `${had} of ${count} had heat: the rest dries on`,
    notYet: "Not set yet: stop",
    spoiled: "Cracked or swollen? Stop and record it",
    spoiledTitle: "Cracked or swollen",
    cookies: "Cookies",
    stopAndRecord: (count: number) => `Stop and record ${count}`,
    goOn: "Go on heating",
    // Tools.
    offNow: (tool: string) => `${name(tool)}: off now?`,
    isOff: (kind: ToolKind): string => (kind === "hot-air" ? "Off and on its stand" : "Switched off"),
    offHint: "its cooling count-down starts",
    stillInUse: "Still in use",
    off: (tool: string) => `${name(tool)} off`,
    on: (tool: string) => `${name(tool)} on`,
    keptOn: (tool: string) => `${name(tool)} still in use`,
    itsTemperature: "Its temperature",
    enter: "Enter",
    enterTemperature: "Enter its temperature",
    asRead: (tool: string) => `${name(tool)}, as read`,
    wasRead: (tool: string) => `${name(tool)} read`,
    setTo: (tempC: number, mostC: number) => `set to ${temp(tempC)}, at most ${temp(mostC)}`,
    overTrays: (numbers: readonly number[]) => `over tray ${numbers.join(", ")}`,
    itIsOn: "It is on",
    itIsOff: "It is off",
    handOver: "Hand over",
    handedTo: (tool: string, person: string) => `${name(tool)} to ${name(person)}`,
    noOneElse: "No one else has joined.",
    outOfService: "Out of service",
    takenOut: (tool: string) => `${name(tool)} out of service`,
    whatIsWrong: "What is wrong with it",
    takeOut: "Take it out of service",
    backInService: "Back in service",
    isBack: (tool: string) => `${name(tool)} back in service`,
    leadPutsBack: "A lead puts it back in service.",
    back: "Back",
    // Before going home.
    shiftEnd: "End-of-shift check",
    beforeYouGo: "Before you go",
    allClear:
      "As tapped here, every tool is off and cooled, and no tray is under heat or half flooded. Look at the tools anyway.",
    underHeat: (numbers: string) => `Under heat: ${numbers}.`,
    stopTheseFirst: "Stop these first.",
    inHand: (numbers: string) => `In hand: ${numbers}.`,
    startClocks: "Start their drying clocks, or hand them over.",
    dryingOvernight: (numbers: string) =>
      `Drying, with no heat on them: ${numbers}. Whether their icing and filling may stand out overnight is for your kitchen's own plan.`,
    /** How films with sections that might sink fared. */
    sinking: ({ films, sunk }: SinkingRecord): string => {
      const names = {
        "in time": "heat-set in time",
        late: "heat-set late",
        "not set": "not heat-set",
      } as const;
      const parts = (["in time", "late", "not set"] as const).flatMap((setting) =>
        films[setting] === 0
          ? []
          : [`${films[setting]} ${names[setting]}${sunk[setting] === 0 ? "" : ` (${sunk[setting]} sunk)`}`],
      );
      return `Small sections on this board: ${parts.join(", ")}.`;
    },
  };
};
