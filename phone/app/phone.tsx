import {
  type Accessor,
  createContext,
  createSignal,
  getOwner,
  onCleanup,
  type Owner,
  runWithOwner,
  useContext,
} from "solid-js";
import type { RefusedAnswer } from "#shared/protocol/command.ts";
import type { Theme } from "#shared/client/screen/theme.ts";
import type { Board } from "#shared/client/screen/board.ts";
import type { CommandInput } from "#shared/kitchen/model/command.ts";
import { every, type Timer } from "#shared/client/sync/timer.ts";
import type { KitchenUnits } from "#shared/units.ts";
import type { FirstWords, Words } from "#shared/words/words.ts";
import { wholeWords } from "#shared/client/screen/language.ts";
import type { Whole } from "./whole.ts";
import type { Alarm } from "#phone/alerts/alarm.ts";
import type { Ask } from "#phone/ui/ask.ts";
import type { StoryShelf } from "#phone/story/story-shelf.ts";
import type { Path } from "./path.ts";
import type { Photos } from "./photos.ts";

/** What was just done, with an undo where it was done to trays or a batch of icing: the newest act is taken back first. */
export interface Toast {
  text: string;
  undo?: readonly CommandInput[];
}

/** What stands in the way of an act; with the command to send again where a second tap may accept the risk. */
export interface Question {
  fact: RefusedAnswer["fact"];
  accept?: { input: CommandInput; said?: string | undefined; atMs?: number | undefined };
}

/** Paper that sheets are laid out for. */
export type Paper = "a4" | "letter";

/** What a screen that is loaded later works with. */
export interface Phone extends FirstPhone {
  words: Accessor<Words>;
}

/** What every screen of the phone works with. */
export interface FirstPhone {
  board: Board;
  words: Accessor<FirstWords>;
  /** What all screens but the first need: all words, and what decides all commands. */
  whole: Whole;
  path: Accessor<Path>;
  go: (path: string) => void;
  units: Accessor<KitchenUnits>;
  zone: Accessor<string>;
  isLead: Accessor<boolean>;
  /** Wide enough for a desk: navigation at the side, a list beside its detail. */
  isWide: Accessor<boolean>;
  /** A quarter-second beat for count-ups; everything else hangs on `board.nowMs`. */
  fineMs: () => number;
  /** Does it, tells so with an undo, or asks the second tap. True when it was done. */
  act: (input: CommandInput, said?: string, atMs?: number) => boolean;
  /** Does them in turn up to one that is refused, which is asked about; one toast tells of those done, and undoes them all. */
  actAll: (inputs: readonly CommandInput[], said: (count: number) => string) => void;
  toast: Accessor<Toast | undefined>;
  closeToast: () => void;
  question: Accessor<Question | undefined>;
  askOf: (refusal: RefusedAnswer, input: CommandInput, said?: string, atMs?: number) => void;
  closeQuestion: () => void;
  newId: () => string;
  timer: Timer;
  /** Asks the server for what is not on the board. */
  ask: Ask;
  photos: Photos;
  /** Prints the page; absent where the browser cannot. */
  print?: (() => void) | undefined;
  /** What it is printed on: by the kitchen's units, until another is chosen. */
  paper: Accessor<Paper>;
  choosePaper: (paper: Paper) => void;
  alarm: Alarm;
  theme: Theme;
  /** Where it keeps how far its owner is in the story of a practice kitchen. */
  storyShelf: StoryShelf;
  /** Under which anything is made that lives as long as the phone. */
  owner: Owner | null;
  /** Forgets the kitchen on this phone, and asks to join again. */
  leave: () => void;
}

/** How long the toast offers its undo, and how long it tells what cannot be undone there; real time. */
const UNDO_MS = 20_000;
const TOLD_MS = 5_000;
const FINE_MS = 250;

export type PhonePorts = Pick<
  FirstPhone,
  | "board"
  | "words"
  | "whole"
  | "path"
  | "go"
  | "newId"
  | "timer"
  | "ask"
  | "photos"
  | "print"
  | "alarm"
  | "theme"
  | "leave"
  | "isWide"
  | "storyShelf"
>;

export function createPhone(ports: PhonePorts): FirstPhone {
  const { board, timer } = ports;
  const [toast, setToast] = createSignal<Toast>();
  const [question, setQuestion] = createSignal<Question>();
  const [paper, choosePaper] = createSignal<Paper>();
  const [fine, setFine] = createSignal(0);
  onCleanup(every(timer, FINE_MS, () => setFine((n) => n + 1)));
  onCleanup(() => cancelToast());
  let cancelToast = (): void => undefined;
  const zone = (): string => board.kitchen().settings.timeZone;

  function show(next: Toast): void {
    cancelToast();
    setToast(next);
    cancelToast = timer.after((next.undo ?? []).length === 0 ? TOLD_MS : UNDO_MS, () => setToast(undefined));
  }
  function askOf(refusal: RefusedAnswer, input: CommandInput, said?: string, atMs?: number): void {
    const canAccept = refusal.reason === "risk" && "trayId" in input;
    setQuestion({
      fact: refusal.fact,
      ...(canAccept ? { accept: { input: { ...input, acceptRisk: true } as CommandInput, said, atMs } } : {}),
    });
  }

  /** When it was done, and what takes it back; undefined where it was refused, which is asked about. */
  function doOne(
    input: CommandInput,
    said?: string,
    atMs?: number,
  ): { atMs: number; undo: readonly CommandInput[] } | undefined {
    const acted = board.act(input, atMs);
    if (!acted.ok) {
      askOf(acted.refusal, input, said, atMs);
      return undefined;
    }
    return { atMs: acted.atMs, undo: acted.undo === undefined ? [] : [acted.undo] };
  }

  return {
    ...ports,
    owner: getOwner(),
    units: () => board.kitchen().settings.units,
    zone,
    isLead: () => board.role() === "lead",
    paper: () => paper() ?? (board.kitchen().settings.units === "us" ? "letter" : "a4"),
    choosePaper,
    fineMs() {
      fine();
      return board.instantMs();
    },
    act(input, said, atMs) {
      const done = doOne(input, said, atMs);
      if (done !== undefined && said !== undefined)
        show({ text: `${said} ${ports.words().format.timeToSecond(done.atMs)}`, undo: done.undo });
      return done !== undefined;
    },
    actAll(inputs, said) {
      const undos: CommandInput[] = [];
      let count = 0;
      let lastMs = 0;
      for (const input of inputs) {
        const done = doOne(input);
        if (done === undefined) break;
        undos.unshift(...done.undo);
        count += 1;
        lastMs = done.atMs;
      }
      if (count > 0)
        show({ text: `${said(count)} ${ports.words().format.timeToSecond(lastMs)}`, undo: undos });
    },
    toast,
    closeToast: () => setToast(undefined),
    question,
    askOf,
    closeQuestion: () => setQuestion(undefined),
  };
}

export const PhoneContext = createContext<FirstPhone>();

/** The phone, for what is in its first screen. */
export function useFirst(): FirstPhone {
  const phone = useContext(PhoneContext);
  if (phone === undefined) throw new Error("a screen was rendered outside the phone");
  return phone;
}

/** The phone with all of its words, for what is loaded later. */
export function usePhone(): Phone {
  const phone = useFirst();
  return { ...phone, words: wholeWords(phone.words) };
}

/** Something of which each phone has one: made when it is first asked for, and kept as long as the phone. */
export function onePerPhone<Thing>(make: (phone: FirstPhone) => Thing): () => Thing {
  const made = new WeakMap<Board, Thing>();
  return () => {
    const phone = useFirst();
    const thing = made.get(phone.board) ?? runWithOwner(phone.owner, () => make(phone))!;
    made.set(phone.board, thing);
    return thing;
  };
}
