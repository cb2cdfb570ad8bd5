import { createEffect, createMemo, createSignal, onCleanup } from "solid-js";
import type { Accessor } from "solid-js";
import { every } from "#shared/client/timer.ts";
import type { Asked } from "./ask.ts";
import { usePhone } from "./phone.tsx";

/** The server's answer at a path, asked again when the path or `key` changes and every so often. The last one stands meanwhile. */
export function createAnswer<Answer>(
  path: Accessor<string>,
  everyMs: number,
  key: Accessor<unknown> = () => undefined,
): Accessor<Asked<Answer> | undefined> {
  const { ask, board, timer } = usePhone();
  const [answer, setAnswer] = createSignal<Asked<Answer>>();
  const [beat, setBeat] = createSignal(0);
  const isLive = createMemo(() => board.connection().is === "live");
  /** The newest question: answers to older ones are dropped, and all of them once the screen is left. */
  let newest: object | undefined;
  onCleanup(every(timer, everyMs, () => setBeat((n) => n + 1)));
  onCleanup(() => (newest = undefined));
  createEffect(() => {
    beat();
    key();
    const to = path();
    if (!isLive()) return;
    const question = {};
    newest = question;
    void ask<Answer>(to).then((given) => {
      if (newest === question) setAnswer(() => given);
    });
  });
  return answer;
}
