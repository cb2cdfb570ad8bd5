import type { WhyNever } from "#shared/drying/film/film.ts";
import type { Formats } from "#shared/words/formats.ts";
import { drying } from "./drying.ts";

const PHONES = { one: "phone", other: "phones" };

/** The wall: its lanes, tiles, top line, menu, joining and beginning. */
export const wall = (format: Formats) => {
  const trays = (count: number): string => format.count(count, { one: "tray", other: "trays" });
  const { name } = format;
  return {
    more: (count: number) => `and ${count} more`,
    lanes: {
      flooding: { name: "Flooding", hint: "needle while wet" },
      "heat-set": { name: "Heat-set", hint: "count up" },
      crusting: { name: "Crusting", hint: "next layer waits" },
      "full-dry": { name: "Full-dry", hint: "then detail or pack" },
    },
    coming: "Coming in",
    comingLegend: "bar earliest to latest, line likeliest",
    comingStale: "as last heard, times not live",
    closedHours: "hatched: closed",
    /** A pick-up on the axis. */
    flag: (order: string, time: string) => `${name(order)} ${time}`,
    now: "now",
    tomorrow: "tomorrow",
    inMinutes: (minutes: number) => (minutes < 60 ? `${minutes} m` : `${minutes / 60} h`),
    pill: {
      hot: "hot",
      later: "later",
      sooner: "sooner",
      stop: "stop",
      unknown: "no forecast yet",
      never: "will not dry here",
    },
    ready: {
      title: "Ready for hands",
      byPlan: "by the day's plan",
      staleTitle: "Was ready",
      stale: "when last heard",
      none: "Nothing needs anyone right now",
      toStart: "to start",
      more: (count: number, numbers: string) => `and ${count} more${numbers === "" ? "" : `: ${numbers}`}`,
      moreToStart: (count: number, numbers: string) =>
        `${count} to start${numbers === "" ? "" : `: ${numbers}`}`,
      hotUntil: (time: string) => `hot until about ${time}`,
      dryMitts: "dry mitts",
      next: (wait: string) => `next: ${wait}`,
      waits: (span: string) => `waiting ${span}`,
      waitsSince: "now",
    },
    alert: {
      asLastHeard: (time: string) => `when last heard, began ${time}`,
      seenBy: (who: string) => `${name(who)} has seen it`,
      open: "Open",
      openTray: (number: number) => `Tray ${number}: open`,
    },
    air: {
      none: "No air reading",
      reading: (tempC: number, rhPct: number) => `${format.temp(tempC)} · ${format.percent(rhPct)} RH`,
      assumed: "assumed: no hygrometer read",
      stuck: "hygrometer stuck: times are wider",
      lastRead: (time: string) => `last read ${time}: times are wider`,
      never: (film: string, why: WhyNever) => `${film} will not skin: ${drying(format).why(why)}`,
      skinsOnly: (film: string, skin: string, why: WhyNever) =>
        `${film} skins in ${skin}, will not dry through: ${drying(format).why(why)}`,
      dries: (film: string, skin: string, dry: string) => `${film} skins in ${skin}, dries through in ${dry}`,
      film: (thicknessMm: number, consistency: string) => `A ${format.length(thicknessMm)} ${consistency}`,
      changedSince: (change: string, time: string) => `${change} since ${time}`,
      moved: (later: number, sooner: number) => {
        if (later === 0) return `${trays(sooner)} ready sooner than first shown`;
        if (sooner === 0) return `${trays(later)} ready later than first shown`;
        return `${trays(later)} ready later, ${sooner} sooner than first shown`;
      },
    },
    tools: {
      onSince: (tool: string, minutes: number, holder: string) =>
        `${name(tool)} on ${format.span(minutes)}, ${name(holder)}`,
      heldBy: (tool: string, holder: string) => `${name(tool)} (${name(holder)})`,
      hotUntil: (tool: string, time: string) => `${name(tool)} hot until about ${time}`,
      hotTray: (number: number, time: string) => `${number} until about ${time}`,
      hotTrays: (trays: readonly string[]) => `Hot, dry mitts: ${trays.join(", ")}`,
      hotTraysLast: (numbers: string, time: string) =>
        `Hot, dry mitts: ${numbers}, the last until about ${time}`,
      asLastHeard: (line: string) => `As last heard: ${line}`,
      unconfirmed: "Closed: not confirmed off",
    },
    practice: (speed: number) => `practice kitchen · ${speed}×`,
    top: {
      stale: (time: string) => `No word from the kitchen's server since ${time}. Times below are not live.`,
      notLive: "Times below are not live.",
      cannotSave: "The server cannot save: taps wait on the phones. Alarms go on.",
      live: "live",
      cannotSaveShort: "cannot save",
      reload: "reload",
      reconnecting: "reconnecting",
      phones: (count: number) => format.count(count, PHONES),
    },
    sheet: {
      which: "Which tray?",
      howMany: "how many cookies?",
      notSet: "Stop: not set yet",
      swollen: "Stop: swollen or cracked",
      anyway: (act: string) => `${act} anyway`,
      close: "Close",
      done: (tray: number, act: string) => `Tray ${tray}: ${act}`,
      undo: "Undo",
      replaced: {
        title: "The kitchen was put back to an earlier copy",
        text: "What was done after it is not on the board.",
      },
    },
    menu: {
      title: "This screen",
      soundOn: "sound on",
      soundOff: "sound off: tap once",
      sound: "Sound",
      notArmed: "Not ready: this browser lets sound in only after a tap or a key on this screen.",
      armed: "Ready. Urgent alerts sound until someone answers on a phone.",
      loudness: "Loudness",
      tries: { urgent: "Try urgent", prompt: "Try prompt", note: "Try note" },
      theme: "Theme",
      themes: { auto: "by opening hours", day: "day", night: "night" },
      language: "Language",
      size: "Size",
      goesDark:
        "This browser does not keep the screen awake here: switch off sleep and the screen saver in the device's settings.",
      leave: "Leave this kitchen",
      sizeIs: (diagonalCm: number, farthestM: number) =>
        `Laid out for a ${diagonalCm} cm screen and a reader ${farthestM} m away. A lead changes both on a phone: Room, Kitchen.`,
      tooSmall: (size: { farthestM: number; acrossM: number; nearM: number; needCm: number }) =>
        `This wall is too small for ${metres(size.farthestM)}: its tray numbers, acts and alarms can be read from ${metres(size.acrossM)}, the rest from ${metres(size.nearM)}. It would take a screen of about ${size.needCm} cm.`,
    },
    join: {
      title: "Traytide wall",
      about:
        "Show this kitchen's board here. The join code is on the server's screen, and on any lead's phone under Room.",
      code: "Join code",
      kind: "This screen is",
      wall: { name: "a wall", does: "that shows" },
      bench: { name: "a bench", does: "that can be tapped: a tile opens the tray's next act" },
      name: "Its name",
      usualNames: { wall: "Wall", bench: "Bench" },
      busy: "Joining…",
      show: "Show the board",
      waiting: "Waiting for the kitchen's server…",
      reloaded: "It has reloaded itself once, and that did not help.",
      reload: "Reload",
    },
    begin: {
      title: "Nothing on the racks yet",
      setUpTitle: "Set up the kitchen on a phone",
      network: "Join this kitchen's network with a phone and open",
      addressOnServer: "the address on the server's own screen",
      withCode: "Join with the code",
      codeOnServer: "on the server's screen",
      firstLeads: "The first to join leads: enter places, icings and designs under Room",
      leadsSetUp: "A lead enters places, icings and designs under Room",
      enterOrder: "Enter an order and its trays under Orders. They show here at once.",
      practice: "To try it first with invented trays and a fast clock, start the server with",
    },
  };

  function metres(lengthM: number): string {
    return `${format.number(Math.floor(lengthM * 10) / 10, 1)} m`;
  }
};
