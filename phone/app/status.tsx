import { For, Show, createMemo } from "solid-js";
import { usePhone } from "./phone.tsx";

/** How many taps are not yet sent. */
const createWaiting = () => {
  const { board } = usePhone();
  return createMemo(() => board.outbox().filter(({ is }) => is === "waiting").length);
};

/** Whether this phone shows the kitchen as it is, and can be heard. Never "live" when it is not. */
export function Status() {
  const { board, words, alarm } = usePhone();
  const waiting = createWaiting();
  const status = () => words().app.status;
  const text = createMemo(() => {
    const { is } = board.connection();
    if (is === "live" && board.cannotSave()) return status().cannotSave;
    return is === "live" && waiting() > 0 ? status().sending(waiting()) : status()[is];
  });
  return (
    <p class="status" role="status" data-live={board.connection().is === "live" && !board.cannotSave()}>
      <span class="dot" aria-hidden="true" />
      <span>
        {text()}
        <Show when={board.practice()}>
          <span class="practice"> · {status().practice(board.speed())}</span>
        </Show>
      </span>
      <Show when={!alarm.canSound()}>
        <span> · {status().noSound}</span>
      </Show>
      <Show when={board.connection().is === "lost" && board.heardAtMs()}>
        {(heardAtMs) => (
          <span class="visually-hidden">
            {" "}
            {status().since(words().format.when(heardAtMs(), board.nowMs()))}
          </span>
        )}
      </Show>
    </p>
  );
}

/** What the server cannot check: above the page like what is urgent, since an alert may be missing for it. */
export function ProblemBar() {
  const { board, words } = usePhone();
  return (
    <Show when={board.connection().is === "live" && board.problems().length > 0}>
      <div class="problems">
        <For each={board.problems()}>
          {(problem) => (
            <section class="lost-bar" role="alert">
              <strong>{words().server.problems.say(problem)}</strong>
            </section>
          )}
        </For>
      </div>
    </Show>
  );
}

/** Across the top while there is no connection, or the server cannot save: since when, and what waits. */
export function LostBar() {
  const { board, words } = usePhone();
  const waiting = createWaiting();
  const app = () => words().app;
  const since = () => words().format.when(board.heardAtMs() ?? board.nowMs(), board.nowMs());
  return (
    <>
      <Show when={board.connection().is === "live" && board.cannotSave()}>
        <section class="lost-bar" role="alert">
          <strong>{app().cannotSave.title}</strong>
          <span>
            {app().cannotSave.text(waiting())} {words().server.problems.remedy(board.saveTrouble())}
          </span>
        </section>
      </Show>
      <Show when={board.connection().is === "outdated"}>
        <section class="lost-bar" role="alert">
          <strong>{app().outdated}</strong>
          <span>{app().isOutdated(waiting())}</span>
          <button type="button" class="plain" onClick={() => window.location.reload()}>
            {app().reload}
          </button>
        </section>
      </Show>
      <Show when={board.wasReplaced()}>
        <section class="lost-bar" role="alert">
          <strong>{app().replaced.title}</strong>
          <span>{app().replaced.text}</span>
          <button type="button" class="plain" onClick={() => board.dismissReplaced()}>
            {app().understood}
          </button>
        </section>
      </Show>
      <Show when={board.connection().is === "lost"}>
        <section class="lost-bar" aria-live="polite">
          <strong>{app().lost.title(since())}</strong>
          <span>{app().lost.text(waiting())}</span>
          <Show when={!board.outboxKeeps()}>
            <span>{app().lost.keepsNothing}</span>
          </Show>
        </section>
      </Show>
    </>
  );
}
