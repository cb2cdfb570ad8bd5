import { For, Show, createMemo } from "solid-js";
import { isForLeads } from "#shared/kitchen/model/server-problem.ts";
import { usePhone } from "./phone.tsx";
import { Bar, createWaiting } from "./status.tsx";

/**
 * What the server cannot check: above the page like what is urgent, since an alert may be missing for it. What can wait is for a lead,
 * looks calmer, and is on the page about backups anyway.
 */
export function ProblemBar() {
  const { board, words, path } = usePhone();
  const isOnBackups = (): boolean => path().join("/") === BACKUPS;
  const shown = createMemo(() =>
    board
      .problems()
      .filter((one) => !(isForLeads(one) && isOnBackups()))
      .toSorted((a, b) => Number(isForLeads(a)) - Number(isForLeads(b))),
  );
  return (
    <Show when={board.connection().is === "live" && shown().length > 0}>
      <div class="problems">
        <For each={shown()}>
          {(problem) => (
            <Show when={isForLeads(problem)} fallback={<Bar title={words().server.problems.say(problem)} />}>
              <section class="lost-bar calm" aria-live="polite">
                <a href={`#/${BACKUPS}`}>{words().server.problems.say(problem)}</a>
              </section>
            </Show>
          )}
        </For>
      </div>
    </Show>
  );
}

const BACKUPS = "kitchen/backups";

/** Across the top while the server cannot save: what waits, and what to do about it. */
export function CannotSave() {
  const { board, words } = usePhone();
  const waiting = createWaiting();
  const app = () => words().app;
  return (
    <Show when={board.connection().is === "live" && board.saveTrouble()}>
      {(trouble) => (
        <Bar
          title={app().cannotSave.title}
          text={`${app().cannotSave.text(waiting())} ${words().server.problems.remedy(trouble())}`}
        />
      )}
    </Show>
  );
}
