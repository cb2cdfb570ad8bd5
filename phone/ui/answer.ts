import { createEffect, createMemo, createSignal, onCleanup } from "solid-js";
import type { Accessor } from "solid-js";
import { every } from "#shared/client/sync/timer.ts";
import type { Asked } from "./ask.ts";
import { usePhone } from "#phone/app/phone.tsx";

/**
 * The server's answer at a path, asked again when the path, `key`, `again` or the language changes, and every so often. The last
 * one stands meanwhile, but not once the path or `key` changed: it answers another question. Nothing is asked while there is no path.
 */
export function createAnswer<Answer>(
  path: Accessor<string | undefined>,
  everyMs: number,
  key: Accessor<unknown> = () => undefined,
  again: Accessor<unknown> = () => undefined,
): Accessor<Asked<Answer> | undefined> {
  const { ask, board, timer, words } = usePhone();
  const [answer, setAnswer] = createSignal<Asked<Answer>>();
  const [beat, setBeat] = createSignal(0);
  const language = createMemo(() => words().format.language);
  const isLive = createMemo(() => board.connection().is === "live");
  /** The newest question: answers to older ones are dropped, and all of them once the screen is left. */
  let newest: object | undefined;
  onCleanup(every(timer, everyMs, () => setBeat((n) => n + 1)));
  onCleanup(() => (newest = undefined));
  let asked: { path: string | undefined; key: unknown } = { path: undefined, key: undefined };
  createEffect(() => {
    beat();
    again();
    language();
    const question = { path: path(), key: key() };
    if (question.path !== asked.path || question.key !== asked.key) {
      newest = undefined;
      setAnswer(undefined);
    }
    asked = question;
    if (!isLive() || question.path === undefined) return;
    newest = question;
    void ask<Answer>(question.path).then((given) => {
      if (newest === question) setAnswer(() => given);
    });
  });
  return answer;
}
