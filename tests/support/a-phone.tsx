import { createRoot, createSignal } from "solid-js";
import { render } from "@solidjs/testing-library";
import { afterEach } from "vitest";
import { createBoard } from "#shared/client/screen/board.ts";
import type { OutboxItem } from "#shared/client/sync/outbox.ts";
import type { PersonId } from "#shared/ids.ts";
import { FIRST_DECIDER } from "#shared/client/screen/decider.ts";
import { WHOLE_DECIDER } from "#shared/client/screen/whole-decider.ts";
import { App } from "#phone/app/app.tsx";
import { loadAllLater } from "#phone/app/later.tsx";
import type { Photos, TracedPhoto } from "#phone/app/photos.ts";
import type { Asked } from "#phone/ui/ask.ts";
import { createAlarm } from "#phone/alerts/alarm.ts";
import { createPhone } from "#phone/app/phone.tsx";
import type { Whole } from "#phone/app/whole.ts";
import { pathOf } from "#phone/app/path.ts";
import { createWords } from "#shared/client/screen/language.ts";
import { englishFirst } from "#shared/words/en/first.ts";
import { english } from "#shared/words/en/index.ts";
import { type BusyBoard, busyBoard } from "./board-fixture.ts";
import { id } from "./scene.ts";
import { DAY_THEME, ENGLISH_CHOICE, InEnglish } from "./words.tsx";
import { HandServer, HandSocket, HandTimer } from "./sockets.ts";

// As on a phone that has had its quiet moment.
await loadAllLater();

const closers: (() => void)[] = [];
afterEach(() => {
  for (const close of closers.splice(0)) close();
});

interface PhoneOptions {
  connect?: boolean;
  /** Who holds it: Wren, unless told. */
  person?: string;
  on?: BusyBoard;
  /** What the server answers under /api, by path; others find no server. */
  answers?: Record<string, unknown>;
  /** On a desk. */
  isWide?: boolean;
  /** What it has of what is loaded after the first screen: all, unless told. */
  whole?: Whole;
  /** Photos by design: those on this device, and those the kitchen has. */
  photos?: HeldPhotos;
}

export interface HeldPhotos {
  kept: Map<string, TracedPhoto>;
  shared: Map<string, Blob>;
}

/** Photos that are held in memory; every file is a picture as large as it says. */
const photosAt = ({ kept, shared }: HeldPhotos): Photos => ({
  scaled: async (file) =>
    file.type.startsWith("image/") ? { jpeg: file, widthPx: 400, heightPx: 400 } : undefined,
  kept: async (designId) => kept.get(designId),
  keep: async (designId, photo) => void kept.set(designId, photo),
  drop: (designId) => void kept.delete(designId),
  shared: async (designId) => shared.get(designId),
  async share(designId, jpeg) {
    shared.set(designId, jpeg);
    return { ok: true, value: {} };
  },
  clear: () => kept.clear(),
});

/** Someone's phone over a busy board, at one screen, its sockets and clock in the test's hands. */
export async function aPhone(
  hash: string,
  {
    connect = true,
    person = "wren",
    on = busyBoard(),
    answers = {},
    isWide = false,
    whole = { isHere: () => true, load: async () => undefined },
    photos = { kept: new Map(), shared: new Map() },
  }: PhoneOptions = {},
) {
  const { kitchen, forecasts, nowMs } = on;
  const choice = { ...ENGLISH_CHOICE, dictionary: () => (whole.isHere() ? english : englishFirst) };
  const timer = new HandTimer(nowMs);
  const server = new HandServer(() => timer.nowMs(), kitchen, forecasts);
  const me = id<PersonId>(person);
  const socket = new HandSocket(server, me, timer);
  let ids = 0;
  const newId = (): string => `tap-${(ids += 1)}`;
  const went: string[] = [];
  const asked: string[] = [];
  const story: { kept: unknown } = { kept: undefined };
  const kept = new Map<string, OutboxItem>();
  const [path, setPath] = createSignal(pathOf(hash));
  /** As a link that is followed. */
  const goTo = (next: string): void => void setPath(pathOf(next));
  const [board, phone] = createRoot((dispose) => {
    closers.push(dispose);
    const board = createBoard({
      me: {
        deviceId: "d1",
        personId: me,
        name: kitchen.people[person]?.name ?? person,
        role: kitchen.people[person]?.role ?? "decorator",
      },
      open: socket.opened,
      timer,
      onWake: () => () => undefined,
      reload: () => false,
      decider: () => (whole.isHere() ? WHOLE_DECIDER : FIRST_DECIDER),
      store: {
        load: async () => [...kept.values()],
        put: async (item) => void kept.set(item.command.commandId, item),
        drop: async (commandId) => void kept.delete(commandId),
      },
      newId,
    });
    const phone = createPhone({
      board,
      words: createWords(choice, () => board.kitchen().settings),
      whole,
      timer,
      path,
      go: (path) => void went.push(path),
      isWide: () => isWide,
      storyShelf: { read: () => story.kept, keep: (next) => void (story.kept = next) },
      newId,
      ask: async <Answer,>(path: string): Promise<Asked<Answer>> => {
        asked.push(path);
        return path in answers
          ? { ok: true, value: answers[path] as Answer }
          : { ok: false, fault: { code: "no-answer" } };
      },
      photos: photosAt(photos),
      alarm: createAlarm({ openAudio: () => undefined, vibrate: undefined }),
      theme: DAY_THEME,
      leave: () => undefined,
    });
    return [board, phone] as const;
  });
  const view = render(() => (
    <InEnglish choice={choice} place={() => board.kitchen().settings}>
      <App phone={phone} />
    </InEnglish>
  ));
  closers.push(view.unmount);
  if (connect) socket.connect();
  await socket.flush();
  return { ...view, goTo, board, server, socket, timer, went, asked };
}

export const texts = (root: HTMLElement, selector: string): string[] =>
  [...root.querySelectorAll(selector)].map((node) => node.textContent ?? "");
