import { unreachable } from "#shared/outcome.ts";
import type { JoinFault } from "#shared/join-fault.ts";
import type { Formats } from "#shared/words/formats.ts";

/** Joining, connection, navigation, forms and questions of the phone. */
export const app = (_format: Formats) => ({
  language: "Language",
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
      case "refused":
        return fault.message;
      case "failed":
        return `The server could not let this ${screen} in (answer ${fault.status}). Try again.`;
      default:
        return unreachable(fault);
    }
  },
});
