import { unreachable } from "#shared/outcome.ts";
import type { JoinFault } from "#shared/join-fault.ts";
import type { Formats, Plural } from "#shared/words/formats.ts";

const HAS_NAME = { person: "person", wall: "wall screen", sensor: "hygrometer" } as const;
const TAPS: Plural = { one: "tap", other: "taps" };

/** Joining, connection and navigation. */
export const app = (format: Formats) => ({
  language: "Language",
  theme: {
    label: "Theme",
    auto: "As the phone",
    day: "Day",
    night: "Night",
  },
  /** Every screen of the phone, by its name. A tray's has its number. */
  titles: {
    trays: "Trays",
    tray: (number: string) => `Tray ${number}`,
    "tray-heat": (number: string) => `Heat-set · tray ${number}`,
    heat: "Heat",
    plan: "Plan",
    orders: "Orders",
    "new-order": "A new order",
    order: "The order",
    icing: "Icing to mix",
    "order-icing": "Icing to mix",
    batch: "A batch of icing",
    recipes: "Recipes",
    recipe: "The recipe",
    "tray-label": (number: string) => `Label of tray ${number}`,
    "order-labels": "The order's labels",
    print: "Labels and sheets",
    designs: "Designs",
    design: "The design",
    "new-design": "A new design",
    icings: "Icings",
    colour: "The icing",
    room: "Room",
    settings: "Settings",
    places: "Places",
    tools: "Heat tools",
    hygrometers: "Hygrometers",
    trust: "How this kitchen dries",
    day: "Day sheet",
    "hand-over": "Shift hand-over",
    devices: "Phones and screens",
    backups: "Backups",
    done: "Who did what",
    "set-up": "Set up the kitchen",
  },
  screens: "Screens",
  noSuchPage: "No such page",
  toTrays: "To your trays",
  forLeads: "This page is for the kitchen's leads.",
  isBeingSetUp: "A lead is setting up the kitchen. This page goes on by itself.",
  looking: {
    connecting: "Looking for the kitchen…",
    outdated: "The kitchen is shown once this page is reloaded.",
    lost: "The kitchen does not answer. Trying again.",
  },
  status: {
    live: "live",
    cannotSave: "server cannot save",
    sending: (count: number) => `sending ${format.count(count, TAPS)}`,
    connecting: "connecting…",
    lost: "no connection",
    refused: "not joined",
    waiting: "waiting to be let in",
    outdated: "reload this page",
    practice: (speed: number) => (speed > 1 ? `practice ×${format.number(speed)}` : "practice"),
    noSound: "no sound: tap",
    since: (when: string) => `since ${when}`,
  },
  cannotSave: {
    title: "The server cannot save",
    text: (waiting: number) =>
      waiting === 0
        ? "What you tap waits here and is sent once it can. Alarms go on."
        : `Waiting: ${format.count(waiting, TAPS)}, sent once it can. Alarms go on.`,
  },
  isOutdated: (waiting: number) =>
    waiting === 0
      ? "What you tap is kept and sent after that. The board is as last heard."
      : `Waiting: ${format.count(waiting, TAPS)}, sent after that. The board is as last heard.`,
  reload: "Reload",
  undo: "Undo",
  takenBack: (count: number) => (count === 1 ? "Taken back" : `${format.number(count)} taken back`),
  /** A screen whose code is still to come. */
  later: {
    opening: "Opening…",
    notLoaded: "This page could not be loaded from the server. Reload it.",
    notLoadedYet:
      "This page had not been loaded when the connection went. It opens once the kitchen answers.",
  },
  replaced: {
    title: "The kitchen was put back to an earlier copy",
    text: "What was done after that copy is not on the board. Look through your trays.",
  },
  understood: "Understood",
  lost: {
    title: (when: string) => `No connection since ${when}`,
    text: (waiting: number) =>
      waiting === 0
        ? "What you tap is kept and sent once it is back. Others' taps are not shown."
        : `Waiting: ${format.count(waiting, TAPS)} to send, each once.`,
    keepsNothing: "This phone keeps nothing through a reload: leave this page open.",
  },
  join: {
    title: "Join the kitchen",
    name: "Your name",
    code: "Join code",
    codeHint: "On the server's screen. Scanning the code there fills it in.",
    noCode: "The join code is missing: it is on the server's screen.",
    noName: "Your name is missing: the others see who is doing what.",
    join: "Join",
    joining: "Joining…",
    tapHint: "this first tap also lets the phone sound its alerts",
  },
  waiting: {
    title: "Waiting to be let in",
    text: (who: string, screen: "phone" | "screen") =>
      `${format.name(who)} is in this kitchen already. A lead is asked on their phone whether this ${screen} is theirs too.`,
    leadCode:
      "No lead at hand? Join again with the lead code, which the server showed when it was first started.",
  },
  joinAgain: "Join again",
  tryAgain: "Try again",
  notKnown: { phone: "This phone is not in the kitchen", screen: "The kitchen no longer knows this screen" },
  outdated: "This page and the server are of different versions: reload it.",
  /** Why a phone or another screen is not let in. */
  joinFault: (fault: JoinFault, screen: "phone" | "screen") => {
    switch (fault.code) {
      case "not-known":
        return `The server no longer knows this ${screen}.`;
      case "no-answer":
        return `The kitchen's server does not answer. Is this ${screen} on the kitchen's network?`;
      case "wrong-code":
        return "That is not the kitchen's join code: it is on the server's screen.";
      case "too-many":
        return "Too many tries. Wait a minute, then try again.";
      case "name-taken":
        return `${format.name(fault.name)} is a ${HAS_NAME[fault.of]} here already: choose another name.`;
      case "refused":
        return fault.message;
      case "failed":
        return `The server could not let this ${screen} in (answer ${fault.status}). Try again.`;
      default:
        return unreachable(fault);
    }
  },
});
