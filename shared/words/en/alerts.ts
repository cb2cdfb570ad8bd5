import { unreachable } from "#shared/outcome.ts";
import type { AlertNames } from "#shared/kitchen/alerts/names.ts";
import type { AlertText, AlertTexts } from "#shared/words/alert-texts.ts";
import type { Formats } from "#shared/words/formats.ts";
import { fewNames } from "#shared/words/few-names.ts";
import type { Consistency, ToolKind } from "#shared/kitchen/model/vocabulary.ts";
import { terms as makeTerms } from "./terms.ts";

/** A change of humidity this small does not explain by itself what came of it, points. */
const HUMIDITY_TELLS = 3;
const LOST = "Phone offline or muted";

/** Alerts: the act in a few words, what is the matter, and what else to do. */
export const alerts = (format: Formats) => {
  const terms = makeTerms(format);
  const { stopwatch, name } = format;
  const isChamber = (kind: ToolKind): boolean => kind !== "hot-air";
  const icing = (names: AlertNames, consistency: Consistency): string =>
    `${names.icing === undefined ? "Icing" : name(names.icing)} (${terms.consistencies[consistency]})`;
  const adviceText = (what: string): AlertText => ({
    act: "See what would help",
    what,
    todo: "A fan, a warm cabinet, heat-set, drier air",
  });

  const texts: AlertTexts = {
    "heat-running-long": ({ recipients }, { leads }) =>
      recipients.leads
        ? {
            act: "Stop the heat",
            what: "Over a minute too long",
            todo: `${leads.length === 0 ? "A lead" : fewNames(leads, format)}: go and end it`,
          }
        : { act: "Stop the heat", what: "Past its stop-by", todo: "Take the heat off, look for cracks" },
    "heat-near-stop": ({ toolKind, stopByS, isPhoneLost }) => ({
      act: isChamber(toolKind) ? "Take it out" : "Touch it now",
      what: "Heat nearly at its limit",
      todo: `${isChamber(toolKind) ? "With dry mitts, then touch it. " : ""}Stop by ${stopwatch(stopByS)}${isPhoneLost ? `. ${LOST}` : " at the latest"}`,
    }),
    "heat-unwatched": ({ toolKind, stopByS, checkFromS }) => {
      const touch = isChamber(toolKind) ? "take it out with dry mitts and touch it" : "touch it";
      const when = checkFromS < 1 ? "now" : `from ${stopwatch(checkFromS)}`;
      return {
        act: "Watch this heat",
        what: LOST,
        todo: `Stop by ${stopwatch(stopByS)}, ${touch} ${when}`,
      };
    },
    "heat-unchecked": () => ({
      act: "Watch the tools",
      what: "This phone cannot check heat alarms",
      todo: "Watch every heat yourself",
    }),
    "set-check-by-touch": ({ toolKind, isPhoneLost }) => ({
      act: "Check by touch",
      what: "May be set",
      todo: `${isChamber(toolKind) ? "Take it out with dry mitts, then touch" : "Touch"} an edge lightly. A slight gloss is normal; stop at the first dulling or bulge${isPhoneLost ? `. ${LOST}` : ""}`,
    }),
    "tool-left-on": () => ({
      act: "Switch it off",
      what: "On with no tray under it",
      todo: "Or say that it is still in use",
    }),
    "oven-too-hot": ({ toolKind }) =>
      isChamber(toolKind)
        ? {
            act: "Take trays out",
            what: "Hotter than it may be for iced work",
            todo: "With dry mitts; turn it down and read it again",
          }
        : {
            act: "Switch it off",
            what: "Hotter than it may be for iced work",
            todo: "Let it cool and read it again",
          },
    "bubbles-last-chance": ({ isInHand }) =>
      isInHand
        ? {
            act: "Needle bubbles",
            what: "First cookies: last chance for bubbles",
            todo: "A skin may close on the first ones within minutes",
          }
        : {
            act: "Needle bubbles",
            what: "Last chance for bubbles",
            todo: "Settle the icing too: a skin may close within minutes",
          },
    "will-sink": ({ risk }) => ({
      act: "Heat-set it now",
      what: risk === "most" ? "Small sections will most likely sink" : "Small sections may sink",
      todo: "In the next minutes, before the skin closes",
    }),
    "icing-too-old": ({ consistency, useByAtMs, startedAtMs }, names) => {
      const isSameDay = format.day(useByAtMs) === format.day(startedAtMs);
      return {
        act: "Take fresh icing",
        what: `${icing(names, consistency)} is past its use-by`,
        todo: `It was to be used by ${isSameDay ? format.time(useByAtMs) : format.dayTime(useByAtMs)}. Your kitchen's plan and local codes decide`,
      };
    },
    "waiting-long": ({ trays, hurry }) => ({
      act: "Work on these next",
      what: `${format.sentence(terms.trays(trays))} waiting too long`,
      todo:
        hurry.is === "before closing"
          ? `The order must be packed before ${format.time(hurry.packBeforeMs)}`
          : hurry.is === "short of time"
            ? "The order is short of time"
            : "The order has little time to spare",
    }),
    "pick-up-at-risk": ({ risk }) => {
      switch (risk.is) {
        case "not on trays":
        case "spoiled":
          return {
            act: "Begin them now",
            what:
              risk.is === "spoiled"
                ? `${terms.cookies(risk.cookies)} short: they were spoiled`
                : `${terms.cookies(risk.cookies)} not on trays yet`,
            todo: "Or change the order: they cannot be ready by its pick-up",
          };
        case "never dries":
          return adviceText("Will not dry where it stands");
        case "late": {
          const what = risk.hasMissed ? "Has missed its pick-up" : "Likely to miss its pick-up";
          if (risk.help === "advice") return adviceText(what);
          return risk.help === "pack"
            ? { act: "Pack it", what, todo: "It is dry" }
            : { act: "Check it by touch", what, todo: "Then pack it" };
        }
        case "may be late":
          return {
            act: "Keep an eye on it",
            what: "Could miss its pick-up",
            todo: "Likely in time, but not if it dries as late as it may",
          };
        default:
          return unreachable(risk);
      }
    },
    "order-short": ({ cookies }) => ({
      act: "Begin a make-up tray",
      what: `${terms.cookies(cookies)} short`,
      todo: "Or change the order: cookies were spoiled",
    }),
    "will-not-dry-here": ({ trays }) => ({
      act: `Move ${terms.trays(trays)}`,
      what: "Too damp to dry icing",
      todo: "To drier or warmer air, or dry the room",
    }),
    "air-changed": ({ rhPctBy, later, sooner }) => ({
      act: "Look at the times",
      what: humidityChange(rhPctBy),
      todo: `Forecasts moved: ${format.and([...(later > 0 ? [`${later} later`] : []), ...(sooner > 0 ? [`${sooner} sooner`] : [])])}`,
    }),
    "sensor-silent": () => ({
      act: "Check its power and network",
      what: "The hygrometer has gone quiet",
      todo: "Until then forecasts there are less sure",
    }),
    "device-waits": ({ as, isLead }, { holder = "someone" }) => ({
      act: "Let it in or turn it away",
      what: `A ${as === "bench" ? "bench screen" : "phone"} asks to join as ${name(holder)}${isLead ? ", who leads" : ""}`,
      todo: "Only if you know whose it is",
    }),
  };

  /** "Humidity up 4 points"; where it moved too little to be the reason, that the air changed. */
  function humidityChange(rhPctBy: number): string {
    const points = Math.round(Math.abs(rhPctBy));
    if (points < HUMIDITY_TELLS) return "The air has changed";
    return `Humidity ${rhPctBy > 0 ? "up" : "down"} ${points} points`;
  }

  return {
    texts,
    humidityChange,
    /** Before what a phone says of its own heat while it hears nothing. */
    offline: "No connection: the room is not alerted.",
    about: (subject: string, what: string) => `${name(subject)}: ${what}`,
    tray: (number: number) => `Tray ${number}`,
    label: "Alerts",
    urgentLabel: "Urgent alerts",
    show: "show",
    hide: "hide",
    seen: "Seen",
    inTenMinutes: "In 10 min",
    isOff: "It is off",
    stillInUse: "Still in use",
    letIn: "Let it in",
    turnAway: "Turn it away",
    isLetIn: "Let in",
    isTurnedAway: "Turned away",
    toolOff: "Tool off",
    toolStillInUse: "Tool still in use",
    you: "you",
    someone: "someone",
    seenBy: (who: string) => `seen by ${name(who)}`,
    clearsByItself: (who: string) => `seen by ${name(who)}: it clears by itself`,
    seenCount: (count: number) => `${format.count(count, { one: "alert", other: "alerts" })} seen`,
    more: (count: number) => `and ${count} more: see Room`,
    moreOf: (count: number, which: string) =>
      `and ${count} more: ${which === "" ? "" : `${which}, `}see Room`,
    moreUrgent: (count: number, which: string, seen: number) =>
      `and ${count} more urgent${which === "" ? "" : `: ${which}`}${seen === 0 ? "" : `; ${seen} seen`}`,
    showFewer: "Show fewer",
    means: {
      title: "Alerts on this phone",
      soundOn: "Sound is on: this page can be heard now.",
      noSound: "No sound yet: tap anywhere to let this phone sound.",
      noVibration: "This browser cannot vibrate: it alerts by sound alone. Keep the volume up.",
      goesDark: {
        "no-lock":
          "This browser cannot keep the screen awake: set the phone to lock later, or touch it now and then during heat.",
        "plain-connection":
          "On this plain connection the page cannot keep the screen awake: set the phone to lock later, or ask for the kitchen's https address.",
      },
      locked: "Locked, or with another app in front, it cannot alert: the wall and other phones will.",
      volume: "A mute switch or a low volume cannot be seen from here: check them.",
      tryIt: "Try the sound",
    },
    refused: {
      aTap: "A tap",
      notTaken: (subject: string, at: string | undefined) =>
        at === undefined ? `${subject} was not accepted` : `${subject} · the tap of ${at} was not accepted`,
      anyway: "Do it anyway",
      understood: "Understood",
      done: "Done",
    },
  };
};
